/** Texts of the section drawing of a well. */
interface TrendFigures {
  title: string;
  from: string;
  to: string;
  range: string;
  last: string;
}

export const drawingTexts = {
  aboveGround: (height: string) => `${height} above ground`,
  notToScale: 'no depth is known: not to scale',
  unknown: (facts: string) => `Not known: ${facts}.`,
  summary: (depths: string, unknown: string) => `Section through the well. ${depths}.${unknown}`,
  casingTo: (depth: string) => `Casing to ${depth}`,
  staticLevelAt: (depth: string) => `Static level ${depth}`,
  pumpingLevelAt: (depth: string) => `Pumping level ${depth}`,
  wellDrawdown: (depth: string) => `well drawdown ${depth}`,
  checkValveAt: (depth: string) => `Check valve at ${depth}`,
  pipeTo: (depth: string) => `Pipe in the well to ${depth}`,
  pumpSetAt: (depth: string) => `Pump set at ${depth}`,
  dropPipeOf: (pipe: string) => `drop pipe ${pipe}`,
  bottomAt: (depth: string) => `Bottom of the hole ${depth}`,
  holeDepth: 'depth of the hole',
  casingDepth: 'casing depth',
  staticLevel: 'static level',
  pumpingLevel: 'pumping level',
  kindOfPump: 'kind of pump',
  pipeDepth: 'depth of the pipe in the well',
  pumpDepth: 'depth of the pump',
  dropPipe: 'drop pipe',
  checkValves: 'check valves',
  pressureTank: 'pressure tank',
  pressureSwitch: 'pressure switch',
  pumpBelowHole: (pump: string, hole: string) =>
    `The card sets the pump at ${pump} and the bottom of the hole at ${hole}. One is wrong.`,
  casingBelowHole: (casing: string, hole: string) =>
    `The card has casing to ${casing} and the bottom of the hole at ${hole}. One is wrong.`,
  levelBelowHole: (level: string, hole: string) =>
    `The static level is ${level} and the bottom of the hole ${hole}. One is wrong.`,
  levelBelowPumping: (level: string, pumping: string) =>
    `The static level of ${level} is below the pumping level of ${pumping}.`,
  pumpingBelowPump: (level: string, pump: string) =>
    `The pumping level of ${level} is below the pump at ${pump}.`,
  levelBelowPump: (level: string, pump: string) =>
    `The static level of ${level} is below the pump at ${pump}.`,
  notKnown: 'not known',
  tankIs: (tank: string) => `Pressure tank: ${tank}`,
  switchIs: (pressureSwitch: string) => `Pressure switch: ${pressureSwitch}`,
  pumpAboveGround: (pump: string) => `Pump above ground${pump}`,
  trendRange: (min: string, max: string, unit: string) => `${min} to ${max}${unit === '' ? '' : ` ${unit}`}`,
  trendSummary: ({ title, from, to, range, last }: TrendFigures) =>
    `${title}, ${from} to ${to}: ${range}, last ${last}.`,
};

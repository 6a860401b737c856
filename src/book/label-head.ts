/** The well head's label: the hole, what hangs in it and where the water stands, for whoever comes with a hoist. */
import type { LabelLine } from '../../shared/api/labels.ts';
import { sayDepth, sayDiameter, sayFlow, sayMotor } from '../../shared/words/format.ts';
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';
import type { HoleDescription } from '../card/description.ts';
import { figureLine, givenLine, joined, textLine, type LabelFacts } from './label-lines.ts';

export function headLines(facts: LabelFacts): LabelLine[] {
  const { card, pump, measured, units } = facts;
  const hole = card.described?.hole ?? { checkValves: [] };
  const own = card.described?.pumps[pump.id];
  const say = (m: number): string => sayDepth(m, units);
  const level = { written: hole.staticLevelM, measured: measured['static-level'], say, main: true } as const;
  const hangs = pump.kind !== 'jet' && pump.kind !== 'booster';
  return [
    {
      ...textLine('hole, from the ground', hole.depthM === undefined ? undefined : say(hole.depthM)),
      main: true,
    },
    ...(hangs
      ? [
          {
            ...textLine('pump set at', pump.setDepthM === undefined ? undefined : say(pump.setDepthM)),
            main: true as const,
          },
        ]
      : []),
    figureLine('static water level', facts, level),
    ...pumpingLine(facts, say),
    textLine('casing', casingWords(hole, units)),
    textLine(
      'pump',
      joined([
        joined([own?.maker, own?.model], ' '),
        pump.motorW === undefined ? undefined : sayMotor(pump.motorW, units),
      ]),
    ),
    textLine(
      'drop pipe',
      joined(
        [hole.dropPipeM === undefined ? undefined : sayDiameter(hole.dropPipeM, units), hole.dropPipeOf],
        ' ',
      ),
    ),
    textLine('check valves', valveWords(hole, say)),
    textLine('yield', hole.yieldLPerS === undefined ? undefined : sayFlow(hole.yieldLPerS, units)),
    textLine('call for the well', card.described?.firm),
    textLine('drilled', joined([hole.drilled, hole.driller])),
    ...givenLine('well log', hole.log),
    textLine('pump installed', joined([pump.installed, own?.installer])),
  ];
}

function pumpingLine(facts: LabelFacts, say: (m: number) => string): LabelLine[] {
  const measured = facts.measured['pumping-level'];
  return measured ? [figureLine('pumping water level', facts, { measured, say })] : [];
}

function casingWords(
  { casingM, casingOf, casingToM }: HoleDescription,
  units: UnitSystem,
): string | undefined {
  const size = joined([casingM === undefined ? undefined : sayDiameter(casingM, units), casingOf], ' ');
  return joined([size, casingToM === undefined ? undefined : `to ${sayDepth(casingToM, units)}`]);
}

function valveWords({ checkValves }: HoleDescription, say: (m: number) => string): string | undefined {
  return joined(checkValves.map((valve) => ('depthM' in valve ? say(valve.depthM) : valve.beside)));
}

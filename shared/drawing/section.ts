/**
 * The well as a section through the ground: depths to scale, everything at the surface and across not. What is not known is drawn as not
 * known (a broken line, a question mark) and named; nothing is put where nobody measured it.
 */
import type { UnitSystem } from '../quantity/print-quantity.ts';
import { inPeoplesUnits, printQuantity } from '../quantity/print-quantity.ts';
import { spread } from './labels.ts';
import { path, rect, tidy, words, type Drawing, type Shape } from './shape.ts';
import { tank } from './section-tank.ts';

/** What is known of the hole and what hangs in it. Metres down from the ground; what is absent is not known. */
export interface SectionFacts {
  holeM?: number;
  casingToM?: number;
  /** Nominal diameter. */
  casingM?: number;
  casingOf?: string;
  /** Negative where the well flows by itself. */
  staticM?: number;
  pumpingM?: number;
  setM?: number;
  /** Down the hole, or above the ground; undefined where nobody said. */
  pump?: 'in-the-hole' | 'above-ground';
  /** "1 hp", maker and model as far as known. */
  pumpSays?: string;
  /** "1 in polyethylene". */
  dropPipeSays?: string;
  checkValvesM: readonly number[];
  /** Check valves of which only the place is known: "at the pump". */
  checkValvesBeside: readonly string[];
  tankSays?: string;
  switchSays?: string;
}

export interface SectionDrawing extends Drawing {
  /** Each a short name: "static level". */
  unknown: readonly string[];
  /** What cannot all be right, in sentences. */
  odd: readonly string[];
  /** False where no depth is known: then nothing is to scale. */
  toScale: boolean;
}

const WIDTH = 560;
const GROUND_Y = 170;
const DEEP_PX = 470;
const HOLE_X = 190;
const HALF = 24;
const AXIS_X = 112;
const LABEL_X = 268;
/** Under what is deepest some ground is shown. */
const BELOW_SHARE = 0.06;

interface Label {
  y: number;
  lines: string[];
  from: number;
}

export function drawSection(facts: SectionFacts, units: UnitSystem): SectionDrawing {
  const deepest = Math.max(0, ...depthsOf(facts));
  const toScale = deepest > 0;
  const spanM = toScale ? deepest * (1 + BELOW_SHARE) : 1;
  const y = (m: number): number => GROUND_Y + (m / spanM) * DEEP_PX;
  const say = (m: number): string =>
    m < 0 ? `${printQuantity(-m, 'length', units)} above ground` : printQuantity(m, 'length', units);
  const labels = labelsOf(facts, y, say);
  const shapes = [
    ...groundShapes(),
    ...waterShapes(facts, y, spanM),
    ...holeShapes(facts, y, spanM),
    ...pumpShapes(facts, y),
    ...tank(facts, { groundY: GROUND_Y, wellX: HOLE_X }),
    ...(toScale
      ? axisShapes(spanM, units, y)
      : [words('no depth is known: not to scale', { x: LABEL_X, y: GROUND_Y + 60 }, 'small')]),
    ...labelShapes(labels),
  ];
  const unknown = unknownOf(facts);
  return {
    width: WIDTH,
    height: GROUND_Y + DEEP_PX + 20,
    shapes,
    unknown,
    odd: oddOf(facts, say),
    toScale,
    label: `Section through the well. ${labels.map(({ lines }) => lines.join(', ')).join('. ')}.${unknown.length > 0 ? ` Not known: ${unknown.join(', ')}.` : ''}`,
  };
}

function depthsOf(facts: SectionFacts): number[] {
  const { holeM, casingToM, staticM, pumpingM, setM, checkValvesM } = facts;
  return [holeM, casingToM, staticM, pumpingM, setM, ...checkValvesM].filter((m) => m !== undefined);
}

function groundShapes(): Shape[] {
  const hatch = Array.from({ length: WIDTH / 24 }, (_, i) => `M${i * 24 + 12} ${GROUND_Y}l-10 12`).join('');
  return [
    rect({ x: 0, y: GROUND_Y, width: WIDTH, height: DEEP_PX + 20 }, 'soil'),
    path(`M0 ${GROUND_Y}H${WIDTH}`, 'ground'),
    path(hatch, 'hatch'),
  ];
}

function waterShapes(
  { staticM, pumpingM, holeM }: SectionFacts,
  y: (m: number) => number,
  spanM: number,
): Shape[] {
  const bottom = y(holeM ?? spanM);
  const top = staticM === undefined ? undefined : Math.max(y(staticM), GROUND_Y - 22);
  return [
    rect({ x: HOLE_X - HALF, y: GROUND_Y, width: 2 * HALF, height: bottom - GROUND_Y }, 'bore'),
    ...(top === undefined
      ? []
      : [rect({ x: HOLE_X - HALF, y: top, width: 2 * HALF, height: bottom - top }, 'water')]),
    ...(top === undefined ? [] : [path(`M${HOLE_X - HALF} ${tidy(top)}h${2 * HALF}`, 'level')]),
    ...(pumpingM === undefined
      ? []
      : [path(`M${HOLE_X - HALF} ${tidy(y(pumpingM))}h${2 * HALF}`, 'level pumping')]),
  ];
}

/** Casing as far as it is known to go; below it, or where nobody knows how far it goes, the wall is a broken line. */
function holeShapes({ holeM, casingToM }: SectionFacts, y: (m: number) => number, spanM: number): Shape[] {
  const [left, right] = [HOLE_X - HALF, HOLE_X + HALF];
  const wallTo = tidy(y(holeM ?? spanM));
  const casedTo = casingToM === undefined ? GROUND_Y : tidy(Math.min(y(casingToM), wallTo));
  const wall = (kind: string, fromY: number, toY: number): Shape =>
    path(`M${left} ${fromY}V${toY}M${right} ${fromY}V${toY}`, kind);
  return [
    wall('casing', GROUND_Y - 24, casedTo),
    ...(casedTo < wallTo ? [wall('wall', casedTo, wallTo)] : []),
    path(`M${left - 5} ${GROUND_Y - 24}h${2 * HALF + 10}`, 'cap'),
    ...(holeM === undefined
      ? [words('?', { x: HOLE_X, y: wallTo + 18, anchor: 'middle' }, 'question')]
      : [path(`M${left} ${wallTo}H${right}`, 'bottom')]),
  ];
}

const PUMP = { width: 20, height: 40 };

function pumpShapes(facts: SectionFacts, y: (m: number) => number): Shape[] {
  const { setM, pump, checkValvesM } = facts;
  const valves = checkValvesM.map((m) => valve(y(m)));
  if (pump === 'above-ground') {
    const footY = setM === undefined ? GROUND_Y + DEEP_PX * 0.55 : y(setM);
    return [
      path(`M${HOLE_X} ${GROUND_Y - 36}V${tidy(footY)}`, setM === undefined ? 'pipe guessed' : 'pipe'),
      rect({ x: HOLE_X - 22, y: GROUND_Y - 60, width: 44, height: 24, round: 4 }, 'pump'),
      ...valves,
    ];
  }
  if (setM === undefined || pump === undefined) {
    const endY = setM === undefined ? GROUND_Y + DEEP_PX * 0.55 : y(setM);
    return [
      path(`M${HOLE_X} ${GROUND_Y - 10}V${tidy(endY - 16)}`, 'pipe guessed'),
      words('?', { x: HOLE_X, y: endY, anchor: 'middle' }, 'question'),
      ...valves,
    ];
  }
  const topY = y(setM) - PUMP.height / 2;
  return [
    path(`M${HOLE_X} ${GROUND_Y - 10}V${tidy(topY)}`, 'pipe'),
    rect({ x: HOLE_X - PUMP.width / 2, y: topY, ...PUMP, round: 4 }, 'pump'),
    path(`M${HOLE_X - PUMP.width / 2} ${tidy(y(setM))}h${PUMP.width}`, 'inlet'),
    ...valves,
  ];
}

/** A wedge that lets water up and not down. */
function valve(atY: number): Shape {
  return path(
    `M${HOLE_X - 8} ${tidy(atY + 6)}L${HOLE_X} ${tidy(atY - 6)}L${HOLE_X + 8} ${tidy(atY + 6)}Z`,
    'valve',
  );
}

/** Steps of 1, 2 or 5 times a power of ten, about eight of them. */
function axisShapes(spanM: number, units: UnitSystem, y: (m: number) => number): Shape[] {
  const { value: span, unit } = inPeoplesUnits(spanM, 'length', units);
  const perUnitM = spanM / span;
  const rough = span / 8;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((n) => n * power).find((n) => n >= rough) ?? 10 * power;
  // The ground itself is seen without its nought.
  const marks = Array.from({ length: Math.floor(span / step) }, (_, i) => (i + 1) * step);
  return [
    path(`M${AXIS_X} ${GROUND_Y}V${GROUND_Y + DEEP_PX}`, 'axis'),
    ...marks.flatMap((mark) => {
      const markY = tidy(y(mark * perUnitM));
      return [
        path(`M${AXIS_X} ${markY}h-7`, 'axis'),
        words(`${tidy(mark)} ${unit}`, { x: AXIS_X - 11, y: markY + 4, anchor: 'end' }, 'small'),
      ];
    }),
  ];
}

function labelsOf(facts: SectionFacts, y: (m: number) => number, say: (m: number) => string): Label[] {
  const { holeM, casingToM, staticM, pumpingM, setM, pump, checkValvesM } = facts;
  const at = (m: number, lines: (string | undefined)[], from = HOLE_X + HALF): Label => ({
    y: Math.max(y(m), GROUND_Y - 22),
    lines: lines.filter((line) => line !== undefined).flatMap(wrapped),
    from,
  });
  const below = staticM !== undefined && pumpingM !== undefined && pumpingM > staticM;
  return [
    ...(casingToM === undefined ? [] : [at(casingToM, [`Casing to ${say(casingToM)}`, facts.casingOf])]),
    ...(staticM === undefined ? [] : [at(staticM, [`Static level ${say(staticM)}`])]),
    ...(pumpingM === undefined
      ? []
      : [
          at(pumpingM, [
            `Pumping level ${say(pumpingM)}`,
            below ? `well drawdown ${say(pumpingM - staticM)}` : undefined,
          ]),
        ]),
    ...checkValvesM.map((m) => at(m, [`Check valve at ${say(m)}`], HOLE_X + 8)),
    ...(setM === undefined
      ? []
      : [
          at(
            setM,
            [
              pump === 'above-ground' ? `Pipe in the well to ${say(setM)}` : `Pump set at ${say(setM)}`,
              pump === 'above-ground' ? undefined : facts.pumpSays,
              facts.dropPipeSays === undefined ? undefined : `drop pipe ${facts.dropPipeSays}`,
            ],
            HOLE_X + PUMP.width / 2,
          ),
        ]),
    ...(holeM === undefined ? [] : [at(holeM, [`Bottom of the hole ${say(holeM)}`])]),
  ];
}

/** What fits beside the hole at the size of a telephone's text. */
const LONGEST_LINE = 34;

/** Parted at commas; a single long name stays whole. */
function wrapped(text: string): string[] {
  const lines: string[] = [];
  for (const part of text.split(', ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + part.length + 2 <= LONGEST_LINE)
      lines[lines.length - 1] = `${last}, ${part}`;
    else lines.push(part);
  }
  return lines;
}

const LINE_PX = 17;

function labelShapes(labels: readonly Label[]): Shape[] {
  const places = spread(
    labels.map(({ y, lines }) => ({ at: y, size: lines.length * LINE_PX + 6 })),
    { from: GROUND_Y - 40, to: GROUND_Y + DEEP_PX + 20 },
  );
  return labels.flatMap(({ y, lines, from }, i) => {
    const topY = places[i] ?? y;
    return [
      path(`M${from} ${tidy(y)}L${LABEL_X - 34} ${tidy(y)}L${LABEL_X - 8} ${tidy(topY + 10)}`, 'leader'),
      ...lines.map((line, n) =>
        words(line, { x: LABEL_X, y: topY + 14 + n * LINE_PX }, n === 0 ? 'label' : 'small'),
      ),
    ];
  });
}

function unknownOf(facts: SectionFacts): string[] {
  const pumpAbove = facts.pump === 'above-ground';
  const rows: [string, unknown][] = [
    ['depth of the hole', facts.holeM],
    ['how deep the casing goes', facts.casingToM],
    ['static level', facts.staticM],
    ['pumping level', facts.pumpingM],
    ['kind of pump', facts.pump],
    [pumpAbove ? 'how deep the pipe in the well goes' : 'depth of the pump', facts.setM],
    ['drop pipe', facts.dropPipeSays],
    ['check valves', facts.checkValvesM.length + facts.checkValvesBeside.length > 0 || undefined],
    ['pressure tank', facts.tankSays],
    ['pressure switch', facts.switchSays],
  ];
  return rows.filter(([, value]) => value === undefined).map(([name]) => name);
}

function oddOf(
  { holeM, setM, staticM, pumpingM, casingToM }: SectionFacts,
  say: (m: number) => string,
): string[] {
  const deeper = (
    a: number | undefined,
    b: number | undefined,
    sentence: (a: string, b: string) => string,
  ): string[] => (a !== undefined && b !== undefined && a > b ? [sentence(say(a), say(b))] : []);
  return [
    ...deeper(
      setM,
      holeM,
      (a, b) => `The pump is written at ${a} and the hole at ${b}: both can’t be right.`,
    ),
    ...deeper(
      casingToM,
      holeM,
      (a, b) => `The casing is written to ${a} and the hole to ${b}: both can’t be right.`,
    ),
    ...deeper(
      staticM,
      holeM,
      (a, b) => `The static level is written at ${a} and the hole at ${b}: both can’t be right.`,
    ),
    ...deeper(
      staticM,
      pumpingM,
      (a, b) => `The static level is written at ${a}, under the pumping level of ${b}.`,
    ),
    ...deeper(pumpingM, setM, (a, b) => `The pumping level is written at ${a}, under the pump at ${b}.`),
    ...deeper(staticM, setM, (a, b) => `The static level is written at ${a}, under the pump at ${b}.`),
  ];
}

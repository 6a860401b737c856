/**
 * The well as a section through the ground: depths to scale, everything at the surface and across
 * not. What is not known is drawn as not known (a broken line, a question mark) and named; nothing
 * is put where nobody measured it.
 */
import type { UnitSystem } from '../quantity/format-quantity.ts';
import { toDisplayUnits, formatQuantity } from '../quantity/format-quantity.ts';
import { placeLabels } from './place-labels.ts';
import { path, rect, roundToTenth, textShape, type Drawing, type Shape } from './shape.ts';
import { tankShapes } from './section-tank.ts';
import { texts } from './texts.ts';

/**
 * What is known of the hole and what hangs in it. Metres down from the ground; what is absent is
 * not known.
 */
export interface SectionFacts {
  wellDepthM?: number;
  casingDepthM?: number;
  /** Nominal diameter. */
  casingDiameterM?: number;
  casingMaterial?: string;
  /** Negative where the well flows by itself. */
  staticLevelM?: number;
  pumpingLevelM?: number;
  setDepthM?: number;
  /** Down the hole, or above the ground; undefined where nobody said. */
  pump?: 'in-the-well' | 'above-ground';
  /** "1 hp", maker and model as far as known. */
  pumpText?: string;
  /** "1 in polyethylene". */
  dropPipeText?: string;
  checkValvesM: readonly number[];
  /** Check valves of which only the place is known: "at the pump". */
  checkValveLocations: readonly string[];
  tankText?: string;
  switchText?: string;
}

export interface SectionDrawing extends Drawing {
  /** Each a short name: "static level". */
  unknown: readonly string[];
  /** What cannot all be right, in sentences. */
  contradictions: readonly string[];
  /** False where no depth is known: then nothing is to scale. */
  toScale: boolean;
}

const WIDTH = 560;
const GROUND_Y = 170;
const DEPTH_PX = 470;
const HOLE_X = 190;
const HALF_WIDTH = 24;
const AXIS_X = 112;
const LABEL_X = 268;
/** Under what is deepest some ground is shown. */
const BELOW_RATIO = 0.06;

interface Label {
  y: number;
  lines: string[];
  from: number;
}

export function drawSection(facts: SectionFacts, units: UnitSystem): SectionDrawing {
  const deepest = Math.max(0, ...depthsOf(facts));
  const toScale = deepest > 0;
  const spanM = toScale ? deepest * (1 + BELOW_RATIO) : 1;
  const y = (m: number): number => GROUND_Y + (m / spanM) * DEPTH_PX;
  const format = (m: number): string =>
    m < 0 ? texts().aboveGround(formatQuantity(-m, 'length', units)) : formatQuantity(m, 'length', units);
  const labels = labelsOf(facts, y, format);
  const shapes = [
    ...groundShapes(),
    ...waterShapes(facts, y, spanM),
    ...holeShapes(facts, y, spanM),
    ...pumpShapes(facts, y),
    ...tankShapes(facts, { groundY: GROUND_Y, wellX: HOLE_X }),
    ...(toScale
      ? axisShapes(spanM, units, y)
      : [textShape(texts().notToScale, { x: LABEL_X, y: GROUND_Y + 60 }, 'small')]),
    ...labelShapes(labels),
  ];
  const unknown = unknownOf(facts);
  return {
    width: WIDTH,
    height: GROUND_Y + DEPTH_PX + 20,
    shapes,
    unknown,
    contradictions: contradictionsOf(facts, format),
    toScale,
    label: texts().summary(
      labels.map(({ lines }) => lines.join(', ')).join('. '),
      unknown.length > 0 ? texts().unknown(unknown.join(', ')) : '',
    ),
  };
}

function depthsOf(facts: SectionFacts): number[] {
  const { wellDepthM, casingDepthM, staticLevelM, pumpingLevelM, setDepthM, checkValvesM } = facts;
  return [wellDepthM, casingDepthM, staticLevelM, pumpingLevelM, setDepthM, ...checkValvesM].filter(
    (m) => m !== undefined,
  );
}

function groundShapes(): Shape[] {
  const hatch = Array.from({ length: WIDTH / 24 }, (_, i) => `M${i * 24 + 12} ${GROUND_Y}l-10 12`).join('');
  return [
    rect({ x: 0, y: GROUND_Y, width: WIDTH, height: DEPTH_PX + 20 }, 'soil'),
    path(`M0 ${GROUND_Y}H${WIDTH}`, 'ground'),
    path(hatch, 'hatch'),
  ];
}

function waterShapes(
  { staticLevelM, pumpingLevelM, wellDepthM }: SectionFacts,
  y: (m: number) => number,
  spanM: number,
): Shape[] {
  const bottom = y(wellDepthM ?? spanM);
  const top = staticLevelM === undefined ? undefined : Math.max(y(staticLevelM), GROUND_Y - 22);
  return [
    rect({ x: HOLE_X - HALF_WIDTH, y: GROUND_Y, width: 2 * HALF_WIDTH, height: bottom - GROUND_Y }, 'bore'),
    ...(top === undefined
      ? []
      : [rect({ x: HOLE_X - HALF_WIDTH, y: top, width: 2 * HALF_WIDTH, height: bottom - top }, 'water')]),
    ...(top === undefined
      ? []
      : [path(`M${HOLE_X - HALF_WIDTH} ${roundToTenth(top)}h${2 * HALF_WIDTH}`, 'level')]),
    ...(pumpingLevelM === undefined
      ? []
      : [
          path(
            `M${HOLE_X - HALF_WIDTH} ${roundToTenth(y(pumpingLevelM))}h${2 * HALF_WIDTH}`,
            'level pumping',
          ),
        ]),
  ];
}

/**
 * Casing as far as it is known to go; below it, or where nobody knows how far it goes, the wall is
 * a broken line.
 */
function holeShapes(
  { wellDepthM, casingDepthM }: SectionFacts,
  y: (m: number) => number,
  spanM: number,
): Shape[] {
  const [left, right] = [HOLE_X - HALF_WIDTH, HOLE_X + HALF_WIDTH];
  const wallTo = roundToTenth(y(wellDepthM ?? spanM));
  const casedTo = casingDepthM === undefined ? GROUND_Y : roundToTenth(Math.min(y(casingDepthM), wallTo));
  const wall = (kind: string, fromY: number, toY: number): Shape =>
    path(`M${left} ${fromY}V${toY}M${right} ${fromY}V${toY}`, kind);
  return [
    wall('casing', GROUND_Y - 24, casedTo),
    ...(casedTo < wallTo ? [wall('wall', casedTo, wallTo)] : []),
    path(`M${left - 5} ${GROUND_Y - 24}h${2 * HALF_WIDTH + 10}`, 'cap'),
    ...(wellDepthM === undefined
      ? [textShape('?', { x: HOLE_X, y: wallTo + 18, anchor: 'middle' }, 'question')]
      : [path(`M${left} ${wallTo}H${right}`, 'bottom')]),
  ];
}

const PUMP = { width: 20, height: 40 };

function pumpShapes(facts: SectionFacts, y: (m: number) => number): Shape[] {
  const { setDepthM, pump, checkValvesM } = facts;
  const valves = checkValvesM.map((m) => valve(y(m)));
  if (pump === 'above-ground') {
    const footY = setDepthM === undefined ? GROUND_Y + DEPTH_PX * 0.55 : y(setDepthM);
    return [
      path(
        `M${HOLE_X} ${GROUND_Y - 36}V${roundToTenth(footY)}`,
        setDepthM === undefined ? 'pipe unknown' : 'pipe',
      ),
      rect({ x: HOLE_X - 22, y: GROUND_Y - 60, width: 44, height: 24, round: 4 }, 'pump'),
      ...valves,
    ];
  }
  if (setDepthM === undefined || pump === undefined) {
    const endY = setDepthM === undefined ? GROUND_Y + DEPTH_PX * 0.55 : y(setDepthM);
    return [
      path(`M${HOLE_X} ${GROUND_Y - 10}V${roundToTenth(endY - 16)}`, 'pipe unknown'),
      textShape('?', { x: HOLE_X, y: endY, anchor: 'middle' }, 'question'),
      ...valves,
    ];
  }
  const topY = y(setDepthM) - PUMP.height / 2;
  return [
    path(`M${HOLE_X} ${GROUND_Y - 10}V${roundToTenth(topY)}`, 'pipe'),
    rect({ x: HOLE_X - PUMP.width / 2, y: topY, ...PUMP, round: 4 }, 'pump'),
    path(`M${HOLE_X - PUMP.width / 2} ${roundToTenth(y(setDepthM))}h${PUMP.width}`, 'inlet'),
    ...valves,
  ];
}

/** A wedge that lets water up and not down. */
function valve(atY: number): Shape {
  return path(
    `M${HOLE_X - 8} ${roundToTenth(atY + 6)}L${HOLE_X} ${roundToTenth(atY - 6)}L${HOLE_X + 8} ${roundToTenth(atY + 6)}Z`,
    'valve',
  );
}

/** Steps of 1, 2 or 5 times a power of ten, about eight of them. */
function axisShapes(spanM: number, units: UnitSystem, y: (m: number) => number): Shape[] {
  const { value: span, unit } = toDisplayUnits(spanM, 'length', units);
  const perUnitM = spanM / span;
  const rough = span / 8;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((n) => n * power).find((n) => n >= rough) ?? 10 * power;
  // The ground itself is seen without its nought.
  const marks = Array.from({ length: Math.floor(span / step) }, (_, i) => (i + 1) * step);
  return [
    path(`M${AXIS_X} ${GROUND_Y}V${GROUND_Y + DEPTH_PX}`, 'axis'),
    ...marks.flatMap((mark) => {
      const markY = roundToTenth(y(mark * perUnitM));
      return [
        path(`M${AXIS_X} ${markY}h-7`, 'axis'),
        textShape(`${roundToTenth(mark)} ${unit}`, { x: AXIS_X - 11, y: markY + 4, anchor: 'end' }, 'small'),
      ];
    }),
  ];
}

function labelsOf(facts: SectionFacts, y: (m: number) => number, format: (m: number) => string): Label[] {
  const { wellDepthM, casingDepthM, staticLevelM, pumpingLevelM, setDepthM, pump, checkValvesM } = facts;
  const at = (m: number, lines: (string | undefined)[], from = HOLE_X + HALF_WIDTH): Label => ({
    y: Math.max(y(m), GROUND_Y - 22),
    lines: lines.filter((line) => line !== undefined).flatMap(wrapAtCommas),
    from,
  });
  const below = staticLevelM !== undefined && pumpingLevelM !== undefined && pumpingLevelM > staticLevelM;
  return [
    ...(casingDepthM === undefined
      ? []
      : [at(casingDepthM, [texts().casingTo(format(casingDepthM)), facts.casingMaterial])]),
    ...(staticLevelM === undefined ? [] : [at(staticLevelM, [texts().staticLevelAt(format(staticLevelM))])]),
    ...(pumpingLevelM === undefined
      ? []
      : [
          at(pumpingLevelM, [
            texts().pumpingLevelAt(format(pumpingLevelM)),
            below ? texts().wellDrawdown(format(pumpingLevelM - staticLevelM)) : undefined,
          ]),
        ]),
    ...checkValvesM.map((m) => at(m, [texts().checkValveAt(format(m))], HOLE_X + 8)),
    ...(setDepthM === undefined
      ? []
      : [
          at(
            setDepthM,
            [
              pump === 'above-ground'
                ? texts().pipeTo(format(setDepthM))
                : texts().pumpSetAt(format(setDepthM)),
              pump === 'above-ground' ? undefined : facts.pumpText,
              facts.dropPipeText === undefined ? undefined : texts().dropPipeOf(facts.dropPipeText),
            ],
            HOLE_X + PUMP.width / 2,
          ),
        ]),
    ...(wellDepthM === undefined ? [] : [at(wellDepthM, [texts().bottomAt(format(wellDepthM))])]),
  ];
}

/** What fits beside the hole at the size of a telephone's text. */
const MAX_LINE_CHARACTERS = 34;

/** Parted at commas; a single long name stays whole. */
function wrapAtCommas(text: string): string[] {
  const lines: string[] = [];
  for (const part of text.split(', ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + part.length + 2 <= MAX_LINE_CHARACTERS)
      lines[lines.length - 1] = `${last}, ${part}`;
    else lines.push(part);
  }
  return lines;
}

const LINE_PX = 17;

function labelShapes(labels: readonly Label[]): Shape[] {
  const places = placeLabels(
    labels.map(({ y, lines }) => ({ center: y, size: lines.length * LINE_PX + 6 })),
    { from: GROUND_Y - 40, to: GROUND_Y + DEPTH_PX + 20 },
  );
  return labels.flatMap(({ y, lines, from }, i) => {
    const topY = places[i] ?? y;
    return [
      path(
        `M${from} ${roundToTenth(y)}L${LABEL_X - 34} ${roundToTenth(y)}L${LABEL_X - 8} ${roundToTenth(topY + 10)}`,
        'leader',
      ),
      ...lines.map((line, n) =>
        textShape(line, { x: LABEL_X, y: topY + 14 + n * LINE_PX }, n === 0 ? 'label' : 'small'),
      ),
    ];
  });
}

function unknownOf(facts: SectionFacts): string[] {
  const pumpAbove = facts.pump === 'above-ground';
  const rows: [string, unknown][] = [
    [texts().holeDepth, facts.wellDepthM],
    [texts().casingDepth, facts.casingDepthM],
    [texts().staticLevel, facts.staticLevelM],
    [texts().pumpingLevel, facts.pumpingLevelM],
    [texts().kindOfPump, facts.pump],
    [pumpAbove ? texts().pipeDepth : texts().pumpDepth, facts.setDepthM],
    [texts().dropPipe, facts.dropPipeText],
    [texts().checkValves, facts.checkValvesM.length + facts.checkValveLocations.length > 0 || undefined],
    [texts().pressureTank, facts.tankText],
    [texts().pressureSwitch, facts.switchText],
  ];
  return rows.filter(([, value]) => value === undefined).map(([name]) => name);
}

function contradictionsOf(
  { wellDepthM, setDepthM, staticLevelM, pumpingLevelM, casingDepthM }: SectionFacts,
  format: (m: number) => string,
): string[] {
  const deeper = (
    a: number | undefined,
    b: number | undefined,
    sentence: (a: string, b: string) => string,
  ): string[] => (a !== undefined && b !== undefined && a > b ? [sentence(format(a), format(b))] : []);
  return [
    ...deeper(setDepthM, wellDepthM, (a, b) => texts().pumpBelowHole(a, b)),
    ...deeper(casingDepthM, wellDepthM, (a, b) => texts().casingBelowHole(a, b)),
    ...deeper(staticLevelM, wellDepthM, (a, b) => texts().levelBelowHole(a, b)),
    ...deeper(staticLevelM, pumpingLevelM, (a, b) => texts().levelBelowPumping(a, b)),
    ...deeper(pumpingLevelM, setDepthM, (a, b) => texts().pumpingBelowPump(a, b)),
    ...deeper(staticLevelM, setDepthM, (a, b) => texts().levelBelowPump(a, b)),
  ];
}

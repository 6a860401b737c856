/**
 * The well head's label: the hole, what hangs in it and where the water stands, for whoever comes
 * with a hoist.
 */
import type { LabelLine } from '../../../shared/api/labels.ts';
import { formatDepth, formatDiameter, formatFlow, formatMotorPower } from '../../../shared/text/en/format.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { HoleDescription } from '../../core/domain/description.ts';
import { figureLine, optionalLine, joinKnown, textLine, type LabelFacts } from './label-lines.ts';
import { texts } from './texts.ts';

export function wellHeadLines(facts: LabelFacts): LabelLine[] {
  const { card, pump, measured, units } = facts;
  const hole = card.description?.hole ?? { checkValves: [] };
  const own = card.description?.pumps[pump.id];
  const format = (m: number): string => formatDepth(m, units);
  const level = {
    written: hole.staticLevelM,
    measured: measured['static-level'],
    format,
    prominent: true,
  } as const;
  const hangs = pump.kind !== 'jet' && pump.kind !== 'booster';
  return [
    {
      ...textLine(texts().hole, hole.depthM === undefined ? undefined : format(hole.depthM)),
      prominent: true,
    },
    ...(hangs
      ? [
          {
            ...textLine(texts().pumpSetAt, pump.setDepthM === undefined ? undefined : format(pump.setDepthM)),
            prominent: true as const,
          },
        ]
      : []),
    figureLine(texts().staticLevel, facts, level),
    ...pumpingLevelLine(facts, format),
    textLine(texts().casing, casingWords(hole, units)),
    textLine(
      texts().pump,
      joinKnown([
        joinKnown([own?.maker, own?.model], ' '),
        pump.motorW === undefined ? undefined : formatMotorPower(pump.motorW, units),
      ]),
    ),
    textLine(
      texts().dropPipe,
      joinKnown(
        [
          hole.dropPipeDiameterM === undefined ? undefined : formatDiameter(hole.dropPipeDiameterM, units),
          hole.dropPipeMaterial,
        ],
        ' ',
      ),
    ),
    textLine(texts().checkValves, valveWords(hole, format)),
    textLine(texts().yield, hole.yieldLPerS === undefined ? undefined : formatFlow(hole.yieldLPerS, units)),
    textLine(texts().whomToCall, card.description?.firm),
    textLine(texts().drilled, joinKnown([hole.drilled, hole.driller])),
    ...optionalLine(texts().wellLog, hole.logNumber),
    textLine(texts().pumpInstalled, joinKnown([pump.installed, own?.installer])),
  ];
}

function pumpingLevelLine(facts: LabelFacts, format: (m: number) => string): LabelLine[] {
  const measured = facts.measured['pumping-level'];
  return measured ? [figureLine(texts().pumpingLevel, facts, { measured, format })] : [];
}

function casingWords(
  { casingDiameterM, casingMaterial, casingDepthM }: HoleDescription,
  units: UnitSystem,
): string | undefined {
  const size = joinKnown(
    [casingDiameterM === undefined ? undefined : formatDiameter(casingDiameterM, units), casingMaterial],
    ' ',
  );
  return joinKnown([
    size,
    casingDepthM === undefined ? undefined : texts().to(formatDepth(casingDepthM, units)),
  ]);
}

function valveWords({ checkValves }: HoleDescription, format: (m: number) => string): string | undefined {
  return joinKnown(checkValves.map((valve) => ('depthM' in valve ? format(valve.depthM) : valve.beside)));
}

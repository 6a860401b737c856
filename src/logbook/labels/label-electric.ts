/**
 * Labels of the control box, or what stands in its place, and of the breaker panel: the motor's
 * plate, its amps written and measured, breaker and wires. Values of capacitors are a qualified
 * person's readings, and blanks for one where there are none.
 */
import type { LabelLine } from '../../../shared/api/labels.ts';
import { formatQuantity } from '../../../shared/quantity/format-quantity.ts';
import { formatAmps, formatDuration, formatMotorPower, formatVolts } from '../../../shared/text/en/format.ts';
import { LABEL_TITLES } from '../../../shared/text/en/label-words.ts';
import type { Card, PumpCard } from '../../core/domain/card.ts';
import type { ElectricalDescription } from '../../core/domain/description.ts';
import { figureLine, optionalLine, joinKnown, textLine, wiresLine, type LabelFacts } from './label-lines.ts';
import { texts } from './texts.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';

/** What stands where a three-wire motor has its control box. */
export function controlBoxTitle(
  { control, phase, wires, kind }: PumpCard,
  controlBox: string | undefined,
): string {
  if (control === 'variable-speed') return LABEL_TITLES.drive;
  if (controlBox !== undefined) return LABEL_TITLES['control-box'];
  if (phase === 3) return LABEL_TITLES.starter;
  const builtIn = wires === 2 || kind === 'jet' || kind === 'booster';
  return builtIn ? LABEL_TITLES.disconnect : LABEL_TITLES['control-box'];
}

export function controlBoxLines(facts: LabelFacts): LabelLine[] {
  const { card, pump, measured } = facts;
  const own = card.description?.pumps[pump.id];
  const wires: ElectricalDescription['wires'] = card.description?.electrical.wires ?? {};
  const title = controlBoxTitle(pump, own?.controlBox);
  const capacitor = measured.capacitor;
  return [
    motorLine(facts),
    ampsLine(facts),
    ...optionalLine(
      texts().restarts,
      pump.protectorRestartS === undefined ? undefined : formatDuration(pump.protectorRestartS),
    ).map((line) => ({ ...line, prominent: true as const })),
    ...(title === LABEL_TITLES.disconnect
      ? []
      : [textLine(controlBoxName(title), own?.driveModel ?? own?.controlBox)]),
    ...(title === LABEL_TITLES['control-box']
      ? [
          figureLine(texts().capacitor, facts, {
            measured: capacitor,
            format: (uF) => formatQuantity(uF, 'capacitance', facts.units),
          }),
        ]
      : []),
    wiresLine(texts().wiresByTerminal, wiresFor(wires, title)),
    textLine(texts().breaker, breakerWords(card)),
    textLine(texts().pump, joinKnown([own?.maker, own?.model], ' ')),
    textLine(texts().installed, joinKnown([pump.installed, own?.installer])),
  ];
}

function wiresFor(wires: ElectricalDescription['wires'], title: string): string[] | undefined {
  const { drive, disconnect, controlBox } = wires;
  return { [LABEL_TITLES.drive]: drive, [LABEL_TITLES.disconnect]: disconnect }[title] ?? controlBox;
}

function controlBoxName(title: string): string {
  return title === LABEL_TITLES.drive ? 'drive' : title === LABEL_TITLES.starter ? 'starter' : 'box';
}

const NO_ELECTRICAL: ElectricalDescription = { wires: {}, photos: [] };

export function panelLines(facts: LabelFacts): LabelLine[] {
  const { card, pump } = facts;
  const { breaker, breakerA, panel, disconnect, cable, wires } =
    card.description?.electrical ?? NO_ELECTRICAL;
  return [
    { ...textLine(texts().breakerNumber, breaker), prominent: true },
    {
      ...textLine(texts().breakerSize, breakerA === undefined ? undefined : formatAmps(breakerA)),
      prominent: true,
    },
    motorLine(facts),
    ampsLine(facts),
    textLine(texts().whomToCall, card.description?.firm),
    textLine(texts().panel, panel),
    textLine(texts().disconnect, disconnect ?? card.description?.where.disconnect),
    textLine(texts().cable, cable),
    ...(wires.panel ? [wiresLine(texts().wiresByTerminal, wires.panel)] : []),
    ...optionalLine(
      texts().protectorRestarts,
      pump.protectorRestartS === undefined ? undefined : formatDuration(pump.protectorRestartS),
    ),
  ];
}

/** "1 hp, 230 V", with phases and wires in its name: they are what a replacement must fit. */
function motorLine({ pump, units }: LabelFacts): LabelLine {
  const { motorW, volts, phase, wires } = pump;
  const name =
    joinKnown([texts().motor, phase && texts().phase(phase), wires && texts().wires(wires)]) ?? texts().motor;
  return {
    ...textLine(
      name,
      joinKnown([
        motorW === undefined ? undefined : formatMotorPower(motorW, units),
        volts === undefined ? undefined : formatVolts(volts),
      ]),
    ),
    prominent: true,
  };
}

function ampsLine(facts: LabelFacts): LabelLine {
  const { pump, measured } = facts;
  const line = figureLine(texts().serviceFactorAmps, facts, {
    written: pump.maxAmps,
    measured: undefined,
    format: formatAmps,
    prominent: true,
  });
  const { amps } = measured;
  return {
    ...line,
    ...(amps && { detail: texts().running(formatAmps(amps.si), localDate(amps.atMs, facts.card.timeZone)) }),
  };
}

/** "14/16, 20 A, main panel in the hall"; undefined where nothing is known. */
export function breakerWords(card: Card): string | undefined {
  const { breaker, breakerA, panel } = card.description?.electrical ?? {};
  return joinKnown([breaker, breakerA === undefined ? undefined : formatAmps(breakerA), panel]);
}

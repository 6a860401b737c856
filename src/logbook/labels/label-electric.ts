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
      'starts again by itself after',
      pump.protectorRestartS === undefined ? undefined : formatDuration(pump.protectorRestartS),
    ).map((line) => ({ ...line, prominent: true as const })),
    ...(title === LABEL_TITLES.disconnect
      ? []
      : [textLine(controlBoxName(title), own?.driveModel ?? own?.controlBox)]),
    ...(title === LABEL_TITLES['control-box']
      ? [
          figureLine('capacitor', facts, {
            measured: capacitor,
            format: (uF) => formatQuantity(uF, 'capacitance', facts.units),
          }),
        ]
      : []),
    wiresLine('wires by terminal', wiresFor(wires, title)),
    textLine('breaker', breakerWords(card)),
    textLine('pump', joinKnown([own?.maker, own?.model], ' ')),
    textLine('installed', joinKnown([pump.installed, own?.installer])),
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
    { ...textLine('breaker number', breaker), prominent: true },
    {
      ...textLine('breaker size', breakerA === undefined ? undefined : formatAmps(breakerA)),
      prominent: true,
    },
    motorLine(facts),
    ampsLine(facts),
    textLine('call for the well', card.description?.firm),
    textLine('panel', panel),
    textLine('disconnect', disconnect ?? card.description?.where.disconnect),
    textLine('cable to the pump', cable),
    ...(wires.panel ? [wiresLine('wires by terminal', wires.panel)] : []),
    ...optionalLine(
      'pump protector starts it again after',
      pump.protectorRestartS === undefined ? undefined : formatDuration(pump.protectorRestartS),
    ),
  ];
}

/** "1 hp, 230 V", with phases and wires in its name: they are what a replacement must fit. */
function motorLine({ pump, units }: LabelFacts): LabelLine {
  const { motorW, volts, phase, wires } = pump;
  const name = joinKnown(['motor', phase && `${phase} phase`, wires && `${wires} wires`]) ?? 'motor';
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
  const line = figureLine('service-factor amps', facts, {
    written: pump.maxAmps,
    measured: undefined,
    format: formatAmps,
    prominent: true,
  });
  const running = measured.amps && figureLine('', facts, { measured: measured.amps, format: formatAmps });
  return { ...line, ...(running && { detail: `running ${running.value}, ${running.detail}` }) };
}

/** "14/16, 20 A, main panel in the hall"; undefined where nothing is known. */
export function breakerWords(card: Card): string | undefined {
  const { breaker, breakerA, panel } = card.description?.electrical ?? {};
  return joinKnown([breaker, breakerA === undefined ? undefined : formatAmps(breakerA), panel]);
}

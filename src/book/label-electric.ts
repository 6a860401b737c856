/**
 * Labels of the control box, or what stands in its place, and of the breaker panel: the motor's plate, its amps written and measured,
 * breaker and wires. Values of capacitors are a qualified person's readings, and blanks for one where there are none.
 */
import type { LabelLine } from '../../shared/api/labels.ts';
import { printQuantity } from '../../shared/quantity/print-quantity.ts';
import { sayAmps, sayDuration, sayMotor, sayVolts } from '../../shared/words/format.ts';
import { LABEL_TITLES } from '../../shared/words/label-words.ts';
import type { Card, PumpCard } from '../card/card.ts';
import type { ElectricalDescription } from '../card/description.ts';
import { figureLine, givenLine, joined, textLine, wiresLine, type LabelFacts } from './label-lines.ts';

/** What stands where a three-wire motor has its control box. */
export function boxTitle({ control, phase, wires, kind }: PumpCard, controlBox: string | undefined): string {
  if (control === 'variable-speed') return LABEL_TITLES.drive;
  if (controlBox !== undefined) return LABEL_TITLES['control-box'];
  if (phase === 3) return LABEL_TITLES.starter;
  const builtIn = wires === 2 || kind === 'jet' || kind === 'booster';
  return builtIn ? LABEL_TITLES.disconnect : LABEL_TITLES['control-box'];
}

export function boxLines(facts: LabelFacts): LabelLine[] {
  const { card, pump, measured } = facts;
  const own = card.described?.pumps[pump.id];
  const wires: ElectricalDescription['wires'] = card.described?.electrical.wires ?? {};
  const title = boxTitle(pump, own?.controlBox);
  const capacitor = measured.capacitor;
  return [
    motorLine(facts),
    ampsLine(facts),
    ...givenLine(
      'starts again by itself after',
      pump.protectorRestartS === undefined ? undefined : sayDuration(pump.protectorRestartS),
    ).map((line) => ({ ...line, main: true as const })),
    ...(title === LABEL_TITLES.disconnect ? [] : [textLine(boxName(title), own?.drive ?? own?.controlBox)]),
    ...(title === LABEL_TITLES['control-box']
      ? [
          figureLine('capacitor', facts, {
            measured: capacitor,
            say: (uF) => printQuantity(uF, 'capacitance', facts.units),
          }),
        ]
      : []),
    wiresLine('wires by terminal', wiresAt(wires, title)),
    textLine('breaker', breakerWords(card)),
    textLine('pump', joined([own?.maker, own?.model], ' ')),
    textLine('installed', joined([pump.installed, own?.installer])),
  ];
}

function wiresAt(wires: ElectricalDescription['wires'], title: string): string[] | undefined {
  const { drive, disconnect, controlBox } = wires;
  return { [LABEL_TITLES.drive]: drive, [LABEL_TITLES.disconnect]: disconnect }[title] ?? controlBox;
}

function boxName(title: string): string {
  return title === LABEL_TITLES.drive ? 'drive' : title === LABEL_TITLES.starter ? 'starter' : 'box';
}

const NOTHING_WIRED: ElectricalDescription = { wires: {}, photos: [] };

export function panelLines(facts: LabelFacts): LabelLine[] {
  const { card, pump } = facts;
  const { breaker, breakerA, panel, disconnect, cable, wires } = card.described?.electrical ?? NOTHING_WIRED;
  return [
    { ...textLine('breaker number', breaker), main: true },
    { ...textLine('breaker size', breakerA === undefined ? undefined : sayAmps(breakerA)), main: true },
    motorLine(facts),
    ampsLine(facts),
    textLine('call for the well', card.described?.firm),
    textLine('panel', panel),
    textLine('disconnect', disconnect ?? card.described?.where.disconnect),
    textLine('cable to the pump', cable),
    ...(wires.panel ? [wiresLine('wires by terminal', wires.panel)] : []),
    ...givenLine(
      'pump protector starts it again after',
      pump.protectorRestartS === undefined ? undefined : sayDuration(pump.protectorRestartS),
    ),
  ];
}

/** "1 hp, 230 V", with phases and wires in its name: they are what a replacement must fit. */
function motorLine({ pump, units }: LabelFacts): LabelLine {
  const { motorW, volts, phase, wires } = pump;
  const name = joined(['motor', phase && `${phase} phase`, wires && `${wires} wires`]) ?? 'motor';
  return {
    ...textLine(
      name,
      joined([
        motorW === undefined ? undefined : sayMotor(motorW, units),
        volts === undefined ? undefined : sayVolts(volts),
      ]),
    ),
    main: true,
  };
}

function ampsLine(facts: LabelFacts): LabelLine {
  const { pump, measured } = facts;
  const line = figureLine('service-factor amps', facts, {
    written: pump.maxAmps,
    measured: undefined,
    say: sayAmps,
    main: true,
  });
  const running = measured.amps && figureLine('', facts, { measured: measured.amps, say: sayAmps });
  return { ...line, ...(running && { beside: `running ${running.value}, ${running.beside}` }) };
}

/** "14/16, 20 A, main panel in the hall"; undefined where nothing is known. */
export function breakerWords(card: Card): string | undefined {
  const { breaker, breakerA, panel } = card.described?.electrical ?? {};
  return joined([breaker, breakerA === undefined ? undefined : sayAmps(breakerA), panel]);
}

/**
 * What to have ready for whoever comes: the facts of pump, tank and switch, and what is usual, as far as they are known. What a technician
 * will ask for and nobody wrote down is listed as missing, so that it can be looked up while there is time.
 */
import { dateWords } from '../../shared/api/time-words.ts';
import type { PumpDetail, WellDetail } from '../../shared/api/wells.ts';
import { printQuantity } from '../../shared/quantity/print-quantity.ts';
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';
import type { Dimension } from '../../shared/quantity/units.ts';
import { sayDuration } from '../../shared/words/format.ts';

export interface Ready {
  known: [name: string, value: string][];
  missing: string[];
}

export function readyFor(detail: WellDetail, pump: PumpDetail | undefined, units: UnitSystem): Ready {
  const { card } = detail;
  const print = (value: number | undefined, dimension: Dimension): string | undefined =>
    value === undefined ? undefined : printQuantity(value, dimension, units);
  const { baseline } = pump ?? {};
  const facts: [name: string, value: string | undefined, askedFor?: string][] = [
    [
      'Pump',
      joined([pump?.kind, print(pump?.motorW, 'power'), print(pump?.ratedLPerS, 'flow')], pump?.motorW),
      'the pump’s kind and power',
    ],
    ['Motor', motorWords(pump, units), 'the motor’s plate'],
    ['Set at', print(pump?.setDepthM ?? card.setDepthM, 'length'), 'how deep it is set'],
    [
      'Put in',
      // Of some pumps only the year is known.
      pump?.installed?.length === 10
        ? dateWords(Date.parse(pump.installed), 'UTC', detail.nowMs)
        : pump?.installed,
      'when it was put in',
    ],
    [
      'Tank',
      joined([card.tankKind?.replace('-', ' '), print(card.tankL, 'volume')], card.tankL),
      'the tank’s kind and size',
    ],
    [
      'Precharge',
      card.tankKind === 'plain' ? '' : print(card.prechargeKpa, 'pressure'),
      'the tank’s precharge',
    ],
    [
      'Switch',
      joined([between(print(card.cutInKpa, 'pressure'), print(card.cutOutKpa, 'pressure'))], card.cutInKpa),
    ],
    ['Relief valve', print(card.reliefKpa, 'pressure')],
    ['Usual amps', print(baseline?.amps, 'current') ?? ''],
    [
      'Usual cut-in and cut-out',
      between(print(baseline?.cutInKpa, 'pressure'), print(baseline?.cutOutKpa, 'pressure')) ?? '',
    ],
    ['A usual run', baseline?.ranS === undefined ? '' : sayDuration(baseline.ranS)],
  ];
  return {
    known: facts.flatMap(([name, value]): [string, string][] => (value ? [[name, value]] : [])),
    // An empty text is not known yet; it is for us to learn and not for people to write.
    missing: facts.flatMap(([name, value, askedFor = `the ${name.toLowerCase()}`]) =>
      value === undefined ? [askedFor] : [],
    ),
  };
}

function motorWords(pump: PumpDetail | undefined, units: UnitSystem): string | undefined {
  return joined(
    [
      pump?.volts === undefined ? undefined : printQuantity(pump.volts, 'voltage', units),
      pump?.phase === undefined ? undefined : pump.phase === 3 ? 'three phases' : 'single phase',
      pump?.wires === undefined ? undefined : `${pump.wires} wires`,
      pump?.maxAmps === undefined ? undefined : `at most ${printQuantity(pump.maxAmps, 'current', units)}`,
    ],
    pump?.volts ?? pump?.maxAmps,
  );
}

/** The parts that are known; missing where the one that matters is. */
function joined(parts: readonly (string | undefined)[], matters: unknown): string | undefined {
  const known = parts.filter((part) => part !== undefined);
  return matters === undefined && known.length < 2 ? undefined : known.join(', ');
}

function between(from: string | undefined, to: string | undefined): string | undefined {
  return from === undefined || to === undefined ? undefined : `${from} to ${to}`;
}

/**
 * What to have ready for whoever comes: the facts of pump, tank and switch, and what is usual, as
 * far as they are known. What a technician will ask for and nobody wrote down is listed as missing,
 * so that it can be looked up while there is time.
 */
import { dateWords } from '../../shared/text/en/time-words.ts';
import type { PumpDetail, WellDetail } from '../../shared/api/wells.ts';
import { formatQuantity } from '../../shared/quantity/format-quantity.ts';
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import type { Dimension } from '../../shared/quantity/units.ts';
import { formatDuration } from '../../shared/text/en/format.ts';

export interface ServiceFacts {
  known: [name: string, value: string][];
  missing: string[];
}

export function serviceFacts(
  detail: WellDetail,
  pump: PumpDetail | undefined,
  units: UnitSystem,
): ServiceFacts {
  const { card } = detail;
  const format = (value: number | undefined, dimension: Dimension): string | undefined =>
    value === undefined ? undefined : formatQuantity(value, dimension, units);
  const { baseline } = pump ?? {};
  const facts: [name: string, value: string | undefined, missingName?: string][] = [
    [
      'Pump',
      joinKnown([pump?.kind, format(pump?.motorW, 'power'), format(pump?.ratedLPerS, 'flow')], pump?.motorW),
      'the pump’s kind and power',
    ],
    ['Motor', motorWords(pump, units), 'the motor’s plate'],
    ['Set at', format(pump?.setDepthM ?? card.setDepthM, 'length'), 'how deep it is set'],
    [
      'Installed',
      // Of some pumps only the year is known.
      pump?.installed?.length === 10
        ? dateWords(Date.parse(pump.installed), 'UTC', detail.nowMs)
        : pump?.installed,
      'when it was put in',
    ],
    [
      'Tank',
      joinKnown([card.tankKind?.replace('-', ' '), format(card.tankL, 'volume')], card.tankL),
      'the tank’s kind and size',
    ],
    [
      'Precharge',
      card.tankKind === 'plain' ? '' : format(card.prechargeKpa, 'pressure'),
      'the tank’s precharge',
    ],
    [
      'Switch',
      joinKnown(
        [between(format(card.cutInKpa, 'pressure'), format(card.cutOutKpa, 'pressure'))],
        card.cutInKpa,
      ),
    ],
    ['Relief valve', format(card.reliefKpa, 'pressure')],
    ['Usual amps', format(baseline?.amps, 'current') ?? ''],
    [
      'Usual cut-in and cut-out',
      between(format(baseline?.cutInKpa, 'pressure'), format(baseline?.cutOutKpa, 'pressure')) ?? '',
    ],
    ['A usual run', baseline?.ranS === undefined ? '' : formatDuration(baseline.ranS)],
  ];
  return {
    known: facts.flatMap(([name, value]): [string, string][] => (value ? [[name, value]] : [])),
    // An empty text is not known yet; it is for us to learn and not for people to write.
    missing: facts.flatMap(([name, value, missingName = `the ${name.toLowerCase()}`]) =>
      value === undefined ? [missingName] : [],
    ),
  };
}

function motorWords(pump: PumpDetail | undefined, units: UnitSystem): string | undefined {
  return joinKnown(
    [
      pump?.volts === undefined ? undefined : formatQuantity(pump.volts, 'voltage', units),
      pump?.phase === undefined ? undefined : pump.phase === 3 ? 'three phases' : 'single phase',
      pump?.wires === undefined ? undefined : `${pump.wires} wires`,
      pump?.maxAmps === undefined ? undefined : `at most ${formatQuantity(pump.maxAmps, 'current', units)}`,
    ],
    pump?.volts ?? pump?.maxAmps,
  );
}

/** The parts that are known; missing where the one that matters is. */
function joinKnown(parts: readonly (string | undefined)[], required: unknown): string | undefined {
  const known = parts.filter((part) => part !== undefined);
  return required === undefined && known.length < 2 ? undefined : known.join(', ');
}

function between(from: string | undefined, to: string | undefined): string | undefined {
  return from === undefined || to === undefined ? undefined : `${from} to ${to}`;
}

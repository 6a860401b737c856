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
import { texts } from '../texts.ts';

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
  const { serviceFacts: names, missingFacts } = texts();
  const facts: [name: keyof typeof names, value: string | undefined][] = [
    [
      'pump',
      joinKnown([pump?.kind, format(pump?.motorW, 'power'), format(pump?.ratedLPerS, 'flow')], pump?.motorW),
    ],
    ['motor', motorWords(pump, units)],
    ['setAt', format(pump?.setDepthM ?? card.setDepthM, 'length')],
    [
      'installed',
      // Of some pumps only the year is known.
      pump?.installed?.length === 10
        ? dateWords(Date.parse(pump.installed), 'UTC', detail.nowMs)
        : pump?.installed,
    ],
    ['tank', joinKnown([card.tankKind?.replace('-', ' '), format(card.tankL, 'volume')], card.tankL)],
    ['precharge', card.tankKind === 'plain' ? '' : format(card.prechargeKpa, 'pressure')],
    [
      'switch',
      joinKnown(
        [between(format(card.cutInKpa, 'pressure'), format(card.cutOutKpa, 'pressure'))],
        card.cutInKpa,
      ),
    ],
    ['reliefValve', format(card.reliefKpa, 'pressure')],
    ['normalAmps', format(baseline?.amps, 'current') ?? ''],
    [
      'normalPressures',
      between(format(baseline?.cutInKpa, 'pressure'), format(baseline?.cutOutKpa, 'pressure')) ?? '',
    ],
    ['normalRun', baseline?.ranS === undefined ? '' : formatDuration(baseline.ranS)],
  ];
  return {
    known: facts.flatMap(([name, value]): [string, string][] => (value ? [[names[name], value]] : [])),
    // An empty text is not known yet; it is for us to learn and not for people to write.
    missing: facts.flatMap(([name, value]) => (value === undefined ? [missingFacts[name]] : [])),
  };
}

function motorWords(pump: PumpDetail | undefined, units: UnitSystem): string | undefined {
  return joinKnown(
    [
      pump?.volts === undefined ? undefined : formatQuantity(pump.volts, 'voltage', units),
      pump?.phase === undefined ? undefined : pump.phase === 3 ? texts().threePhase : texts().singlePhase,
      pump?.wires === undefined ? undefined : texts().wires(pump.wires),
      pump?.maxAmps === undefined
        ? undefined
        : texts().atMost(formatQuantity(pump.maxAmps, 'current', units)),
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
  return from === undefined || to === undefined ? undefined : texts().fromTo(from, to);
}

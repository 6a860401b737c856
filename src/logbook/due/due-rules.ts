/**
 * How often each check comes round where nobody planned otherwise, and on which wells it makes no
 * sense. Yearly rounds have their sources beside their words (shared/text/en/checks/due-words.ts).
 * The days of the year follow the half of the globe, which the time zone tells; they are common
 * practice without a source, and a plan overrules them.
 */
import type { DueKind } from '../../../shared/text/en/checks/due-words.ts';
import type { Card } from '../../core/domain/card.ts';
import type { ColdSeason } from './cold-season.ts';
import { texts } from './texts.ts';

/** Every so many days after it was done, or on a day of each year, `10-01`. */
export type Recurrence =
  | { is: 'days'; days: number }
  /**
   * `dueIfNeverDone`: where it was never done it does not wait for its day. `basis`: what that day
   * rests on, where it was measured.
   */
  | { is: 'yearly'; day: string; dueIfNeverDone?: true; basis?: string };

const YEAR: Recurrence = { is: 'days', days: 365 };
const HALF_YEAR: Recurrence = { is: 'days', days: 182 };

/** Before the first frosts of most places that have any, and in spring. */
const AUTUMN = { north: '10-01', south: '04-01' };
const SPRING = { north: '04-01', south: '10-01' };

/** Undefined for a list that is for one occasion. */
export function defaultRecurrence(kind: DueKind, timeZone: string): Recurrence | undefined {
  const half = isSouthern(timeZone) ? 'south' : 'north';
  switch (kind) {
    case 'freeze':
      return { is: 'yearly', day: AUTUMN[half] };
    case 'well-cap':
      return { is: 'yearly', day: SPRING[half], dueIfNeverDone: true };
    case 'stock-water':
      return HALF_YEAR;
    case 'water-test':
    case 'precharge':
    case 'pressure-gauge':
    case 'relief-valve':
    case 'node-calibration':
    case 'treatment':
    case 'uv-lamp':
    case 'backflow':
      return YEAR;
    case 'static-level':
      return { is: 'yearly', day: SPRING[half] };
    case 'winterize':
    case 'spring-start':
    case 'after-flood':
    case 'after-lightning':
    case 'after-dry-well':
      return undefined;
    default:
      return kind satisfies never;
  }
}

/** IANA zones south of the equator with people on wells, by their beginnings. */
const SOUTHERN =
  /^(Australia\/|Antarctica\/|Pacific\/(Auckland|Chatham|Fiji|Tongatapu|Apia|Noumea|Port_Moresby)|America\/(Argentina\/|Buenos_Aires|Santiago|Punta_Arenas|Montevideo|Asuncion|Sao_Paulo|La_Paz|Lima|Campo_Grande|Cuiaba|Bahia|Recife|Fortaleza)|Africa\/(Johannesburg|Harare|Maputo|Lusaka|Windhoek|Gaborone|Maseru|Mbabane|Luanda|Lubumbashi|Blantyre|Dar_es_Salaam)|Indian\/(Antananarivo|Mauritius|Reunion)|Atlantic\/Stanley)/;

/**
 * A card without a zone is read as UTC, and so as northern: most private wells with a pressure
 * switch stand there.
 */
export function isSouthern(timeZone: string): boolean {
  return SOUTHERN.test(timeZone);
}

/** Zones where frost is unknown where people live: the check is then left to whoever wants it. */
const FROSTLESS =
  /^(Pacific\/(Honolulu|Guam|Pago_Pago|Fiji|Apia|Tongatapu)|America\/(Puerto_Rico|St_Thomas|Virgin|Jamaica|Panama|Costa_Rica|Havana|Santo_Domingo|Nassau)|Asia\/(Singapore|Manila|Jakarta|Bangkok|Kuala_Lumpur))/;

const COLD_WORDS = '40 F (4.4 C)';

export interface CheckContext {
  card: Card;
  nodes: readonly string[];
  coldSeason?: ColdSeason;
}

/** Whether a check makes sense on this well, or in a sentence why not. */
export function isCheckNeeded(
  kind: DueKind,
  { card, nodes, coldSeason }: CheckContext,
): { needed: true } | { not: string } {
  const needed = { needed: true } as const;
  const neededIf = (is: boolean, reason: string) => (is ? needed : { not: reason });
  switch (kind) {
    case 'precharge':
      if (card.tank?.kind === 'plain') return { not: texts().plainTank };
      return isPressurized(card) ? needed : { not: texts().storeWithoutTank };
    case 'pressure-gauge':
    case 'relief-valve':
      return isPressurized(card) ? needed : { not: texts().storeWithoutPressure };
    case 'node-calibration':
      return nodes.length > 0 ? needed : { not: texts().noSensor };
    case 'freeze':
      if (coldSeason?.is === 'never') return { not: texts().neverCold(COLD_WORDS) };
      return FROSTLESS.test(card.timeZone) ? { not: texts().frostUnlikely } : needed;
    case 'stock-water':
      return card.uses.includes('stock') ? needed : { not: texts().noStock };
    case 'water-test':
      if (card.uses.length > 0 && card.uses.every((use) => use === 'irrigation'))
        return { not: texts().irrigationOnly };
      return needed;
    case 'well-cap':
      return needed;
    case 'treatment':
      return neededIf(hasTreatment(card), texts().noTreatment);
    case 'uv-lamp':
      return neededIf(hasUvLamp(card), texts().noUvLamp);
    case 'backflow':
      return neededIf(card.uses.includes('irrigation'), texts().noIrrigation);
    case 'static-level':
      return neededIf(isLevelFollowed(card), texts().noStaticLevel);
    case 'winterize':
    case 'spring-start':
    case 'after-flood':
    case 'after-lightning':
    case 'after-dry-well':
      return { not: texts().listOnDemand[kind] };
    default:
      return kind satisfies never;
  }
}

function isPressurized({ pumps, tank }: Card): boolean {
  return tank !== undefined || pumps.some(({ control }) => control !== 'float' && control !== 'timer');
}

/** Any unit but a lamp, which has a check of its own. */
function hasTreatment({ description }: Card): boolean {
  const { uvLamp: _uvLamp, ...units } = description?.treatmentUnits ?? {};
  return Object.keys(units).length > 0 || (description?.treatment ?? []).some((line) => !UV.test(line));
}

const UV = /\buv\b/i;

function hasUvLamp({ description }: Card): boolean {
  return (
    description?.treatmentUnits?.uvLamp !== undefined ||
    (description?.treatment ?? []).some((line) => UV.test(line))
  );
}

/** There is a level to compare with, or a permit that may ask for one. */
function isLevelFollowed({ description }: Card): boolean {
  return description?.hole.staticLevelM !== undefined || description?.permit !== undefined;
}

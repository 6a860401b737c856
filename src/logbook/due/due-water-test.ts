/**
 * What calls for a water test before its year is over: one of the four yearly analytes was left
 * out, a result that asks for a second sample, a flood, another taste, illness, work on the well, a
 * part replaced (EPA, "Protect Your Home's Water": test at once). After disinfection two weeks
 * pass, so that no chlorine is left (common practice, no source).
 */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { adviceFor, YEAR_DAYS } from '../../../shared/water/advice.ts';
import { compareResult } from '../../../shared/water/compare.ts';
import { WATER_EVENT_WORDS } from '../../../shared/text/en/water-words.ts';
import { isIsoDate } from '../../core/domain/rfc3339.ts';
import { addDays } from './dates.ts';
import type { DueTrigger, DueInput } from './due.ts';
import type { Entry, EntryOf } from '../../../shared/entries/entry.ts';
import { waterTests, type WaterTest } from '../entries/water-tests.ts';
import { texts } from './texts.ts';
import { analyteName } from '../../../shared/text/en/logbook/analyte-names.ts';

const AFTER_DISINFECTION_DAYS = 14;

/** Each with its day and reason; those that lie before the last test are left to the caller. */
export function waterTestTriggers(input: DueInput): DueTrigger[] {
  const { card, entries, acts } = input;
  const date = (ms: number): string => localDate(ms, card.timeZone);
  const tests = waterTests(entries, card.timeZone);
  return [
    ...missingAnalyteTriggers(tests),
    ...retestTriggers(tests, date(input.nowMs)),
    ...entries.flatMap((entry) => eventTrigger(entry, date) ?? []),
    ...acts.flatMap((act) =>
      act.kind === 'visit-closed' && act.newBaseline === true
        ? [
            {
              date: date(act.atMs),
              reason: texts().changedAtVisit(date(act.atMs)),
              cautions: ['contamination'] as const,
            },
          ]
        : [],
    ),
    ...replacedPartTriggers(input),
  ];
}

/**
 * What must not be left out for longer than a year; of the other two the page reminds at the next
 * test.
 */
const HEALTH_ANALYTES = ['total-coliform', 'nitrate'] as const;
/** Time to fetch other bottles. */
const MISSING_ANALYTE_DAYS = 30;

/**
 * What the last tests left out. Its day may lie before the last test, which did not look for it: so
 * the call is dated to the day after that at the earliest.
 */
function missingAnalyteTriggers(tests: readonly WaterTest[]): DueTrigger[] {
  const last = tests.at(-1);
  if (!last) return [];
  return HEALTH_ANALYTES.flatMap((key) => {
    const looked = tests.findLast(({ results }) => results.some(({ result }) => result.key === key));
    if (looked === last) return [];
    const name = analyteName(key);
    return [
      {
        date: notBefore(
          last,
          looked ? addDays(looked.sampleDate, YEAR_DAYS) : addDays(last.sampleDate, MISSING_ANALYTE_DAYS),
        ),
        reason: looked ? texts().lastTested(name, looked.sampleDate) : texts().neverTested(name),
      },
    ];
  });
}

function notBefore(last: WaterTest | undefined, on: string): string {
  return last === undefined || on > last.sampleDate ? on : addDays(last.sampleDate, 1);
}

/** Results that ask for another sample, unless a newer test looked for the same. */
function retestTriggers(tests: readonly WaterTest[], today: string): DueTrigger[] {
  return tests.flatMap((test, at) =>
    test.results.flatMap(({ result }) => {
      const newer = tests
        .slice(at + 1)
        .some((one) => one.results.some((other) => other.result.name === result.name));
      const advice = newer
        ? undefined
        : adviceFor(result, compareResult(result, { drawnOn: test.sampleDate, today }));
      if (advice?.retestDays === undefined) return [];
      const date = notBefore(tests.at(-1), addDays(test.sampleDate, advice.retestDays));
      return [{ date, reason: advice.text, cautions: advice.cautions }];
    }),
  );
}

function eventTrigger(entry: Entry, date: (ms: number) => string): DueTrigger | undefined {
  const day = date(entry.atMs);
  if (entry.kind === 'work' && mayContaminate(entry))
    return { date: day, reason: texts().workDone(day), cautions: ['contamination'] };
  const event = entry.kind === 'note' ? entry.body.event : undefined;
  if (!event) return undefined;
  const reason = texts().eventOn(capitalize(WATER_EVENT_WORDS[event].reason), day);
  if (event === 'disinfected')
    return { date: addDays(day, AFTER_DISINFECTION_DAYS), reason, cautions: ['disinfecting'] };
  return {
    date: day,
    reason,
    cautions: event === 'flood' ? ['flood'] : event === 'repair' ? ['contamination'] : [],
  };
}

/** Work on wires or sensors alone lets nothing into the water. */
function mayContaminate({ body: { touched = [] } }: EntryOf<'work'>): boolean {
  return touched.length === 0 || touched.some((part) => part !== 'wiring' && part !== 'sensors');
}

/**
 * Parts that the card says went in on a day; a month or a year alone is too vague to call for
 * anything.
 */
function replacedPartTriggers({ card }: DueInput): DueTrigger[] {
  const parts: [part: string, on: string | undefined][] = [
    ...card.pumps.map((pump): [string, string | undefined] => ['pump', pump.installed]),
    ['tank', card.description?.tank.installed],
  ];
  return parts.flatMap(([part, date]) =>
    date !== undefined && isIsoDate(date)
      ? [{ date, reason: texts().partInstalled(part, date), cautions: ['contamination'] as const }]
      : [],
  );
}

function capitalize(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

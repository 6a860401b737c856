/**
 * What calls for a water test before its year is over: one of the four yearly analytes was left out, a result that asks for a second
 * sample, a flood, another taste, illness, work on the well, a part replaced (EPA, "Protect Your Home's Water": test at once). After
 * disinfection two weeks pass, so that no chlorine is left (common practice, no source).
 */
import { localDate } from '../../shared/api/time-words.ts';
import { adviceOf, YEAR_DAYS } from '../../shared/water/advice.ts';
import { ANALYTES } from '../../shared/water/analytes.ts';
import { compareResult } from '../../shared/water/judge.ts';
import { WATER_EVENTS, WATER_EVENT_WORDS } from '../../shared/words/water-words.ts';
import { isIsoDate } from '../card/rfc3339.ts';
import { addDays } from './days.ts';
import type { Call, DueInput } from './due.ts';
import type { KeptEntry } from './entry.ts';
import { touchedOf } from './read-work.ts';
import { waterTests, type WaterTest } from './water-tests.ts';

const AFTER_DISINFECTION_DAYS = 14;

/** Each with its day and reason; those that lie before the last test are left to the caller. */
export function waterCalls(input: DueInput): Call[] {
  const { card, entries, acts } = input;
  const on = (ms: number): string => localDate(ms, card.timeZone);
  const tests = waterTests(entries, card.timeZone);
  return [
    ...leftOut(tests),
    ...askedAgain(tests, on(input.nowMs)),
    ...entries.flatMap((entry) => eventCall(entry, on) ?? []),
    ...acts.flatMap((act) =>
      act.kind === 'visit-closed' && act.newBaseline === true
        ? [
            {
              on: on(act.atMs),
              because: `Part of the well was changed at the visit of ${on(act.atMs)}.`,
              cautions: ['contamination'] as const,
            },
          ]
        : [],
    ),
    ...replaced(input),
  ];
}

/** What must not be left out for longer than a year; of the other two the page reminds at the next test. */
const FOR_HEALTH = ['total-coliform', 'nitrate'] as const;
/** Time to fetch other bottles. */
const LEFT_OUT_DAYS = 30;

/**
 * What the last tests left out. Its day may lie before the last test, which did not look for it: so the call is dated to the day
 * after that at the earliest.
 */
function leftOut(tests: readonly WaterTest[]): Call[] {
  const last = tests.at(-1);
  if (!last) return [];
  return FOR_HEALTH.flatMap((key) => {
    const looked = tests.findLast(({ results }) => results.some(({ result }) => result.key === key));
    if (looked === last) return [];
    const { name } = ANALYTES[key];
    return [
      {
        on: notBefore(last, looked ? addDays(looked.on, YEAR_DAYS) : addDays(last.on, LEFT_OUT_DAYS)),
        because: looked
          ? `${name} was last tested on ${looked.on}.`
          : `${name}: no test of it is written down.`,
      },
    ];
  });
}

function notBefore(last: WaterTest | undefined, on: string): string {
  return last === undefined || on > last.on ? on : addDays(last.on, 1);
}

/** Results that ask for another sample, unless a newer test looked for the same. */
function askedAgain(tests: readonly WaterTest[], today: string): Call[] {
  return tests.flatMap((test, at) =>
    test.results.flatMap(({ result }) => {
      const newer = tests
        .slice(at + 1)
        .some((one) => one.results.some((other) => other.result.name === result.name));
      const advice = newer ? undefined : adviceOf(result, compareResult(result, { drawnOn: test.on, today }));
      if (advice?.againDays === undefined) return [];
      const on = notBefore(tests.at(-1), addDays(test.on, advice.againDays));
      return [{ on, because: advice.says, cautions: advice.cautions }];
    }),
  );
}

function eventCall(entry: KeptEntry, on: (ms: number) => string): Call | undefined {
  const day = on(entry.atMs);
  if (entry.kind === 'work' && touchedWater(entry))
    return { on: day, because: `Work was done on the well on ${day}.`, cautions: ['contamination'] };
  const event = entry.kind === 'note' ? WATER_EVENTS.find((one) => one === entry.body['event']) : undefined;
  if (!event) return undefined;
  const because = `${capital(WATER_EVENT_WORDS[event].because)} on ${day}.`;
  if (event === 'disinfected')
    return { on: addDays(day, AFTER_DISINFECTION_DAYS), because, cautions: ['disinfecting'] };
  return {
    on: day,
    because,
    cautions: event === 'flood' ? ['flood'] : event === 'repair' ? ['contamination'] : [],
  };
}

/** Work on wires or sensors alone lets nothing into the water. */
function touchedWater({ body }: KeptEntry): boolean {
  const touched = touchedOf(body);
  return touched.length === 0 || touched.some((part) => part !== 'wiring' && part !== 'sensors');
}

/** Parts that the card says went in on a day; a month or a year alone is too vague to call for anything. */
function replaced({ card }: DueInput): Call[] {
  const parts: [part: string, on: string | undefined][] = [
    ...card.pumps.map((pump): [string, string | undefined] => ['pump', pump.installed]),
    ['tank', card.described?.tank.installed],
  ];
  return parts.flatMap(([part, on]) =>
    on !== undefined && isIsoDate(on)
      ? [{ on, because: `The ${part} was put in on ${on}.`, cautions: ['contamination'] as const }]
      : [],
  );
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

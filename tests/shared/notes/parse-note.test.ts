import { describe, expect, test } from 'vitest';
import { parseNote } from '../../../shared/notes/parse-note.ts';

const ZONE = 'America/Denver';
/** Thursday 26 November 2026, 10:00 in the morning there. */
const NOW = Date.parse('2026-11-26T17:00:00Z');

/** End of a local day of winter time there: seven hours after midnight UTC. */
const endOf = (date: string): number => Date.parse(`${date}T07:00:00Z`) + 86_400_000;

describe('knownIn understands', () => {
  test.each<[line: string, is: string, text: string, untilMs: number]>([
    ['guests until Sunday', 'expected', 'guests', endOf('2026-11-29')],
    ['Guests, till Sun.', 'expected', 'Guests', endOf('2026-11-29')],
    ['guests until this Sunday', 'expected', 'guests', endOf('2026-11-29')],
    ['guests until Wednesday', 'expected', 'guests', endOf('2026-12-02')],
    ['watering the new lawn until the 30th', 'expected', 'watering the new lawn', endOf('2026-11-30')],
    ['watering the new lawn until the 20th', 'expected', 'watering the new lawn', endOf('2026-12-20')],
    [
      '40 head on this pasture since Monday, until 12 December',
      'expected',
      '40 head on this pasture since Monday',
      endOf('2026-12-12'),
    ],
    ['40 head until December 12th, 2026', 'expected', '40 head', endOf('2026-12-12')],
    ['40 head until the 12th of December', 'expected', '40 head', endOf('2026-12-12')],
    ['40 head until 2026-12-12', 'expected', '40 head', endOf('2026-12-12')],
    ['40 head until 12/20', 'expected', '40 head', endOf('2026-12-20')],
    ['40 head until 20/12/2026', 'expected', '40 head', endOf('2026-12-20')],
    ['hose through the barn until Sunday', 'expected', 'hose through the barn', endOf('2026-11-29')],
    // Summer time there by then: six hours.
    ['laid up until 12 May', 'laid-up', 'laid up', Date.parse('2027-05-13T06:00:00Z')],
    ['Winterized for 4 months', 'laid-up', 'Winterized', endOf('2027-03-26') - 3_600_000],
    ['guests for 3 weeks', 'expected', 'guests', endOf('2026-12-17')],
    ['guests for a week', 'expected', 'guests', endOf('2026-12-03')],
    ['filling the pool for the next 6 hours', 'expected', 'filling the pool', NOW + 6 * 3_600_000],
    ['filling the pool until 5 pm', 'expected', 'filling the pool', Date.parse('2026-11-27T00:00:00Z')],
    [
      'filling the pool until tomorrow noon',
      'expected',
      'filling the pool',
      Date.parse('2026-11-27T19:00:00Z'),
    ],
    [
      'filling the pool until Friday at 17:30',
      'expected',
      'filling the pool',
      Date.parse('2026-11-28T00:30:00Z'),
    ],
    ['tap trickling until today', 'expected', 'tap trickling', endOf('2026-11-26')],
    ['guests until the end of the month', 'expected', 'guests', endOf('2026-11-30')],
    ['guests until the end of February', 'expected', 'guests', endOf('2027-02-28')],
  ])('%s', (line, is, text, untilMs) => {
    expect(parseNote(line, NOW, ZONE)).toEqual({ is, text, untilMs });
  });

  test('a month after the 31st as the last day of a shorter month', () => {
    expect(parseNote('guests for a month', Date.parse('2027-01-31T17:00:00Z'), ZONE)).toMatchObject({
      untilMs: endOf('2027-02-28'),
    });
  });

  test('the day of the place, not of Greenwich', () => {
    // Still Wednesday evening there.
    const evening = Date.parse('2026-11-26T03:00:00Z');
    expect(parseNote('guests until tomorrow', evening, ZONE)).toMatchObject({ untilMs: endOf('2026-11-26') });
  });
});

describe('knownIn refuses, and says why,', () => {
  test.each([
    ['', 'Write what it is'],
    ['guests', 'When is it over?'],
    ['40 head on this pasture since Monday', 'When is it over?'],
    ['laid up for winter', 'A season has no certain last day'],
    ['laid up until spring', 'A season has no certain last day'],
    ['guests until Thursday', 'Today is Thursday: 26 November or 3 December?'],
    ['guests until next Sunday', '29 November or 6 December'],
    ['guests until the weekend', 'Which day'],
    ['guests until May', 'The beginning of May or its end?'],
    ['guests until 5/6', '6 May to some and 5 June to others'],
    ['guests until the 26th', 'That is today'],
    ['guests until 12', 'The 12 of which month'],
    ['guests until 31 February', 'has no day 31'],
    ['guests until the 31st', 'November 2026 has no day 31'],
    ['guests until 20 November', '20 November was 6 days ago'],
    ['guests until 20 November 2025', 'past already'],
    ['guests until 10 am', 'past already'],
    ['guests until 25 pm', 'no time of day'],
    ['guests until midnight', 'which end of the day'],
    ['guests until the cows come home', 'no day that is known here'],
    ['guests for some weeks', 'For how many weeks?'],
    ['guests for 200 weeks', 'more than two years'],
    ['until Sunday', 'And what is it?'],
    ['x'.repeat(201), 'at most 200'],
  ])('%s', (line, says) => {
    const found = parseNote(line, NOW, ZONE);
    expect('problem' in found ? found.problem : JSON.stringify(found)).toContain(says);
  });
});

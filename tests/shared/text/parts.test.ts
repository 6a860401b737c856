/** The explanations of parts: complete, short, safe, and reached from every cause. */
import { describe, expect, test } from 'vitest';
import { CAUSE_PARTS } from '../../../shared/text/en/causes/cause-parts.ts';
import type { Caution } from '../../../shared/text/en/cautions.ts';
import { CAUSES } from '../../../shared/text/en/alarms/kinds.ts';
import { PARTS, type Part } from '../../../shared/text/en/parts/part-words.ts';
import { ELECTRIC_PARTS } from '../../../shared/text/en/parts/parts-electric.ts';
import { WATER_PARTS } from '../../../shared/text/en/parts/parts-water.ts';
import { WELL_PARTS } from '../../../shared/text/en/parts/parts-well.ts';
import { PART_WORDS } from '../../../shared/text/en/parts/parts.ts';

const TEXTS = PARTS.flatMap((part) => {
  const { purpose, failure, questions } = PART_WORDS[part];
  return [purpose, failure, ...questions].map((text, at): [string, string] => [`${part} ${at}`, text]);
});

test('each part has its words in one file alone, and a name of its own', () => {
  const written = [WELL_PARTS, WATER_PARTS, ELECTRIC_PARTS].flatMap((part) => Object.keys(part));
  expect(written.toSorted()).toEqual(PARTS.toSorted());
  const names = PARTS.map((part) => PART_WORDS[part].name);
  expect(new Set(names).size).toBe(names.length);
  for (const name of names) expect(name).toMatch(/^[A-Z][^.]{2,32}$/u);
});

describe('every text', () => {
  test.each(TEXTS)('%s is made of short whole sentences', (_where, text) => {
    expect(text).toMatch(/^[A-Z].*[.?]$/u);
    expect(text.length).toBeLessThan(340);
    for (const sentence of text.split(/[.:;?]\s/)) expect(sentence.split(' ').length).toBeLessThanOrEqual(32);
  });

  test('of a part can be read in a minute, at 200 words a minute', () => {
    for (const part of PARTS) {
      const { purpose, failure, questions } = PART_WORDS[part];
      const words = [purpose, failure, ...questions].join(' ').split(/\s+/u).length;
      expect(`${part}: ${words <= 200}`).toBe(`${part}: true`);
    }
  });

  test('sends nobody to open, loosen, touch or bridge anything', () => {
    for (const [where, text] of TEXTS)
      expect(`${where}: ${text}`).not.toMatch(
        /\b(unscrew|loosen|bridge|jump|tape|take off|remove the|open the (box|cover|switch|panel|cap))\b/iu,
      );
  });

  test('speaks of drawdown only by its full name', () => {
    for (const [where, text] of TEXTS) expect(`${where}: ${text}`).not.toMatch(/(?<!tank |well )drawdown/iu);
  });
});

test('each part has two to four things to ask, each a question', () => {
  for (const part of PARTS) {
    const { questions } = PART_WORDS[part];
    expect(questions.length).toBeGreaterThanOrEqual(2);
    expect(questions.length).toBeLessThanOrEqual(4);
    for (const one of questions) expect(one).toContain('?');
  }
});

/** What must be said of which part: live wires, stored pressure, foul water, closed spaces. */
const MUST: Record<string, { parts: readonly Part[]; caution: Caution }> = {
  'a licensed person for what is wired': {
    parts: [
      'motor',
      'submersible-pump',
      'jet-pump',
      'breaker',
      'control-box',
      'overload',
      'pump-protector',
      'drive',
      'pressure-switch',
      'current-clamp',
      'node',
      'trough',
      'storage-tank',
    ],
    caution: 'electrician',
  },
  'the lock before work on what starts by itself': {
    parts: [
      'motor',
      'submersible-pump',
      'jet-pump',
      'control-box',
      'overload',
      'pump-protector',
      'drive',
      'pressure-switch',
      'current-clamp',
      'drop-pipe',
      'pressure-tank',
    ],
    caution: 'lock-out',
  },
  'charge that stays in capacitors': { parts: ['control-box', 'drive'], caution: 'stored-charge' },
  'pressure that stays in a tank': {
    parts: [
      'pressure-tank',
      'pressure-gauge',
      'relief-valve',
      'pressure-transducer',
      'constant-pressure-valve',
    ],
    caution: 'tank-pressure',
  },
  'the relief valve is never shut': { parts: ['relief-valve', 'pressure-switch'], caution: 'relief-valve' },
  'how an air charge is read': { parts: ['pressure-tank'], caution: 'precharge' },
  'the cap and the power': {
    parts: ['well', 'well-cap', 'drop-pipe', 'pitless-adapter'],
    caution: 'well-cap',
  },
  'foul water after opening': {
    parts: ['well', 'well-cap', 'drop-pipe', 'pitless-adapter', 'check-valve', 'pipes', 'storage-tank'],
    caution: 'contamination',
  },
  'nobody in storage tanks': { parts: ['storage-tank'], caution: 'closed-space' },
  'nobody in pits': {
    parts: [
      'well',
      'pitless-adapter',
      'pressure-tank',
      'pressure-gauge',
      'pressure-switch',
      'pressure-transducer',
    ],
    caution: 'well-pit',
  },
  'a breaker is reset once at most': { parts: ['breaker'], caution: 'breaker-once' },
};

test.each(Object.entries(MUST))('is said where it must be: %s', (_what, { parts, caution }) => {
  for (const part of parts)
    expect([part, PART_WORDS[part].cautions]).toEqual([part, expect.arrayContaining([caution])]);
});

test('wherever electricity or pressure is named, a caution of its kind stands beside it', () => {
  for (const part of PARTS) {
    const { purpose, failure, cautions } = PART_WORDS[part];
    const said: readonly Caution[] = cautions;
    const text = `${purpose} ${failure}`;
    if (/current|amps|wire|circuit|breaker|capacitor|contacts|frequency/iu.test(text))
      expect([part, said.includes('electrician') || said.includes('lock-out')]).toEqual([part, true]);
    expect([part, said.length > 0]).toEqual([part, true]);
  }
});

test('every cause leads to a part, and these parts alone are reached from none', () => {
  for (const cause of CAUSES) {
    const parts = CAUSE_PARTS[cause];
    expect([cause, parts.length > 0 && parts.length <= 4]).toEqual([cause, true]);
    expect([cause, new Set(parts).size]).toEqual([cause, parts.length]);
  }
  const reached = new Set(CAUSES.flatMap((cause) => CAUSE_PARTS[cause]));
  expect(PARTS.filter((part) => !reached.has(part))).toEqual([
    'well-cap',
    'constant-pressure-valve',
    'drive',
  ]);
});

/**
 * Steps that send a person to where people have died: into a well pit, where on older farms tank,
 * gauge, valves and switch are, and to a storage tank. Such steps are found by their words, in
 * whichever text they are, and each must carry its caution.
 */
import { describe, expect, test } from 'vitest';
import { ALARM_WORDS } from '../../../shared/text/en/alarms/alarm-words.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import { CAUTIONS, type Caution } from '../../../shared/text/en/cautions.ts';
import { CHECK_WORDS } from '../../../shared/text/en/checks/checks.ts';
import { DUE_WORDS } from '../../../shared/text/en/checks/due-words.ts';
import { ALARM_KINDS, CAUSES } from '../../../shared/text/en/alarms/kinds.ts';
import { LOOK_ALIKES } from '../../../shared/text/en/causes/look-alikes.ts';
import { DISTINGUISHING_CHECKS } from '../../../shared/text/en/causes/distinguishing-checks.ts';
import { noticeWordsFor } from '../../../src/core/notify/notice-words.ts';

interface Step {
  of: string;
  says: string;
  cautions: readonly Caution[];
}

const STEPS: Step[] = [
  ...ALARM_KINDS.map((kind) => {
    const { firstStep, canBeWrong, cautions } = ALARM_WORDS[kind];
    // What is told there is mostly how it looks; what is to be done there is to compare.
    const compares = canBeWrong.match(/[^.:]*\bcompare\b[^.]*\./giu) ?? [];
    return { of: `alarm ${kind}`, says: [firstStep, ...compares].join(' '), cautions };
  }),
  ...CAUSES.map((cause) => {
    const { firstStep, cautions } = CAUSE_WORDS[cause];
    return { of: `cause ${cause}`, says: firstStep, cautions };
  }),
  ...DISTINGUISHING_CHECKS.map(({ how, cautions = [] }) => ({
    of: `telling ${how.slice(0, 40)}`,
    says: how,
    cautions,
  })),
  ...LOOK_ALIKES.map(({ distinguishedBy, cautions = [] }) => ({
    of: `look-alikes ${distinguishedBy.slice(0, 40)}`,
    says: distinguishedBy,
    cautions,
  })),
  ...Object.entries(CHECK_WORDS).map(([kind, { action, cautions = [] }]) => ({
    of: `check ${kind}`,
    says: action,
    cautions,
  })),
  ...Object.entries(DUE_WORDS).map(([kind, { steps, cautions }]) => ({
    of: `due ${kind}`,
    says: steps.join(' '),
    cautions,
  })),
];

const AT_THE_TANK =
  /\bdials?\b|\bgauges?\b|\bvalves?\b|\blever\b|\bprecharge\b|(?<!storage |expansion )\btanks?\b|\b(?:the|pressure) switch\b|\bpipes outside any box\b|\bthe pipe\b/iu;
/** The float valve of a trough is in the open. */
const NOT_AT_THE_TANK = new Set(['due stock-water']);
/** What a step then proves sends nobody anywhere. */
const CONCLUSION = /\bit is the [^.]*/gu;
const AT_A_STORE = /\bstorage tank\b|\bcistern\b|\bhatch\b|\bthe float\b|\bsecond source is there\b/iu;

describe('a step that sends a person', () => {
  const toTank = STEPS.filter(
    ({ of, says }) => AT_THE_TANK.test(says.replaceAll(CONCLUSION, '')) && !NOT_AT_THE_TANK.has(of),
  );
  const toStore = STEPS.filter(({ says }) => AT_A_STORE.test(says));

  test('is found by its words', () => {
    const found = toTank.map(({ of }) => of);
    for (const of of [
      'alarm leak',
      'alarm sensor-fault',
      'alarm tank-air-lost',
      'alarm tank-overcharged',
      'alarm over-pressure',
      'alarm short-cycling',
      'cause leak',
      'cause closed-valve',
      'check cut-in',
      'due precharge',
    ])
      expect(found).toContain(of);
    expect(found.filter((of) => of.startsWith('telling')).length).toBeGreaterThan(3);
    expect(toStore.map(({ of }) => of)).toEqual([
      'alarm no-run',
      'alarm store-low',
      'cause store-empty',
      'telling Look at the storage tank from the ground',
      'due stock-water',
    ]);
  });

  test.each(toTank.map(({ of, ...step }) => [of, step] as const))(
    'to the tank, its gauge, a valve or the switch warns of the pit: %s',
    (_of, { cautions }) => {
      expect(cautions).toContain('well-pit');
    },
  );

  test.each(toStore.map(({ of, ...step }) => [of, step] as const))(
    'to a storage tank says that nobody enters it: %s',
    (_of, { cautions }) => {
      expect(cautions).toContain('closed-space');
    },
  );
});

test.each(CAUSES)(
  'a notice of a low store says that nobody enters it, with %s as its likeliest cause',
  (cause) => {
    const { firstStep, cautions } = noticeWordsFor({
      alarm: 'store-low',
      causes: [{ cause, weight: 1 }],
    } as never);
    expect(firstStep).toMatch(/from the ground.*Never climb in, and never put your head through the hatch/u);
    expect(cautions).toContain(CAUTIONS['closed-space']);
  },
);

test('a notice whose look-alikes are parted at the gauge warns of the pit', () => {
  const causes = [
    { cause: 'habit-changed', weight: 0.4 },
    { cause: 'switch-out-of-set', weight: 0.3 },
    { cause: 'transducer-fault', weight: 0.3 },
  ];
  const { causes: said, cautions } = noticeWordsFor({ alarm: 'cycle-count', causes } as never);
  expect(said.at(-1)).toContain('gauge at the tank');
  expect(cautions).toContain(CAUTIONS['well-pit']);
});

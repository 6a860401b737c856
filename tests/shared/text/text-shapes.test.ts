/** The wording: complete, in short sentences, and safe to follow. */
import { describe, expect, test } from 'vitest';
import { ALARM_WORDS } from '../../../shared/text/en/alarms/alarm-words.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import { ELECTRIC_CAUSES } from '../../../shared/text/en/causes/causes-electric.ts';
import { PUMP_CAUSES } from '../../../shared/text/en/causes/causes-pump.ts';
import { USE_CAUSES } from '../../../shared/text/en/causes/causes-use.ts';
import { WATER_CAUSES } from '../../../shared/text/en/causes/causes-water.ts';
import { CAUTIONS, IF_IT_TRIPPED } from '../../../shared/text/en/cautions.ts';
import { alarmWords, formWords } from '../../../shared/text/en/alarms/forms.ts';
import { ALARM_FORMS, ALARM_KINDS, CAUSES } from '../../../shared/text/en/alarms/kinds.ts';
import { LOOK_ALIKES, lookAlikesAmong, lookAlikesOf } from '../../../shared/text/en/causes/look-alikes.ts';
import { URGENCIES, URGENCY_WORDS } from '../../../shared/text/en/alarms/urgency.ts';

/** The words of alarms in those forms that have words of their own. */
const FORMS = ALARM_KINDS.flatMap((kind) =>
  ALARM_FORMS.flatMap((form) => {
    const words = formWords(kind, form);
    return words ? [{ of: `alarm ${kind} ${form}`, words }] : [];
  }),
);

/** Every text by where it stands. */
const TEXTS: [string, string][] = [
  ...ALARM_KINDS.flatMap((kind) => {
    const { means, firstStep, canBeWrong, needs } = ALARM_WORDS[kind];
    return Object.entries({ means, firstStep, canBeWrong, needs }).map(([field, text]): [string, string] => [
      `${kind} ${field}`,
      text,
    ]);
  }),
  ...CAUSES.flatMap((cause) => {
    const { what, evidenceFor, evidenceAgainst, firstStep } = CAUSE_WORDS[cause];
    return Object.entries({ what, speaksFor: evidenceFor, speaksAgainst: evidenceAgainst, firstStep }).map(
      ([field, text]): [string, string] => [`${cause} ${field}`, text],
    );
  }),
  ...Object.entries(CAUTIONS),
  ...FORMS.flatMap(({ of, words: { means, firstStep, canBeWrong } }) =>
    Object.entries({ means, firstStep, canBeWrong }).map(([field, text]): [string, string] => [
      `${of} ${field}`,
      text,
    ]),
  ),
  ...URGENCIES.map((urgency): [string, string] => [urgency, URGENCY_WORDS[urgency].means]),
];

/** What a person is told to do. */
const STEPS = [
  ...ALARM_KINDS.map((kind) => ({
    of: `alarm ${kind}`,
    step: ALARM_WORDS[kind].firstStep,
    cautions: ALARM_WORDS[kind].cautions,
  })),
  ...FORMS.map(({ of, words: { firstStep: step, cautions } }) => ({ of, step, cautions })),
  ...CAUSES.map((cause) => ({
    of: `cause ${cause}`,
    step: CAUSE_WORDS[cause].firstStep,
    cautions: CAUSE_WORDS[cause].cautions,
  })),
];

test('each cause has its words in one part alone', () => {
  const causes = [PUMP_CAUSES, WATER_CAUSES, ELECTRIC_CAUSES, USE_CAUSES].flatMap((part) =>
    Object.keys(part),
  );
  expect(causes.toSorted()).toEqual(CAUSES.toSorted());
});

describe('every text', () => {
  test.each(TEXTS)('%s is made of short whole sentences', (_where, text) => {
    expect(text).toMatch(/^[A-Z].*\.$/u);
    expect(text.length).toBeLessThan(420);
    // A sentence that nobody can say in one breath is two.
    for (const sentence of text.split(/[.:;]\s/)) expect(sentence.split(' ').length).toBeLessThanOrEqual(32);
  });

  test('speaks of drawdown only by its full name', () => {
    for (const [where, text] of TEXTS) expect(`${where}: ${text}`).not.toMatch(/(?<!tank |well )drawdown/iu);
  });
});

test('titles and names are short, unlike each other, and no sentences', () => {
  for (const names of [
    ALARM_KINDS.map((kind) => ALARM_WORDS[kind].title),
    CAUSES.map((cause) => CAUSE_WORDS[cause].name),
  ]) {
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[A-Z][^.]{2,48}$/u);
  }
});

describe('first steps', () => {
  test('that name the breaker for a reset say for whom and when not, and carry the caution', () => {
    const resets = STEPS.filter(({ step }) => /\breset\b/.test(step) && /breaker/.test(step));
    expect(resets.map(({ of }) => of)).toEqual([
      'alarm power-lost',
      'alarm no-start',
      'alarm no-water',
      'cause breaker-open',
    ]);
    for (const { of, step, cautions } of resets) {
      expect(step, of).toContain(IF_IT_TRIPPED);
      expect(cautions, of).toContain('breaker-once');
    }
    for (const text of [IF_IT_TRIPPED, CAUTIONS['breaker-once']]) {
      expect(text).toMatch(
        /at work leave it (and tell your boss|to an electrician)\. At home, when everybody says that nobody works there,.*once/iu,
      );
      expect(text).toMatch(/standing aside/u);
      expect(text).toMatch(
        /after a motor that hummed or failed to start,.* wet well head,? or.* lightning within a day|wet well head, or within a day of lightning/iu,
      );
      expect(text).toMatch(/leave it off.*call an electrician/iu);
    }
  });

  test('offer no reset for a motor that does not start, is held or trips its overload', () => {
    const held = [
      ALARM_WORDS['failed-start'],
      ...(
        ['stuck-rotor', 'failing-motor', 'failing-capacitor', 'overload-tripping', 'lost-leg'] as const
      ).map((cause) => CAUSE_WORDS[cause]),
    ];
    for (const { firstStep, cautions } of held) {
      expect(firstStep).not.toMatch(/\breset/iu);
      expect(cautions).not.toContain('breaker-once');
    }
  });

  test('of a generator carry its caution, and so does each text that says that the power is gone', () => {
    const named = STEPS.filter(({ step }) => /\bgenerator\b/iu.test(step)).map(({ of }) => of);
    expect(named).toEqual(['alarm site-silent', 'cause power-lost']);
    for (const of of [...named, 'cause generator']) {
      const one = STEPS.find((step) => step.of === of);
      expect(one?.step, of).toMatch(
        /through a transfer switch.*outdoors|outdoors.*through a transfer switch/u,
      );
      expect(one?.cautions, of).toEqual(expect.arrayContaining(['generator', 'generator-load']));
    }
    expect(ALARM_WORDS['power-lost'].cautions).toEqual(
      expect.arrayContaining(['generator', 'generator-load']),
    );
    expect(CAUTIONS.generator).toMatch(
      /only through a transfer switch or interlock.*outdoors.*doors, windows and vents/u,
    );
    expect(CAUTIONS['generator-load']).toMatch(
      /Start it first.*then switch the pump on\. Switch the pump off before.*volts.*while the pump runs/u,
    );
  });

  test('send nobody into an electrical box, a switch, a tank or a pit', () => {
    for (const { of, step } of STEPS) {
      expect(`${of}: ${step}`).not.toMatch(
        /\bopen (up )?(the |a )?(control box|box|switch|panel|cover|disconnect|cap|pit|tank)/iu,
      );
      expect(`${of}: ${step}`).not.toMatch(/\b(jump|bridge|bypass|hold in|tape|plug)\b/iu);
    }
  });

  test('that have work done inside a box or switch carry the electrician’s caution or the lock', () => {
    const inside = STEPS.filter(({ step }) =>
      /control box|electrical box|the switch (replaced|set|looked at)|check the switch/.test(step),
    );
    expect(inside.length).toBeGreaterThan(3);
    for (const { of, cautions } of inside) expect(cautions, of).toContain('electrician');
  });

  test('that name a reset or a closed valve ask whether somebody is at work there', () => {
    const others = STEPS.filter(({ step }) => /breaker.*reset it once|then open it/u.test(step));
    expect(others.length).toBeGreaterThan(3);
    for (const { of, step } of others)
      expect(`${of}: ${step}`).toMatch(/everybody says that nobody works there|somebody may be at work/);
  });

  test('that have something measured or a box looked into name who may', () => {
    const inside = STEPS.filter(
      ({ step }) => /\bmeasure|control box/.test(step) && !/level|Compare with/.test(step),
    );
    expect(inside.length).toBeGreaterThan(4);
    for (const { of, step } of inside)
      expect(`${of}: ${step}`).toMatch(/electrician|pump contractor|at the next visit/);
  });

  test('that name a plate open nothing for it', () => {
    for (const { of, step } of STEPS.filter(({ step: one }) => /plates?\b/.test(one)))
      expect(`${of}: ${step}`).toMatch(/read from outside.*Open nothing/);
  });

  test('let pressure off by cold water, and away from the tank', () => {
    for (const { of, step } of STEPS) expect(`${of}: ${step}`).not.toMatch(/open a hot tap/iu);
    expect(ALARM_WORDS['over-pressure'].firstStep).toMatch(/^Keep away from the tank/u);
  });

  test('past cut-out: breaker first, then clear of the tank, then a cold tap; else the pressure is read before running water is looked for', () => {
    const past = alarmWords('long-run', { ranS: 600, switch: 'should be open' });
    expect(past.firstStep).toMatch(
      /^Switch the pump off at its breaker now, or at the main: from outside.*stand clear of the tank.*Then open a cold tap elsewhere/u,
    );
    expect(past.cautions).toEqual(expect.arrayContaining(['relief-valve', 'tank-pressure', 'scalding']));
    expect(alarmWords('long-run', { ranS: 600 }).firstStep).toMatch(
      /^Read the gauge from the door.*switch the pump off.*Else look for running water/u,
    );
    // A form is that of its own alarm alone.
    expect(alarmWords('leak', { switch: 'should be open' })).toEqual(ALARM_WORDS.leak);
  });

  test('rest a dry well with the pump off, and a dry jet pump until it is cool', () => {
    expect(CAUSE_WORDS['low-well'].firstStep).toMatch(/^Switch the pump off at its breaker/u);
    for (const { cautions } of [CAUSE_WORDS['lost-prime'], ALARM_WORDS['dry-run']])
      expect(cautions).toContain('scalding');
  });

  test('about the air charge say how it is read', () => {
    const charge = STEPS.filter(({ step }) => /precharge/.test(step));
    expect(charge.length).toBeGreaterThan(3);
    for (const { of, cautions } of charge) expect(cautions, of).toContain('precharge');
  });
});

describe('cautions', () => {
  test('vinegar and bleach are named together only to keep them apart', () => {
    for (const [where, text] of TEXTS) {
      if (/vinegar|\bacid\b/iu.test(text))
        expect([where, text]).toEqual(['disinfecting', expect.stringMatching(/Never let it meet vinegar/)]);
    }
  });

  test('the alarms that can hurt a pump or a person at once say that this is no safety device', () => {
    for (const kind of ['long-run', 'dry-run', 'over-pressure', 'leg-lost', 'not-watched'] as const) {
      expect(ALARM_WORDS[kind].cautions).toContain('only-watches');
    }
  });

  test.each([
    [
      'breaker-once',
      /lock or tag.*everybody says that nobody works there, push it fully off and then on, once, standing aside.*Leave it off/u,
    ],
    ['well-cap', /Leave the well cap closed.*licensed well contractor.*locked off/u],
    ['disinfecting', /by a licensed well contractor, as the health department says/u],
    ['flood', /Touch nothing electrical that is wet/u],
    ['scalding', /touch nothing on it/u],
    [
      'closed-space',
      /Never enter.*never put your head through its hatch, alone or with help.*from the ground/u,
    ],
    [
      'well-pit',
      /Stay out of well pits.*gauge, a valve or the switch is in a pit, leave that step out and call/u,
    ],
  ] as const)('%s leads nobody who may not into it', (caution, says) => {
    expect(CAUTIONS[caution]).toMatch(says);
  });
});

describe('look-alikes', () => {
  test('knows the groups of the contract', () => {
    expect(lookAlikesOf('open-tap')?.causes).toEqual(['leak', 'open-tap']);
    expect(lookAlikesOf('worn-pump')).toBeUndefined();
  });

  test('a group counts where several of it are named', () => {
    expect(lookAlikesAmong(['open-tap', 'power-lost', 'leak']).map(({ causes }) => causes)).toEqual([
      ['leak', 'open-tap'],
    ]);
    expect(lookAlikesAmong(['open-tap', 'power-lost'])).toEqual([]);
  });

  test('no cause is in two groups', () => {
    const all = LOOK_ALIKES.flatMap(({ causes }) => causes);
    expect(new Set(all).size).toBe(all.length);
    expect(all).toHaveLength(13);
  });
});

/**
 * Rules of safety that hold over all steps that a person is told to take: in every alarm, in each
 * form of it, in every cause, and in what tells causes apart. A step is found by its words and must
 * then carry its caution, keep an order, or name whom to call. From trade practice, from memory,
 * where the caution itself names no source.
 */
import { describe, expect, test } from 'vitest';
import { CATALOGUE } from '../../../shared/alarms/catalogue.ts';
import { RAW_ALARM_WORDS } from '../../../shared/text/en/alarms/alarm-words.ts';
import { ALARM_FORMS, ALARM_KINDS, CAUSES } from '../../../shared/text/en/alarms/kinds.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import { DISTINGUISHING_CHECKS } from '../../../shared/text/en/causes/distinguishing-checks.ts';
import { LOOK_ALIKES } from '../../../shared/text/en/causes/look-alikes.ts';
import { CAUTIONS, IF_IT_TRIPPED, type Caution } from '../../../shared/text/en/cautions.ts';

interface Step {
  of: string;
  step: string;
  /** All that is said along with it. */
  text: string;
  cautions: readonly Caution[];
}

const ALARM_STEPS: Step[] = ALARM_KINDS.flatMap((kind) => {
  const words = RAW_ALARM_WORDS[kind];
  const forms = ALARM_FORMS.flatMap((form) => {
    const own = words.forms?.[form];
    return own ? [{ of: `alarm ${kind} ${form}`, ...own }] : [];
  });
  return [{ of: `alarm ${kind}`, ...words }, ...forms].map(
    ({ of, firstStep: step, means, canBeWrong, cautions }) => ({
      of,
      step,
      text: [means, step, canBeWrong].join(' '),
      cautions,
    }),
  );
});
const CAUSE_STEPS: Step[] = CAUSES.map((cause) => {
  const { name, what, evidenceFor, evidenceAgainst, firstStep: step, cautions } = CAUSE_WORDS[cause];
  return {
    of: `cause ${cause}`,
    step,
    text: [name, what, evidenceFor, evidenceAgainst, step].join('. '),
    cautions,
  };
});
const CHECKS: Step[] = [
  ...DISTINGUISHING_CHECKS.map(({ how, cautions = [] }) => ({ of: `check ${how}`, step: how, cautions })),
  ...LOOK_ALIKES.map(({ distinguishedBy, causes, cautions = [] }) => ({
    of: `look-alikes ${causes.join(' ')}`,
    step: distinguishedBy,
    cautions,
  })),
].map((check) => ({ ...check, text: check.step }));
const ALL = [...ALARM_STEPS, ...CAUSE_STEPS, ...CHECKS];

/** Each row: what a step says, which caution goes along, and how many steps say it at least. */
const CARRIED: readonly [rule: string, said: RegExp, caution: Caution, least: number][] = [
  [
    'to the breaker, the disconnect or the main warns of a hot or wet panel',
    /\{breaker\}|\bbreaker\b|disconnect(?! while)|\bthe main\b/u,
    'hot-panel',
    45,
  ],
  [
    'that looks at the breaker says when it is reset',
    /look at (the|its|\{)[^.]*breaker/iu,
    'breaker-once',
    6,
  ],
  ['that turns a starter off says how to stand', /selector or starter/u, 'switching-off', 3],
  [
    'that leaves the pump off thinks of the stock',
    /[Ll]eave (it|the pump|the breaker) off|leave it off/u,
    'stock-water',
    20,
  ],
  ['along wet ground warns of the cable in it', /wet ground|wet patch/u, 'buried-cable', 5],
  [
    'with a cold tap that lets pressure off warns of a heater that has run away',
    /open no tap|[Oo]pen a cold tap (for|until)/u,
    'runaway-heater',
    3,
  ],
  [
    'that changes a filter lets the pressure off first',
    /\bfilter[^.]*(due|change|gauges)/u,
    'filter-change',
    2,
  ],
  [
    'that speaks of a valve which a pump ran against warns of steam',
    /r[au]n against it|why it is dry/u,
    'scalding',
    2,
  ],
  ['of a generator says how it is connected', /\bgenerator\b(?! that| in use| may)/u, 'generator', 2],
  ['to the hatch or the level of a store says that nobody leans in', /from the ground/u, 'closed-space', 4],
  [
    'with a control box in it says that capacitors keep their charge',
    /check the control box|windings|insulation/u,
    'stored-charge',
    3,
  ],
  [
    'that has the tank opened or recharged says what it holds',
    /recharge|replace the tank/u,
    'tank-pressure',
    2,
  ],
  [
    'with the lever of a low-pressure cut-off says how it is held',
    /\bhas a lever\b|it is reset/u,
    'low-pressure-lever',
    2,
  ],
  ['that names starting by itself keeps hands off', /start by itself/u, 'lock-out', 2],
  ['that looks into the well leaves the cap closed', /look into the well|at the well\. /u, 'well-cap', 1],
];

describe('a step', () => {
  test.each(CARRIED)('%s', (_rule, said, caution, least) => {
    const found = ALL.filter(({ step }) => said.test(step));
    expect(found.length).toBeGreaterThanOrEqual(least);
    expect(found.filter(({ cautions }) => !cautions.includes(caution)).map(({ of }) => of)).toEqual([]);
  });

  test('has a voltage measured by licensed people or the power company alone', () => {
    const sentences = ALL.flatMap(({ of, step }) =>
      step.split(/[.;]/).map((sentence) => ({ of, sentence })),
    ).filter(({ sentence }) => /\b(measure|read)s?\b[^.]*\b(volts?|voltages?)\b/iu.test(sentence));
    expect(sentences.length).toBeGreaterThan(4);
    for (const { of, sentence } of sentences)
      expect(`${of}: ${sentence}`).toMatch(
        /electrician|pump contractor|\{firm\}|power company|its own meter|Call the|on its own/u,
      );
  });

  test('opens a valve or a filter only with the pump off', () => {
    for (const { of, step } of ALL.filter(({ step: one }) =>
      /open it slowly|the valve opened|Only then change it/u.test(one),
    ))
      expect(`${of}: ${step}`).toMatch(
        /(Switch the pump off|with the pump off)[^?]*(open it slowly|Only then change it)|the valve opened with the pump off and cold/u,
      );
    expect(CAUSE_WORDS['plugged-filter'].firstStep).toMatch(
      /off at its breaker.*until the gauge reads zero.*change it/u,
    );
  });

  test('opens the valves beside a filter before the pump is switched on', () => {
    expect(CAUSE_WORDS['plugged-filter'].firstStep).toMatch(/Open both valves again before you switch/u);
    expect(CAUTIONS['filter-change']).toMatch(/Before you switch it on again, open both valves/u);
  });

  test('that finds a closed valve switches the pump off before anybody is asked', () => {
    expect(CAUSE_WORDS['closed-valve'].firstStep).toMatch(
      /switch the pump off[^?]*leave the valve to your pump contractor[^?]*ask who closed it/u,
    );
  });

  test('lets no pump run for long that moves no water', () => {
    expect(RAW_ALARM_WORDS['cut-out-not-reached'].firstStep).toMatch(
      /within two minutes.*switch the pump off/u,
    );
    expect(RAW_ALARM_WORDS['store-low'].firstStep).toMatch(/runs and nothing flows in, switch it off/u);
  });

  test('shuts no vents where something burns', () => {
    expect(RAW_ALARM_WORDS['freeze-risk'].firstStep).toMatch(/the vents unless gas, oil or wood burns/u);
    expect(CAUTIONS.freezing).toMatch(/Never shut the vents/u);
  });

  test('switches off on a voltage that overheats the motor, whoever is called first', () => {
    expect(RAW_ALARM_WORDS['supply-voltage'].firstStep).toMatch(/^Switch the pump off/u);
  });

  test('calls nothing dead that can still be live', () => {
    for (const { of, text } of ALL) expect(`${of}: ${text}`).not.toMatch(/\bdead\b/iu);
    for (const kind of ALARM_KINDS) expect(RAW_ALARM_WORDS[kind].title).not.toMatch(/\bdead\b/iu);
    expect(RAW_ALARM_WORDS['leg-lost'].means).toContain('can still be live');
    expect(CAUSE_WORDS['lost-leg'].what).toContain('can still be live');
  });

  test('sends nobody up to a tank that is over its pressure, and nobody into its room', () => {
    const over = [
      RAW_ALARM_WORDS['over-pressure'].firstStep,
      RAW_ALARM_WORDS['long-run'].forms?.['past-cut-out']?.firstStep,
    ];
    for (const step of over) {
      expect(step).toMatch(/(out of|not in) a pump house or pit that/u);
      expect(step).toContain('from outside');
    }
    expect(RAW_ALARM_WORDS['long-run'].firstStep).toContain('not beside the tank');
  });

  test('sends nobody to the gauge at the tank while the pressure is over cut-out', () => {
    const toGauge = ALL.filter(({ step }) => /\b(compare|Compare)\b[^.]*gauge at the tank/u.test(step));
    expect(toGauge.length).toBeGreaterThan(3);
    for (const { of, step } of toGauge)
      expect(`${of}: ${step}`).toMatch(/[Nn]ot while the pressure[^.]* is over cut-out/u);
  });

  test('looks at the heater before it opens a tap to let pressure off at rest', () => {
    const { firstStep } = RAW_ALARM_WORDS['over-pressure'];
    for (const step of [firstStep, CAUSE_WORDS['heat-expansion'].firstStep])
      expect(step).toMatch(/water heater from a distance.*open no tap.*Else open a cold tap/u);
  });

  test('reads the pressure before it looks for water, and the level before the taps spit', () => {
    expect(RAW_ALARM_WORDS['long-run'].firstStep).toMatch(/^Read the gauge from the door/u);
    expect(RAW_ALARM_WORDS['level-low'].firstStep).toMatch(/switch the pump off.*before the taps spit air/u);
  });

  test('lets a dry pump run no longer than a minute', () => {
    const again = ALL.filter(({ step }) => /then (let it run|watch one run)/u.test(step));
    expect(again.map(({ of }) => of)).toEqual(['cause air-lock']);
    for (const { step } of again) expect(step).toMatch(/one minute at most.*switch it off/u);
  });

  test('that tells causes apart starts no pump which a first step leaves off', () => {
    const starts = CHECKS.filter(({ step }) => /one run|until the pump (should start|starts)/u.test(step));
    expect(starts).toHaveLength(3);
    for (const { step } of starts)
      expect(step).toMatch(
        /^Not where the first step leaves the pump off|have a pump contractor watch one run/u,
      );
  });

  test('that turns the water heater off turns it on again, or says until when', () => {
    const off = ALL.filter(({ step }) => /[Tt]urn the water heater off/u.test(step));
    expect(off.length).toBeGreaterThan(3);
    for (const { of, step } of off)
      expect(`${of}: ${step}`).toMatch(/open the valve and turn the heater on/u);
    expect(CAUTIONS['empty-heater']).toContain('until the hot taps run full again');
  });

  test('takes no breaker that stays on as a proof of good insulation', () => {
    expect(CAUSE_WORDS['ground-fault'].evidenceAgainst).toContain('proves nothing');
    for (const { cautions } of [RAW_ALARM_WORDS['supply-voltage'], CAUSE_WORDS['ground-fault']])
      expect(cautions).toContain('live-metal');
  });
});

/** Whom a step names. */
const SOMEBODY =
  /\{firm\}|[Cc]all|pump contractor|electrician|well contractor|plumber|power company|whoever (installed|services)/u;
/** What an owner settles alone: a question, a clock, a card to correct. */
const OWNERS_OWN = [
  'cause softener-regenerating',
  'cause habit-changed',
  'cause bad-card',
  'cause serviced',
  'cause water-table-risen',
];

describe('no step is a dead end', () => {
  test('an alarm that can be for now names whom to call', () => {
    const now = ALARM_STEPS.filter(({ of }) => {
      const { priority, minutesMatter } = CATALOGUE[of.split(' ')[1] as keyof typeof CATALOGUE];
      return priority === 'now' || minutesMatter === true;
    });
    expect(now.length).toBeGreaterThan(12);
    expect(now.filter(({ step }) => !/[Cc]all/u.test(step)).map(({ of }) => of)).toEqual([]);
  });

  test('every other alarm and cause names somebody, or is settled by its owner', () => {
    const nobody = [...ALARM_STEPS, ...CAUSE_STEPS].filter(({ step }) => !SOMEBODY.test(step));
    expect(nobody.map(({ of }) => of).toSorted()).toEqual(OWNERS_OWN.toSorted());
  });

  test('what cannot be switched off, shut off or found ends with somebody to call', () => {
    for (const step of [
      RAW_ALARM_WORDS['over-pressure'].firstStep,
      RAW_ALARM_WORDS['long-run'].forms?.['past-cut-out']?.firstStep,
    ])
      expect(step).toMatch(/[Ii]f you cannot, keep everybody away, and have the power company cut/u);
    expect(CAUSE_WORDS.generator.firstStep).toMatch(/if you cannot, stay out and call 911/u);
    expect(CAUTIONS['lost-pressure']).toMatch(/Else boil the water that you drink until a test is clean/u);
    expect(CAUTIONS['buried-cable']).toMatch(/811 does not mark your own cable/u);
    for (const { firstStep } of [RAW_ALARM_WORDS.leak, CAUSE_WORDS.leak])
      expect(firstStep).toMatch(/after that valve: call a plumber for the house, .* buried pipe/u);
    expect(RAW_ALARM_WORDS['no-run'].firstStep).toMatch(/until the pump should start\. If no water comes/u);
  });

  test('nothing is had done by nobody', () => {
    const passive = ALL.flatMap(({ of, step }) =>
      (step.match(/\bHave (the|it|its) [^.]*/gu) ?? []).map((sentence) => `${of}: ${sentence}`),
    ).filter((one) => !/by (your|a) |by whoever/u.test(one));
    expect(passive).toEqual([]);
  });

  test('a breaker that has tripped and one that is on both lead on', () => {
    expect(IF_IT_TRIPPED).toMatch(/leave it off and call an electrician/u);
    expect(CAUTIONS['after-reset']).toMatch(/does not rise within a minute, or the motor hums, switch/u);
    expect(CAUTIONS['after-reset']).toMatch(/stands at off.*Leave it off until you know who/u);
    for (const { of, cautions } of ALL)
      if (cautions.includes('breaker-once'))
        expect({ of, cautions }).toMatchObject({ cautions: expect.arrayContaining(['after-reset']) });
    const resets = [...ALARM_STEPS, ...CAUSE_STEPS].filter(({ step }) => step.includes(IF_IT_TRIPPED));
    expect(resets).toHaveLength(4);
    for (const { of, step } of resets) expect(`${of}: ${step}`).toMatch(/If it is on,[^.]* call/u);
    // One that stands at off is not switched on by whoever comes next.
    for (const { of, step } of resets) expect(`${of}: ${step}`).toMatch(/somebody turned it off/u);
  });
});

test('the words are the trade’s', () => {
  const all = [
    ...ALL.map(({ text }) => text),
    ...ALARM_KINDS.map((kind) => RAW_ALARM_WORDS[kind].title),
    ...Object.values(CAUTIONS),
  ];
  for (const text of all) {
    expect(text).not.toMatch(
      /per cent\b|some percent|plain tank|unlike|out of set|held fast|\bthe store\b/iu,
    );
    expect(text).not.toMatch(/\b[Tt]ap the tank|\bplates?\b|neighbour|walk round|\blearnt\b/u);
  }
});

/**
 * What sound wells do that live otherwise than most: a protector that ends runs by design, a heat
 * pump, machines with a clock, draws that are meant, a generator.
 */
import { describe, expect, it } from 'vitest';
import { reasonSentence } from '../../../shared/text/en/reasons/reasons.ts';
import { REASON_FORMATS } from '../../../shared/text/en/reasons/format.ts';
import { alarmWords } from '../../../shared/text/en/alarms/forms.ts';
import { closeHabitDay, addHabitDay, newHabit, type Habit } from '../../../src/core/baseline/habit.ts';
import { judgeDay } from '../../../src/core/baseline/healthy-day.ts';
import { newLearning } from '../../../src/core/baseline/learning.ts';
import { standingKinds } from '../../../src/core/alarms/lifecycle/alarms.ts';
import { houseCard, kit, normal, play, usualBaseline, type KitOptions } from './scene-kit.ts';

function table(rows: [name: string, text: string, reported: string[], options?: KitOptions][]): void {
  it.each(rows)('%s', (_name, text, reported, options) => {
    expect(play(text, options)).toEqual(reported);
  });
}

/** Two weeks in which no run was longer than ten minutes. */
function shortRuns(): Habit {
  const habit = newHabit();
  for (let day = 0; day < 14; day++) {
    addHabitDay(habit, `2026-02-${String(10 + day)}`, {
      cycles: 12,
      ranS: 1400,
      longestRunS: 600,
      longestRestS: 36_000,
    });
    closeHabitDay(habit);
  }
  return habit;
}

describe('a protector on the card', () => {
  const granite: KitOptions = {
    card: houseCard({ pump: { protectorRestartS: 1800 } }),
    kinds: ['dry-run'],
  };
  const ended = 'cycle 650s 8A 35-44psi every 90min broke at 640s to 50%';
  const early = 'cycle 130s 8A 35-44psi every 32min broke at 120s to 50%';

  table([
    [
      'ends runs when the well is empty: one note, and not one a run',
      `${ended} | ${early} | ${ended} | ${early}`,
      ['90 min dry-run raised note low-well'],
      granite,
    ],
    [
      'without one on the card the same is for now',
      ended,
      ['90 min dry-run raised now low-well'],
      { kinds: ['dry-run'] },
    ],
    [
      'that has not tripped after a minute without water',
      'run 8A 42psi x10 | run 4A 40psi x3',
      ['12 min dry-run raised now low-well'],
      granite,
    ],
    [
      'whose run went on dry for two minutes',
      'cycle 760s 8A 35-44psi every 90min broke at 640s to 50%',
      ['90 min dry-run raised now low-well'],
      granite,
    ],
    [
      'that has to wait twice as long each time: the well gives less',
      `${ended} | cycle 130s 8A 35-44psi every 60min broke at 120s to 50% x3`,
      ['90 min dry-run raised note low-well', '210 min dry-run changed now low-well'],
      granite,
    ],
    [
      'waits with the taps dry: it starts the pump again by itself, and is told when it does not',
      `${ended} | rest 30psi x30 | rest 20psi x8`,
      ['125 min no-start raised now power-lost'],
      { ...granite, kinds: ['no-start'] },
    ],
  ]);

  it('waits, and the taps are dry: that is the well, and no breaker', () => {
    const { events } = kit({ ...granite, kinds: ['no-water'] }).play(
      `rest 50psi | ${ended} | rest 20psi | rest 1psi x4`,
    );
    const reported = events.find(({ alarm }) => alarm === 'no-water');
    expect(reported?.priority).toBe('now');
    const first = reported?.causes?.slice(0, 2).map(({ cause }) => cause);
    expect(first?.sort()).toEqual(['low-well', 'protector-waiting']);
  });

  it('says how often, and how long a run the well allows; and that nothing is to be done at once', () => {
    const { alarms, events } = kit(granite).play(`${ended} | ${early} | ${ended}`);
    const entry = alarms.entries['dry-run/p1']!;
    expect(reasonSentence(entry, REASON_FORMATS.us)).toBe(
      'The protector stopped the pump for want of water in 3 runs. Runs over 11 min pump the well down; it recovers in 79 min.',
    );
    expect(alarmWords('dry-run', events[0]!.evidence).firstStep).toMatch(/^Nothing is to be done at once/);
  });

  it('does not stop learning', () => {
    expect(standingKinds(kit(granite).play(ended).alarms, 'p1')).toEqual([]);
    expect(standingKinds(kit({}).play(ended).alarms, 'p1')).toEqual(['dry-run']);
  });
});

describe('a heat pump', () => {
  const card = houseCard({ uses: ['house', 'heat-pump'] });
  const even = 'cycle 240s 8A 40-60psi every 20min x160';
  table([
    [
      'draws through its fills: less delivered at the same current is what it drew',
      'cycle 150s 8A 40-60psi every 30min x100',
      [],
      { card, kinds: ['slow-fill'], water: { deliveryRatio: 0.75 } },
    ],
    [
      'and 130 L a day between its calls are no leak',
      'day 60 cycles 9000s leak 130 x6',
      [],
      { card, kinds: ['leak'] },
    ],
    [
      'runs without a rest in a cold week: its draw is no leak',
      'day 60 cycles 40000s leak 18900 x4',
      [],
      { card, kinds: ['leak'] },
    ],
    [
      'nor is what settles between its draws on the first mild day',
      'day 60 cycles 40000s leak 18900 x2 | day 60 cycles 9000s leak 890 | day 60 cycles 40000s leak 18900',
      [],
      { card, kinds: ['leak'] },
    ],
    [
      'but 37 L an hour is one',
      'day 60 cycles 9000s leak 900 x4',
      ['day 2 leak raised soon leak'],
      { card, kinds: ['leak'] },
    ],
    ['starts the pump as evenly as a clock for two days', even, [], { card, kinds: ['leak'] }],
    [
      'on a well that is a house alone that is a leak',
      even,
      ['1220 min leak raised soon leak'],
      { kinds: ['leak'] },
    ],
    [
      'runs for twelve hours in its first cold snap',
      'run 8.2A 45psi x720',
      [],
      { card, habit: shortRuns(), kinds: ['long-run'] },
    ],
    [
      'makes more starts than the motor allows: that is said, and not as a leak',
      'day 420 cycles 50000s | day 420 cycles 50000s',
      ['1440 min starts-over-limit raised soon habit-changed'],
      { card, kinds: ['starts-over-limit'] },
    ],
  ]);
});

describe('a machine with a clock', () => {
  const options: KitOptions = { habit: shortRuns(), kinds: ['long-run'] };
  /** A long run at two in the night, each third day, and quiet between. */
  const night = (minutes: number, lateMin = 0): string =>
    `rest 50psi x${120 + lateMin} | run 8.2A 48psi x${minutes} | rest 50psi x${1320 - minutes - lateMin + 2 * 1440}`;
  table([
    [
      'that draws for longer than before is named from the third night on',
      `${night(30)} | ${night(30, 5)} | ${night(60)}`,
      ['day 6 long-run raised soon softener-regenerating', 'day 6 long-run cleared'],
      options,
    ],
    [
      'at another hour each time it is people',
      `${night(30)} | ${night(30, 200)} | ${night(60, 90)}`,
      ['day 6 long-run raised soon open-tap', 'day 6 long-run cleared'],
      options,
    ],
  ]);
});

describe('what the card says is drawn all the time', () => {
  const card = houseCard({ continuousDrawLPerS: 0.01 });
  table([
    ['is no leak', 'day 20 cycles 2400s leak 900 x5', [], { card, kinds: ['leak'] }],
    [
      'and what is lost beside it is one',
      'day 20 cycles 2400s leak 1000 x5',
      ['day 3 leak raised soon leak'],
      { card, kinds: ['leak'] },
    ],
    [
      'for hours without a pause, too',
      'rest 50psi x3',
      [],
      { card, kinds: ['leak'], water: { continuousLoss: { hours: 20, lPerH: 40, fallKpaPerH: 96 } } },
    ],
  ]);

  it('is told less the draw', () => {
    const { events } = kit({ card, kinds: ['leak'] }).play('day 20 cycles 2400s leak 1064 x3');
    expect(events.at(-1)?.evidence?.['leakLPerDay']).toBe(200);
  });

  it('does not make a day unhealthy', () => {
    const day = {
      event: 'day',
      well: 'w',
      date: '2026-03-02',
      cycles: 20,
      ranS: 2400,
      heardS: 86_400,
      leakLPerDay: 900,
    } as const;
    const facts = { day, dayS: 86_400, pump: card.pumps[0]! };
    expect(judgeDay(newLearning(), { ...facts, card }).is).toBe('healthy');
    expect(judgeDay(newLearning(), { ...facts, card: houseCard() }).is).toBe('unhealthy');
  });
});

describe('a generator that runs fast', () => {
  const fast = 'cycle 90s 8.5A 40-60psi every 60min';
  table([
    [
      'for two days, told by quicker fills',
      `${fast} x48 | cycle 110s 8A 40-60psi every 60min x40`,
      [],
      {
        kinds: ['amps-high'],
      },
    ],
    [
      'after three days it is something else',
      `${fast} x100`,
      ['day 3 amps-high raised soon failing-motor'],
      {
        kinds: ['amps-high'],
      },
    ],
    [
      'fills as ever with more current are the motor’s',
      'cycle 100s 8.5A 40-60psi every 60min x40',
      ['480 min amps-high raised soon failing-motor'],
      { kinds: ['amps-high'] },
    ],
  ]);
});

describe('a shaft that is broken', () => {
  table([
    [
      'low from the first second after a night of rest: shaft beside well',
      'cycle 120s 8A 40-60psi | rest 50psi x400 | rest 40psi | run 4A 38psi x3',
      ['432 min dry-run raised now broken-shaft'],
      { kinds: ['dry-run'], baseline: usualBaseline({ longestRestS: 36_000, ranS: normal(120, 20) }) },
    ],
  ]);
});

describe('a pump that displaces its water', () => {
  const card = houseCard({ pump: { kind: 'positive-displacement' } });
  const { ranLowS: _ranLowS, ...noFills } = usualBaseline();
  const leads = (text: string, kinds: KitOptions['kinds'], own = card): string | undefined =>
    kit({ card: own, baseline: noFills, kinds: kinds! })
      .play(text)
      .events.find(({ alarm }) => kinds!.includes(alarm))
      ?.causes?.map(({ cause }) => cause)
      .join(' ');

  it('at more current works against a shut valve, and never against an open pipe', () => {
    const causes = leads('cycle 120s 8.6A 40-60psi every 60min x40', ['amps-high']);
    expect(causes).toContain('closed-valve');
    expect(causes).not.toContain('drop-pipe-leak');
    expect(leads('cycle 120s 8.6A 40-60psi every 60min x40', ['amps-high'], houseCard())).not.toContain(
      'closed-valve',
    );
  });

  it('at less current no valve is shut', () => {
    const text = 'cycle 120s 7.4A 40-60psi every 60min x40';
    expect(leads(text, ['amps-low'])).not.toContain('closed-valve');
    expect(leads(text, ['amps-low'], houseCard())).toContain('closed-valve');
  });
});

describe('a small motor that idles at nearly its full current', () => {
  const fills = 'cycle 100s 8A 40-60psi 30Wh x6';
  table([
    [
      'is dry by its power, though not by its current',
      `${fills} | cycle 100s 7.2A 38-38psi 12Wh`,
      ['210 min dry-run raised now low-well'],
      { kinds: ['dry-run'] },
    ],
    [
      'without power measured nothing is said',
      'cycle 100s 8A 40-60psi x6 | cycle 100s 7.2A 38-38psi',
      [],
      { kinds: ['dry-run'] },
    ],
    [
      'little power with pressure that rises lifts water',
      `${fills} | cycle 100s 7.2A 40-60psi 12Wh`,
      [],
      { kinds: ['dry-run'] },
    ],
  ]);

  it('says both figures', () => {
    const { events } = kit({ kinds: ['dry-run'] }).play(`${fills} | cycle 100s 7.2A 38-38psi 12Wh`);
    expect(events.find(({ alarm }) => alarm === 'dry-run')?.why).toMatch(
      /^The pump drew 7\.2 A, 90 % of its normal 8 A, and 40 % of its normal power\./,
    );
  });
});

describe('a supply that dips for seconds', () => {
  const windy = (dips: number): string =>
    Array(dips).fill('rest 50psi 230V x4 | rest 50psi 230V dips to 185V').join(' | ');
  table([
    [
      'ten times in a day',
      `${windy(10)} | rest 50psi 230V x3000`,
      ['50 min supply-voltage raised soon supply-voltage', 'day 2 supply-voltage cleared'],
      { kinds: ['supply-voltage'] },
    ],
    ['a few times is a storm, or a neighbor’s start', windy(6), [], { kinds: ['supply-voltage'] }],
    [
      'within the motor’s range is none',
      Array(20).fill('rest 50psi 230V | rest 50psi 230V dips to 200V').join(' | '),
      [],
      { kinds: ['supply-voltage'] },
    ],
  ]);
});

/**
 * Labels that contradict themselves would make the scoreboard lie: each case is looked through
 * before it is ever played.
 */
import { describe, expect, it } from 'vitest';
import { ALARM_KINDS, CAUSES } from '../../../../shared/text/en/alarms/kinds.ts';
import { readAct } from '../../../../src/core/domain/read-act.ts';
import { readCard } from '../../../../src/core/domain/read-card.ts';
import { corpus } from '../../../../src/lab/score/corpus/all.ts';
import { WATCHES } from '../../../../src/core/alarms/watches.ts';

const DAY_MS = 86_400_000;
const cases = corpus(false);
const full = corpus(true);
const faults = cases.flatMap((one) => (one.fault ? [{ ...one, fault: one.fault }] : []));
const wellYears = (list: readonly { is: string; days: number }[]): number =>
  list.filter(({ is }) => is === 'healthy').reduce((sum, { days }) => sum + days, 0) / 365.25;
const namesWhere = (list: readonly { name: string }[]): string[] => list.map(({ name }) => name);

describe('corpus', () => {
  it('has each name and each seed once', () => {
    expect(new Set(namesWhere(full)).size).toBe(full.length);
    const seeds = full.map(({ plan }) => plan.seed);
    expect(seeds.filter((seed, at) => seeds.indexOf(seed) !== at)).toEqual([]);
  });

  it('has twenty sound well-years, and a hundred in full', () => {
    expect(wellYears(cases)).toBeGreaterThanOrEqual(20);
    expect(wellYears(full)).toBeGreaterThanOrEqual(100);
    expect(namesWhere(full.filter(({ is }) => is !== 'healthy'))).toEqual(
      namesWhere(cases.filter(({ is }) => is !== 'healthy')),
    );
  });

  it('has cards and acts that can be read, of the well that is played', () => {
    const wrong = full.flatMap(({ name, card, acts, plan }) => {
      const read = readCard(card);
      const bad = (acts ?? []).flatMap(({ act }) => {
        const one = readAct(act, { strict: true });
        return 'problem' in one ? [one.problem] : [];
      });
      if ('problem' in read) return [`${name}: ${read.problem}`, ...bad];
      return read.card.well === plan.name ? bad : [`${name}: ${read.card.well}, ${plan.name}`, ...bad];
    });
    expect(wrong).toEqual([]);
  });

  it('begins on whole minutes and has its acts in order within its days', () => {
    const wrong = full.filter(({ fromMs, days, acts = [] }) => {
      const times = [fromMs, ...acts.map(({ atMs }) => atMs), fromMs + days * DAY_MS];
      return fromMs % 60_000 !== 0 || times.some((ms, at) => at > 0 && ms < times[at - 1]!);
    });
    expect(namesWhere(wrong)).toEqual([]);
  });

  it('has a fault exactly where it is not healthy, within its time and in order', () => {
    expect(namesWhere(full.filter(({ is, fault }) => (is === 'healthy') === (fault !== undefined)))).toEqual(
      [],
    );
    const wrong = faults.filter(({ fromMs, days, fault: { beganMs, knowableMs, byMs } }) => {
      const times = [fromMs, beganMs, knowableMs, byMs, fromMs + days * DAY_MS];
      return times.some((ms, at) => !Number.isInteger(ms) || (at > 0 && ms < times[at - 1]!));
    });
    expect(namesWhere(wrong)).toEqual([]);
  });

  it('lets a well be healthy for twelve days before anything goes wrong', () => {
    const early = faults.filter(
      ({ is, fromMs, fault }) => is === 'fault' && fault.beganMs - fromMs < 12 * DAY_MS,
    );
    expect(namesWhere(early)).toEqual([]);
  });

  it('names alarms and causes of the closed lists, at least one of each and none twice', () => {
    const wrong = faults.filter(({ fault: { alarms, causes } }) => {
      const known =
        alarms.every((alarm) => ALARM_KINDS.includes(alarm)) &&
        causes.every((cause) => CAUSES.includes(cause));
      const once = new Set(alarms).size === alarms.length && new Set(causes).size === causes.length;
      return !known || !once || alarms.length === 0 || causes.length === 0;
    });
    expect(namesWhere(wrong)).toEqual([]);
  });

  it('has sizes of each family from 1 upwards', () => {
    const families = new Map<string, Set<number>>();
    for (const { fault } of faults)
      families.set(fault.family, (families.get(fault.family) ?? new Set()).add(fault.size));
    const wrong = [...families].filter(([, sizes]) => !sizes.has(1) || Math.max(...sizes) !== sizes.size);
    expect(wrong.map(([family]) => family)).toEqual([]);
  });

  it('has a case for every alarm that a well can find', () => {
    const shown = new Set(faults.flatMap(({ fault }) => fault.alarms));
    expect(WATCHES.map(({ alarm }) => alarm).filter((alarm) => !shown.has(alarm))).toEqual([]);
  });
});

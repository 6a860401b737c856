import { describe, expect, test } from 'vitest';
import {
  countLost,
  countPack,
  countSpan,
  DIGESTS,
  highSeq,
  keptTo,
  knownPack,
  MAX_RANGES,
  newBoot,
} from '../../src/readings/boot.ts';

describe('knownPack', () => {
  test('the same bytes again are the same, other bytes are another box', () => {
    const boot = newBoot(7, 0);
    countPack(boot, 1, 0xaaaa, 0);
    expect(knownPack(boot, 1, 0xaaaa)).toBe('same');
    expect(knownPack(boot, 1, 0xbbbb)).toBe('other-bytes');
    expect(knownPack(boot, 2, 0xaaaa)).toBe('new');
  });

  test('what came longer ago than the digests reach can not be told', () => {
    const boot = newBoot(7, 0);
    for (let seq = 1; seq <= DIGESTS + 1; seq++) countPack(boot, seq, seq, 0);
    expect(knownPack(boot, 1, 1)).toBe('unsure');
    expect(knownPack(boot, 2, 2)).toBe('same');
  });

  test('skipped seqs are not compared with digests of long ago', () => {
    const boot = newBoot(7, 0);
    for (let seq = 1; seq <= DIGESTS; seq++) countPack(boot, seq, seq, 0);
    countPack(boot, DIGESTS + 10, 1, 0);
    countLost(boot, 1, DIGESTS + 9);
    // Lost, and comes all the same: taken.
    expect(knownPack(boot, DIGESTS + 5, 5)).toBe('new');
    countPack(boot, DIGESTS + 5, 5, 0);
    expect(knownPack(boot, DIGESTS + 5, 5)).toBe('same');
  });
});

test('keptTo stops before the first hole, and a lost one is none', () => {
  const boot = newBoot(7, 0);
  for (const seq of [1, 2, 4]) countPack(boot, seq, seq, 0);
  expect([keptTo(boot), highSeq(boot)]).toEqual([2, 4]);
  expect(countLost(boot, 1, 3)).toBe(1);
  expect(keptTo(boot)).toBe(4);
  expect(countLost(boot, 1, 3)).toBe(0);
});

test('keptTo is 0 while the first pack is missing', () => {
  const boot = newBoot(7, 0);
  countPack(boot, 5, 5, 0);
  expect(keptTo(boot)).toBe(0);
});

test('countPack keeps a bounded number of ranges', () => {
  const boot = newBoot(7, 0);
  for (let seq = 1; seq < 200; seq += 2) countPack(boot, seq, seq, 0);
  expect(boot.ranges.length).toBe(MAX_RANGES);
});

test('countSpan widens to both sides', () => {
  const boot = newBoot(7, 0);
  countSpan(boot, 100, 200);
  countSpan(boot, 50, 120);
  expect([boot.fromMs, boot.toMs]).toEqual([50, 200]);
});

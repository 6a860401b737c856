import { describe, expect, test } from 'vitest';
import {
  markLost,
  markReceived,
  extendSpan,
  DIGEST_COUNT,
  highSeq,
  ackedTo,
  matchPack,
  MAX_RANGES,
  newBoot,
} from '../../../src/core/readings/boot.ts';

describe('knownPack', () => {
  test('the same bytes again are the same, other bytes are another box', () => {
    const boot = newBoot(7, 0);
    markReceived(boot, 1, 0xaaaa, 0);
    expect(matchPack(boot, 1, 0xaaaa)).toBe('same');
    expect(matchPack(boot, 1, 0xbbbb)).toBe('other-bytes');
    expect(matchPack(boot, 2, 0xaaaa)).toBe('new');
  });

  test('what came longer ago than the digests reach can not be told', () => {
    const boot = newBoot(7, 0);
    for (let seq = 1; seq <= DIGEST_COUNT + 1; seq++) markReceived(boot, seq, seq, 0);
    expect(matchPack(boot, 1, 1)).toBe('unknown');
    expect(matchPack(boot, 2, 2)).toBe('same');
  });

  test('skipped seqs are not compared with digests of long ago', () => {
    const boot = newBoot(7, 0);
    for (let seq = 1; seq <= DIGEST_COUNT; seq++) markReceived(boot, seq, seq, 0);
    markReceived(boot, DIGEST_COUNT + 10, 1, 0);
    markLost(boot, 1, DIGEST_COUNT + 9);
    // Lost, and comes all the same: taken.
    expect(matchPack(boot, DIGEST_COUNT + 5, 5)).toBe('new');
    markReceived(boot, DIGEST_COUNT + 5, 5, 0);
    expect(matchPack(boot, DIGEST_COUNT + 5, 5)).toBe('same');
  });
});

test('keptTo stops before the first hole, and a lost one is none', () => {
  const boot = newBoot(7, 0);
  for (const seq of [1, 2, 4]) markReceived(boot, seq, seq, 0);
  expect([ackedTo(boot), highSeq(boot)]).toEqual([2, 4]);
  expect(markLost(boot, 1, 3)).toBe(1);
  expect(ackedTo(boot)).toBe(4);
  expect(markLost(boot, 1, 3)).toBe(0);
});

test('keptTo is 0 while the first pack is missing', () => {
  const boot = newBoot(7, 0);
  markReceived(boot, 5, 5, 0);
  expect(ackedTo(boot)).toBe(0);
});

test('countPack keeps a bounded number of ranges', () => {
  const boot = newBoot(7, 0);
  for (let seq = 1; seq < 200; seq += 2) markReceived(boot, seq, seq, 0);
  expect(boot.ranges.length).toBe(MAX_RANGES);
});

test('countSpan widens to both sides', () => {
  const boot = newBoot(7, 0);
  extendSpan(boot, 100, 200);
  extendSpan(boot, 50, 120);
  expect([boot.fromMs, boot.toMs]).toEqual([50, 200]);
});

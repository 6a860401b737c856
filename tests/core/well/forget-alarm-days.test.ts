/** A pump that wears through the whole engine: what is normal is of days before the alarm began. */
import { describe, expect, it } from 'vitest';
import { playMotor } from '../alarms/motor-well.ts';

const DAY_MS = 86_400_000;

describe('forgetAlarmDays', () => {
  it('no day that is learned from lies at or after the time at which the alarm began', () => {
    const { well, alarms } = playMotor({
      days: 20,
      everyS: 10,
      amps: (day) => 1 + (0.08 * Math.max(0, day - 6)) / 14,
    });
    const [raised] = alarms.filter(({ alarm, state }) => alarm === 'amps-high' && state === 'raised');
    const sinceMs = Date.parse(raised!.since!);
    const { learning, baseline } = well.records[0]!;
    expect(learning.recentDays).not.toHaveLength(0);
    expect(learning.habit.days).not.toHaveLength(0);
    const newest = Math.max(...learning.recentDays.map(({ on }) => on));
    expect(Math.floor(Date.parse(raised!.at) / DAY_MS)).toBeGreaterThan(Math.floor(sinceMs / DAY_MS));
    expect(newest).toBeLessThan(Math.floor(sinceMs / DAY_MS));
    expect(Math.max(...learning.habit.days.map(([day]) => day))).toBe(newest);
    expect(baseline!.atMs).toBeLessThanOrEqual(sinceMs);
    expect(learning.days + 1).toBeGreaterThanOrEqual(newest - Math.floor(Date.UTC(2026, 2, 2) / DAY_MS));
  });
});

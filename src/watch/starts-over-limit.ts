/**
 * More starts in a day than the motor allows: each start heats the windings, and the heat of one has not gone when the next comes.
 * Half as many again within a day is told at once; a little over the limit only when it was so on two days running, since one such
 * day harms no motor.
 */
import { startsLimit } from '../baseline/motor-starts.ts';
import { standingSince, standsNot } from './facts.ts';
import { tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const FAR_OVER = 1.5;
const OVER = 1.15;
/** Usual starts of this much of the limit are this well's nature, and no fault of today: a small tank is its own explanation. */
const AS_EVER = 0.9;

export const startsOverLimit: Watch = {
  alarm: 'starts-over-limit',
  each: 'pump',
  on: ['cycle', 'day'],
  onDelayS: 0,
  offDelayS: 0,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const limit = startsLimit(scene.pump.card);
  return scene.why === 'day' ? afterDay(scene, memo, limit) : within(scene, memo, limit);
}

type Limit = ReturnType<typeof startsLimit>;

function within(scene: Scene, memo: Memo, limit: Limit): Finding | undefined {
  const starts = scene.pump.startsToday;
  if (starts <= FAR_OVER * limit.perDay) return undefined;
  const sinceMs = standingSince(memo, scene.well.dayStartedMs);
  return finding(scene, sinceMs, starts, limit, 'so far today');
}

function afterDay(scene: Scene, memo: Memo, limit: Limit): Finding | null | undefined {
  const starts = scene.day?.cycles;
  if (starts === undefined) return undefined;
  if (starts > OVER * limit.perDay) {
    const before = Number(memo['daysOver'] ?? 0);
    memo['daysOver'] = before + 1;
    if (before === 0 && starts <= FAR_OVER * limit.perDay) return undefined;
    const sinceMs = standingSince(memo, scene.atMs - (before + 1) * 86_400_000);
    return finding(
      scene,
      sinceMs,
      starts,
      limit,
      before === 0 ? 'in one day' : 'in the last day, and over it the day before',
    );
  }
  delete memo['daysOver'];
  if (starts > limit.perDay && memo['sinceMs'] !== undefined) return undefined;
  return standsNot(memo);
}

function finding(scene: Scene, sinceMs: number, starts: number, limit: Limit, when: string): Finding {
  const { cycles } = scene.pump;
  const last = cycles.slice(-10);
  const short = last.length > 0 && last.filter((c) => c.ranS < 60).length > last.length / 2;
  const usual = scene.pump.pinned?.cyclesPerDay?.median;
  const motor = limit.known ? 'this motor allows' : 'any motor of this kind allows';
  const asEver = usual !== undefined && usual > AS_EVER * limit.perDay && starts < FAR_OVER * usual;
  const before = asEver
    ? '. It has made as many since it was first watched: its tank is small for this pump and for what is drawn'
    : usual === undefined
      ? ''
      : ` and this well used to make ${Math.round(usual)}`;
  return {
    sinceMs,
    why: `${starts} starts ${when}; ${motor} about ${limit.perDay}${before}.`,
    evidence: { starts, limit: limit.perDay, ...(usual !== undefined && { normal: tidy(usual, 1) }) },
    causes: asEver ? [] : causesOf(short),
  };
}

function causesOf(short: boolean): Finding['causes'] {
  return short
    ? weigh({
        'tank-air-lost': 0.3,
        'bladder-burst': 0.3,
        leak: 0.2,
        'check-valve': 0.1,
        'habit-changed': 0.1,
      })
    : weigh({
        leak: 0.3,
        'habit-changed': 0.3,
        'open-tap': 0.15,
        'check-valve': 0.15,
        'tank-air-lost': 0.1,
      });
}

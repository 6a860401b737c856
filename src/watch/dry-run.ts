/**
 * A pump that runs without water: it draws far less than it should, and pressure falls or does not rise. Low current alone is not
 * enough where pressure can be seen, since a nearly closed valve lowers it too and then pressure stands high. Water also cools the motor, so this one
 * is told within a minute or two.
 */
import {
  PSI,
  cutInOf,
  cutOutOf,
  lastMinute,
  lastMinutes,
  pumpOf,
  runningAmps,
  standingSince,
  standsNot,
  usesPressure,
  usualAmps,
} from './facts.ts';
import { sayAmps, sayPressure, sayShare, tidy } from './say.ts';
import type { Finding, Memo, Scene, Spread, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

/** Share of the usual current under which a motor is unloaded: with pressure to confirm it, and by itself. Common practice, no source. */
const LOW_SHARE = 0.8;
const LOW_SHARE_ALONE = 0.7;
/** A drive lowers current as demand falls: only far under its usual, and with pressure lost, does it mean anything. */
const LOW_SHARE_DRIVE = 0.5;
/** Of the motor's maximum, where nothing was learnt yet: an unloaded single-phase motor may still draw half. */
const LOW_SHARE_OF_MAX = 0.5;
const RISING_KPA_PER_MIN = 1.5;
const READINGS = 3;
/** A run with this share of the usual is well again. */
const WELL_SHARE = 0.88;

export const dryRun: Watch = {
  alarm: 'dry-run',
  each: 'pump',
  on: ['minute', 'cycle'],
  onDelayS: 30,
  offDelayS: 21_600,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  return scene.why === 'cycle' ? afterRun(scene, memo) : inMinute(scene, memo);
}

interface Usual {
  amps: number;
  learnt: boolean;
}

function usualOf(scene: Scene): Usual | undefined {
  const learnt = usualAmps(scene);
  if (learnt !== undefined) return { amps: learnt, learnt: true };
  const most = scene.pump.card.maxAmps;
  return most === undefined ? undefined : { amps: most, learnt: false };
}

function limitOf(scene: Scene, usual: Usual, withPressure: boolean): number {
  if (!usual.learnt) return LOW_SHARE_OF_MAX * usual.amps;
  if (scene.pump.card.control === 'variable-speed') return LOW_SHARE_DRIVE * usual.amps;
  return (withPressure ? LOW_SHARE : LOW_SHARE_ALONE) * usual.amps;
}

function inMinute(scene: Scene, memo: Memo): Finding | null | undefined {
  const minute = lastMinute(scene);
  const pump = minute && pumpOf(scene, minute);
  const amps = pump && runningAmps(pump);
  const usual = usualOf(scene);
  if (!minute || !pump || !amps || !usual || amps.n < READINGS || pump.ranS < 20) return undefined;
  const kpa = usesPressure(scene.pump) ? minute.kpa : undefined;
  const limit = limitOf(scene, usual, kpa !== undefined);
  // The inrush of a start stands over the limit: of a minute that holds one the last reading and the mean must be low.
  const low =
    amps.high < limit ||
    (amps.mean < limit && amps.last < limit && scene.pump.run !== undefined && amps.n >= 10);
  if (!low) return isWell(scene, amps, usual) ? standsNot(memo) : undefined;
  if (kpa && (rises(scene) || pressureIsHeld(scene, kpa))) return undefined;
  const sinceMs = standingSince(
    memo,
    Math.max(minute.atMs - pump.ranS * 1000, scene.pump.run?.startedMs ?? 0),
  );
  return finding(scene, usual, { amps: amps.mean, kpa: kpa?.mean, sinceMs });
}

function isWell(scene: Scene, amps: Spread, usual: Usual): boolean {
  if (scene.pump.card.control === 'variable-speed') return true;
  return usual.learnt ? amps.low > WELL_SHARE * usual.amps : amps.low > 1.1 * LOW_SHARE_OF_MAX * usual.amps;
}

function rises(scene: Scene): boolean {
  const run = scene.pump.run;
  if (run?.riseKpaPerMin !== undefined) return run.riseKpaPerMin > RISING_KPA_PER_MIN;
  const minutes = lastMinutes(scene, 1);
  const kpa = minutes?.[0]?.kpa;
  // In the first minute of a run: a pump that lifts water has raised pressure over cut-in by now.
  return kpa !== undefined && run?.cutInKpa !== undefined && kpa.last - run.cutInKpa > PSI;
}

/** Low current with pressure near cut-out or over it is little flow, and not no water: a closed valve, or a tank that is nearly full. */
function pressureIsHeld(scene: Scene, kpa: Spread): boolean {
  const cutIn = cutInOf(scene);
  const cutOut = cutOutOf(scene);
  if (scene.pump.card.control === 'variable-speed') return cutIn === undefined || kpa.mean > cutIn - 10 * PSI;
  if (cutIn === undefined || cutOut === undefined) return false;
  if (scene.pump.card.control === 'constant-pressure-valve') return kpa.mean > cutIn - 2 * PSI;
  return kpa.mean > cutIn + 0.6 * (cutOut - cutIn);
}

/** A run that is over: dry runs can be shorter than a minute where a protector or a low cut-off ends them. */
function afterRun(scene: Scene, memo: Memo): Finding | null | undefined {
  const { cycle } = scene;
  const usual = usualOf(scene);
  if (
    !cycle ||
    cycle.amps === undefined ||
    !usual ||
    cycle.readings < READINGS ||
    cycle.flags.includes('failed-start')
  )
    return undefined;
  const withPressure =
    usesPressure(scene.pump) && cycle.cutInKpa !== undefined && cycle.cutOutKpa !== undefined;
  if (cycle.amps >= limitOf(scene, usual, withPressure)) {
    if (cycle.amps < WELL_SHARE * usual.amps && usual.learnt) return undefined;
    return standsNot(memo);
  }
  if (!withPressure)
    return cycle.ranS < 30
      ? undefined
      : finding(scene, usual, { amps: cycle.amps, kpa: undefined, sinceMs: cycle.startedMs });
  if ((cycle.cutOutKpa ?? 0) - (cycle.cutInKpa ?? 0) > PSI) return undefined;
  if (scene.pump.card.control === 'variable-speed') return undefined;
  const sinceMs = standingSince(memo, cycle.startedMs);
  return finding(scene, usual, { amps: cycle.amps, kpa: cycle.cutOutKpa, sinceMs });
}

function finding(
  scene: Scene,
  usual: Usual,
  seen: { amps: number; kpa: number | undefined; sinceMs: number },
): Finding {
  const share = seen.amps / usual.amps;
  const against = usual.learnt ? `usual ${sayAmps(usual.amps)}` : `motor's maximum of ${sayAmps(usual.amps)}`;
  const draws = `The pump runs and draws ${sayAmps(seen.amps)}, ${sayShare(share)} of its ${against}`;
  const level = scene.well.minutes[scene.well.minutes.length - 1]?.levelM?.mean;
  const dry = level !== undefined && level < 1;
  const wet = level !== undefined && level > 3;
  return {
    sinceMs: seen.sinceMs,
    why:
      seen.kpa === undefined
        ? `${draws}. There is no pressure to judge by: a closed valve looks the same.`
        : `${draws}, and pressure stays at ${sayPressure(seen.kpa)}: it lifts no water.`,
    evidence: {
      amps: tidy(seen.amps),
      normalAmps: tidy(usual.amps),
      share: tidy(share),
      ...(seen.kpa !== undefined && { kpa: tidy(seen.kpa, 0) }),
      ...(level !== undefined && { levelM: tidy(level, 1) }),
    },
    causes: weigh({
      'low-well': dry ? 0.9 : wet ? 0.05 : 0.4,
      'lost-prime': scene.pump.card.kind === 'jet' ? 0.5 : 0.2,
      'closed-valve': seen.kpa === undefined ? 0.25 : 0,
      'broken-pipe': seen.kpa === undefined ? 0.05 : 0.1,
      'worn-pump': 0.1,
    }),
  };
}

/** What is said of a pump that lifts no water: the figures, the run limit that its runs have shown, and what may be behind it. */
import { outrun, sayOutrun } from './outrun.ts';
import { sayAmps, sayPressure, sayShare, sayTime, tidy } from './say.ts';
import type { Finding, Scene } from './scene.ts';
import type { UsualLoad } from './usual-load.ts';
import { weigh } from './weigh.ts';

/** Over this share of the usual a pump against a closed valve is as likely as one without water. */
const CLOSED_VALVE_SHARE = 0.65;
/** Over this a well that gives only a little lets some water through. */
const LITTLE_SHARE = 0.7;

export interface DrySeen {
  amps: number;
  kpa: number | undefined;
  sinceMs: number;
  /** How long this run drew as usual before, s: it had water and lost it. */
  wellForS?: number;
}

export function dryFinding(scene: Scene, usual: UsualLoad, seen: DrySeen): Finding {
  const share = seen.amps / usual.amps;
  const shown = outrun(scene);
  const level = scene.well.minutes[scene.well.minutes.length - 1]?.levelM?.mean;
  return {
    sinceMs: seen.sinceMs,
    why: sentence(scene, usual, seen) + (shown ? ` ${sayOutrun(shown)}` : ''),
    evidence: {
      amps: tidy(seen.amps),
      normalAmps: tidy(usual.amps),
      share: tidy(share),
      ...(seen.kpa !== undefined && { kpa: tidy(seen.kpa, 0) }),
      ...(level !== undefined && { levelM: tidy(level, 1) }),
      ...(seen.wellForS !== undefined && { wellForS: tidy(seen.wellForS, 0) }),
      ...(shown && { runLimitS: tidy(shown.limitS, 0) }),
      ...(shown?.restS !== undefined && { restS: tidy(shown.restS, 0) }),
    },
    causes: causesOf(scene, seen, share, level),
  };
}

function sentence(scene: Scene, usual: UsualLoad, seen: DrySeen): string {
  const against = usual.learnt ? `usual ${sayAmps(usual.amps)}` : `motor's maximum of ${sayAmps(usual.amps)}`;
  const figures = `${sayAmps(seen.amps)}, ${sayShare(seen.amps / usual.amps)} of its ${against}`;
  const draws =
    seen.wellForS === undefined
      ? `The pump runs and draws ${figures}`
      : `The pump ran well for ${sayTime(seen.wellForS)}, then its current fell to ${figures}`;
  return seen.kpa === undefined
    ? `${draws}. There is no pressure to judge by: a closed valve looks the same.`
    : `${draws}, and pressure ${scene.pump.run ? 'stays' : 'stayed'} at ${sayPressure(seen.kpa)}: it lifts ${seen.amps > LITTLE_SHARE * usual.amps ? 'little or no' : 'no'} water.`;
}

function causesOf(scene: Scene, seen: DrySeen, share: number, level: number | undefined): Finding['causes'] {
  const dry = level !== undefined && level < 1;
  const wet = level !== undefined && level > 3;
  const lost = seen.wellForS !== undefined;
  // A pump against a closed valve stirs its water and draws more than one that has none.
  const stirs = share > CLOSED_VALVE_SHARE;
  const valve = stirs ? 0.45 : seen.kpa === undefined ? 0.25 : 0.08;
  return weigh({
    'low-well': dry ? 0.9 : wet ? 0.05 : lost ? 0.75 : stirs ? 0.3 : 0.4,
    'lost-prime': scene.pump.card.kind === 'jet' ? 0.5 : scene.pump.card.kind === 'submersible' ? 0.05 : 0.2,
    'closed-valve': lost ? valve / 2 : valve,
    'broken-pipe': seen.kpa === undefined ? 0.05 : 0.1,
    'worn-pump': 0.1,
  });
}

/**
 * A finding weighed again by all that is known beside it. A watch weighs its causes by what it looks at; the clues (shared/words/clues.ts)
 * then multiply, as odds do where clues are taken to be independent. Those that moved a weight go into the evidence, so that the
 * reason can be told. Causes that look alike whatever is measured share their weight (contract, section 6).
 */
import type { Evidence } from '../../shared/api/events.ts';
import { readClues } from '../../shared/words/clues.ts';
import type { AlarmKind, Cause } from '../../shared/words/kinds.ts';
import { LOOK_ALIKES } from '../../shared/words/look-alikes.ts';
import { cluesOf } from './clues.ts';
import type { Finding, Scene } from './scene.ts';
import { LEAST_NAMED, weigh } from './weigh.ts';

/** Of the contract's groups, those that nothing measured here can part. */
const ALWAYS_ALIKE: ReadonlySet<Cause> = new Set(['check-valve', 'drop-pipe-leak', 'pitless-leak']);

export function withClues(alarm: AlarmKind, finding: Finding, scene: Scene): Finding {
  if (finding.causes.length === 0) return finding;
  const known = withoutOldAir(withoutStale({ ...cluesOf(scene), ...finding.evidence }));
  const spoke: Evidence = {};
  const weights: Partial<Record<Cause, number>> = {};
  for (const { cause, weight } of finding.causes) weights[cause] = weight;
  for (const { figure, reading } of readClues(alarm, known)) {
    let bears = false;
    for (const { cause } of finding.causes) {
      const odds = reading.odds[cause] ?? 1;
      if (odds === 1) continue;
      bears = true;
      weights[cause] = (weights[cause] ?? 0) * odds;
    }
    if (bears) spoke[figure] = known[figure]!;
  }
  return {
    ...finding,
    evidence: { ...finding.evidence, ...spoke },
    causes: weigh(shared(weights), LEAST_NAMED),
  };
}

/** Fills that take this much longer deliver less: that the rate of a fill was the usual is older then. */
const LONGER = 1.2;
/** And by so much where current fell with it: two that say the same. */
const LONGER_WITH_LESS = 1.1;
const LESS_AMPS = -0.03;

function withoutStale(known: Evidence): Evidence {
  const { fillShare, deliveryShare, ...rest } = known;
  const longer = Number(known['share']) < LESS_AMPS ? LONGER_WITH_LESS : LONGER;
  const stale = typeof fillShare === 'number' && fillShare > longer && Number(deliveryShare) > 1 / longer;
  return stale ? { ...rest, fillShare } : known;
}

/** A run that crosses this share of the band fills a tank. */
const WHOLE_BAND = 0.8;
/** From here up the air is as it should be (shared/words/clues.ts). */
const AIR_AS_EVER = 0.93;

/**
 * Short runs that cross the whole band are fills, and short ones. Air that is as it should be was read from fills before them, since those
 * count by their middle.
 */
function withoutOldAir(known: Evidence): Evidence {
  const { airShare, bandShare, ...rest } = known;
  const old = Number(bandShare) > WHOLE_BAND && Number(airShare) > AIR_AS_EVER;
  return old ? { ...rest, bandShare: bandShare! } : known;
}

/** Look-alikes that are named get the mean of their weights each. */
function shared(weights: Partial<Record<Cause, number>>): Partial<Record<Cause, number>> {
  for (const { causes } of LOOK_ALIKES) {
    const named = causes.filter((cause) => ALWAYS_ALIKE.has(cause) && (weights[cause] ?? 0) > 0);
    const mean = named.reduce((sum, cause) => sum + (weights[cause] ?? 0), 0) / named.length;
    for (const cause of named) weights[cause] = mean;
  }
  return weights;
}

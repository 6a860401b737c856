/**
 * A finding weighed again by all that is known beside it. A watch weighs its causes by what it
 * looks at; the clues (shared/text/en/causes/clues.ts) then multiply, as odds do where clues are
 * taken to be independent. Those that moved a weight go into the evidence, so that the reason can
 * be told. Causes that look alike whatever is measured share their weight (contract, section 6).
 */
import type { Evidence } from '../../../shared/api/events.ts';
import { evaluateClues } from '../../../shared/text/en/causes/clues.ts';
import type { AlarmKind, Cause } from '../../../shared/text/en/alarms/kinds.ts';
import { LOOK_ALIKES } from '../../../shared/text/en/causes/look-alikes.ts';
import { gatherClues } from './gather-clues.ts';
import type { Active } from './evaluation.ts';
import type { Scene } from './scene.ts';
import { MIN_NAMED_WEIGHT, weighCauses } from './weigh-causes.ts';

/** Of the contract's groups, those that nothing measured here can part. */
const ALWAYS_ALIKE: ReadonlySet<Cause> = new Set(['check-valve', 'drop-pipe-leak', 'pitless-leak']);

export function reweighByClues<Found extends Pick<Active, 'evidence' | 'causes'>>(
  alarm: AlarmKind,
  finding: Found,
  scene: Scene,
): Found {
  if (finding.causes.length === 0) return finding;
  const known = dropStaleAir(dropStaleDelivery({ ...gatherClues(scene), ...finding.evidence }));
  const relevant: Evidence = {};
  const weights: Partial<Record<Cause, number>> = {};
  for (const { cause, weight } of finding.causes) weights[cause] = weight;
  for (const { figure, reading } of evaluateClues(alarm, known)) {
    let isRelevant = false;
    for (const { cause } of finding.causes) {
      const odds = reading.odds[cause] ?? 1;
      if (odds === 1) continue;
      isRelevant = true;
      weights[cause] = (weights[cause] ?? 0) * odds;
    }
    if (isRelevant) relevant[figure] = known[figure]!;
  }
  return {
    ...finding,
    evidence: { ...finding.evidence, ...relevant },
    causes: weighCauses(shareLookAlikeWeights(weights), MIN_NAMED_WEIGHT),
  };
}

/**
 * Fills that take this much longer deliver less: that the rate of a fill was the usual is older
 * then.
 */
const STALE_FILL_RATIO = 1.2;
/** And by so much where current fell with it: two that say the same. */
const STALE_FILL_RATIO_LESS_AMPS = 1.1;
const MAX_AMPS_DEVIATION = -0.03;

function dropStaleDelivery(known: Evidence): Evidence {
  const { fillShare, deliveryShare, ...rest } = known;
  const longer = Number(known['share']) < MAX_AMPS_DEVIATION ? STALE_FILL_RATIO_LESS_AMPS : STALE_FILL_RATIO;
  const stale = typeof fillShare === 'number' && fillShare > longer && Number(deliveryShare) > 1 / longer;
  return stale ? { ...rest, fillShare } : known;
}

/** A run that crosses this share of the band fills a tank. */
const MIN_WHOLE_BAND_FRACTION = 0.8;
/** From here up the air is as it should be (shared/text/en/causes/clues.ts). */
const MIN_NORMAL_AIR_RATIO = 0.93;

/**
 * Short runs that cross the whole band are fills, and short ones. Air that is as it should be was
 * read from fills before them, since those count by their middle.
 */
function dropStaleAir(known: Evidence): Evidence {
  const { airShare, bandShare, ...rest } = known;
  const old = Number(bandShare) > MIN_WHOLE_BAND_FRACTION && Number(airShare) > MIN_NORMAL_AIR_RATIO;
  return old ? { ...rest, bandShare: bandShare! } : known;
}

/** Look-alikes that are named get the mean of their weights each. */
function shareLookAlikeWeights(weights: Partial<Record<Cause, number>>): Partial<Record<Cause, number>> {
  for (const { causes } of LOOK_ALIKES) {
    const named = causes.filter((cause) => ALWAYS_ALIKE.has(cause) && (weights[cause] ?? 0) > 0);
    const mean = named.reduce((sum, cause) => sum + (weights[cause] ?? 0), 0) / named.length;
    for (const cause of named) weights[cause] = mean;
  }
  return weights;
}

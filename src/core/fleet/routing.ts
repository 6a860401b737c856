/**
 * Which wells a node or an act is for. It changes only with cards, so it is worked out once for
 * each set of cards.
 */
import type { Act } from '../domain/act.ts';
import type { Card } from '../domain/card.ts';
import { defaultCardForNode } from '../domain/read-card.ts';
import { sourcesOf } from '../domain/sources.ts';
import { republishFullScale } from '../readings/node.ts';
import { newWell } from '../well/engine.ts';
import type { Fleet, WellSource } from './fleet.ts';
import { trackNews } from './node-news.ts';
import { addPeriod, removePeriods, startCardPeriod, wellsOf, type Period } from './read-table.ts';
import { newPipeline, type WellPipeline } from './well-pipeline.ts';

/** A well that begins with this card. No other card names its node. */
export function addWell(fleet: Fleet, card: Card, how: { byDefault?: true } = {}): WellPipeline {
  const pipeline = newPipeline(card.well, newWell(card));
  fleet.pipelines.set(card.well, pipeline);
  fleet.cards.set(card.well, card);
  const period = {
    card,
    sinceMs: Number.NEGATIVE_INFINITY,
    untilMs: Number.POSITIVE_INFINITY,
    ...how,
  };
  addPeriod(fleet, period);
  forgetRoutes(fleet, [period]);
  return pipeline;
}

/**
 * A node that no card names is a well of the same name with one pump (contract, before section 1).
 */
export function addDefaultWell(fleet: Fleet, node: string): WellPipeline {
  return addWell(fleet, defaultCardForNode(node), { byDefault: true });
}

/**
 * A card counts from `atMs` on, for where the well's readings come from; what else it says reaches
 * the engine as an act. Every well begins as its name alone, also when its first card comes before
 * its first reading: cards are inputs with a time. Returns the nodes that feed other wells than
 * before, or may do so later.
 */
export function applyCard(fleet: Fleet, card: Card, atMs: number): ReadonlySet<string> {
  if (!fleet.pipelines.has(card.well)) addWell(fleet, defaultCardForNode(card.well));
  const ended = startCardPeriod(fleet, card, atMs);
  fleet.cards.set(card.well, card);
  const changed = [{ card }, ...ended];
  forgetRoutes(fleet, changed);
  rethinkNews(fleet);
  return new Set(changed.flatMap((period) => sourcesOf(period.card).map(({ node }) => node)));
}

/**
 * A card that somebody writes now: its wells are told what the sensors that they read from can
 * show.
 */
export function applyNewCard(fleet: Fleet, card: Card, atMs: number): ReadonlySet<string> {
  const nodes = applyCard(fleet, card, atMs);
  for (const node of nodes) {
    const entry = fleet.nodes.get(node);
    if (!entry) continue;
    republishFullScale(entry.state, atMs);
    trackNews(fleet, entry.state);
  }
  return nodes;
}

/** Nothing feeds this well any more: it is forgotten. */
export function removeWell(fleet: Fleet, well: string): void {
  const removed = removePeriods(fleet, well);
  fleet.pipelines.delete(well);
  fleet.cards.delete(well);
  forgetRoutes(fleet, removed);
  rethinkNews(fleet);
}

/** What was worked out of these cards' wells and nodes is worked out anew when it is asked for. */
function forgetRoutes(fleet: Fleet, changed: readonly Pick<Period, 'card'>[]): void {
  for (const { card } of changed) {
    fleet.sourcesByWell.delete(card.well);
    for (const { node } of sourcesOf(card)) fleet.pipelinesByNode.delete(node);
  }
}

/** Which nodes a site has decides when it has news. */
function rethinkNews(fleet: Fleet): void {
  fleet.newsDueMs = Number.NEGATIVE_INFINITY;
  fleet.wakeAtMs = Number.NEGATIVE_INFINITY;
}

/** The wells that read anything from this node at any time. */
export function pipelinesForNode(fleet: Fleet, node: string): readonly WellPipeline[] {
  const known = fleet.pipelinesByNode.get(node);
  if (known) return known;
  const pipelines = wellsOf(fleet.readTable, node).flatMap((well) => fleet.pipelines.get(well) ?? []);
  fleet.pipelinesByNode.set(node, pipelines);
  return pipelines;
}

/** The wells an act is for: its own, those that read from its node, or all of them. */
export function pipelinesOfAct(fleet: Fleet, act: Act): readonly WellPipeline[] {
  if (act.kind === 'calibrated') return pipelinesForNode(fleet, act.node);
  const well = act.kind === 'card-changed' ? act.card.well : 'well' in act ? act.well : undefined;
  if (well === undefined) return [...fleet.pipelines.values()];
  const pipeline = fleet.pipelines.get(well);
  return pipeline ? [pipeline] : [];
}

/** All that ever feeds this well, in the order in which its cards named it. */
export function sourcesOfWell(fleet: Fleet, well: string): readonly WellSource[] {
  const known = fleet.sourcesByWell.get(well);
  if (known) return known;
  const nodes = new Set(
    (fleet.periods.get(well) ?? []).flatMap(({ card }) => sourcesOf(card).map(({ node }) => node)),
  );
  const sources = [...nodes].flatMap((node) =>
    [...(fleet.readTable.get(node) ?? [])].flatMap(([channel, feeds]) =>
      feeds.flatMap((feed) => (feed.well === well ? [{ node, channel, feed }] : [])),
    ),
  );
  fleet.sourcesByWell.set(well, sources);
  return sources;
}

/** What an act of a person, or news of a node, changes in a well. */
import { alarmAct } from '../alarms/lifecycle/alarms.ts';
import { pinBaseline, resetLearning } from '../baseline/learn.ts';
import { newSupplyEffect } from '../baseline/supply.ts';
import type { Act } from '../domain/act.ts';
import { nodesOf } from '../domain/sources.ts';
import { twoPointCorrection } from '../domain/two-point.ts';
import { resetLevels } from '../cycles/levels.ts';
import { newPump } from '../cycles/pump-state.ts';
import { setWaterCard, resetWaterBaseline } from '../hydraulics/water-state.ts';
import { correctionsAt, updateFullScales } from './channels.ts';
import type { Emit } from './emit.ts';
import type { NodeNews } from './input.ts';
import { addDayPumps } from './open-day.ts';
import { hasDrive } from './tank-feeds.ts';
import { endOfDateMs } from './local-day.ts';
import { alarmEmitter } from './evaluate-watches.ts';
import { newMinuteSums } from './minute-sums.ts';
import { emitBaseline, withoutShape } from './learn-from-day.ts';
import { newPumpRecord, waterCardOf, type WellState } from './well-state.ts';

export function applyAct(well: WellState, atMs: number, act: Act, emit: Emit): void {
  switch (act.kind) {
    case 'card-changed':
      changeCard(well, act.card, atMs);
      break;
    case 'visit-opened':
      well.visitOpen = true;
      break;
    case 'visit-closed':
      if (act.newBaseline) resetBaselines(well);
      // Closing what was not open clears nothing.
      if (!well.visitOpen) return;
      well.visitOpen = false;
      break;
    case 'pinned': {
      const at = well.card.pumps.findIndex((pump) => pump.id === act.pump);
      const record = well.records[at];
      if (!record) break;
      record.pinned = pinBaseline(record.baseline, act, atMs);
      record.baseline = record.pinned;
      emitBaseline(well, at, record.pinned, emit);
      break;
    }
    case 'calibrated':
      calibrate(well, act, atMs);
      break;
    case 'expected':
      well.expected.push({ text: act.text, untilMs: act.untilMs });
      break;
    case 'acknowledged':
    case 'shelved':
    case 'out-of-service':
    case 'back-in-service':
    case 'laid-up':
    case 'server-away':
    case 'tick':
      break;
    default:
      act satisfies never;
  }
  alarmAct(well.alarms, act, atMs, alarmEmitter(well, emit));
}

/**
 * What was in force stays where the points make no line that a reading can be corrected by. The
 * reader of acts refuses such points and says why (src/core/domain/read-act.ts), but an act kept
 * before that rule, or in another Stillwell, must not stop the well.
 */
function calibrate(well: WellState, act: Extract<Act, { kind: 'calibrated' }>, atMs: number): void {
  const line = twoPointCorrection(act.channel, act.points);
  if ('rule' in line) return;
  well.corrections[`${act.node}:${act.channel}`] = line.correction;
  well.activeCorrections = correctionsAt(well, atMs);
}

function changeCard(well: WellState, card: WellState['card'], atMs: number): void {
  const before = well.card;
  well.card = card;
  if (card.timeZone !== before.timeZone) moveDayEnd(well, card.timeZone);
  for (const [at, pump] of card.pumps.entries()) {
    const state = well.pumps[at];
    if (!state) {
      well.pumps.push(newPump(at, pump.maxAmps, hasDrive(pump)));
      well.records.push(newPumpRecord());
    } else if (
      pump.maxAmps !== before.pumps[at]?.maxAmps ||
      hasDrive(pump) !== (state.levels.hasDrive === true)
    ) {
      state.maxAmps = pump.maxAmps;
      resetLevels(state.levels, pump.maxAmps, hasDrive(pump));
    }
  }
  well.pumps.length = card.pumps.length;
  well.records.length = card.pumps.length;
  if (well.minuteSums.pumps.length !== card.pumps.length) well.minuteSums = newMinuteSums(card.pumps.length);
  for (const day of [...well.pendingDays, ...(well.day ? [well.day] : [])])
    addDayPumps(day, card.pumps.length);
  // A node that the new card does not name is no news of this well any more.
  const named = new Set(nodesOf(card, atMs).map(({ node }) => node));
  well.nodes = well.nodes.filter(({ node }) => named.has(node));
  setWaterCard(well.water, waterCardOf(card));
}

/**
 * The day that is open keeps its date and ends when that date does in the new time zone, so that no
 * date comes twice.
 */
function moveDayEnd(well: WellState, timeZone: string): void {
  if (!well.day) return;
  well.day.endMs = Math.max(endOfDateMs(well.day.date, timeZone), well.nextMinuteMs);
}

/** After a repair: what was normal before is no measure any more; it is kept to compare with. */
function resetBaselines(well: WellState): void {
  resetWaterBaseline(well.water);
  for (const [at, record] of well.records.entries()) {
    resetLearning(record.learning);
    record.supply = newSupplyEffect();
    // Two visits before anything new was learnt: what was normal before the first is still what was
    // normal.
    if (record.baseline) record.previousBaseline = withoutShape(record.baseline);
    record.baseline = undefined;
    record.pinned = undefined;
    record.cycles = [];
    const { levels } = well.pumps[at]!;
    resetLevels(levels, well.card.pumps[at]?.maxAmps, levels.hasDrive);
  }
}

/** All that its node says of its channels now; what it said before holds no more. */
function applyFullScale(
  well: WellState,
  { node, maxByChannel, spanMsByChannel }: Extract<NodeNews, { news: 'full-scale' }>,
): void {
  well.fullScales = replaceOfNode(well.fullScales, node, maxByChannel);
  if (spanMsByChannel || well.readingSpansMs)
    well.readingSpansMs = replaceOfNode(well.readingSpansMs, node, spanMsByChannel ?? {});
}

/** `known`, by `node:channel`, with what this node says now in place of what it said. */
function replaceOfNode(
  known: Record<string, number> = {},
  node: string,
  byChannel: Record<string, number>,
): Record<string, number> {
  const others = Object.entries(known).filter(([name]) => !name.startsWith(`${node}:`));
  const mine = Object.entries(byChannel).map(([channel, value]) => [`${node}:${channel}`, value] as const);
  return Object.fromEntries([...others, ...mine]);
}

export function applyNodeNews(well: WellState, atMs: number, nodeNews: NodeNews): void {
  const others = well.nodes.filter((n) => n.node !== nodeNews.node);
  const mine = well.nodes.filter((n) => n.node === nodeNews.node);
  const without = (is: string): WellState['nodes'] => [...others, ...mine.filter((n) => n.is !== is)];
  switch (nodeNews.news) {
    case 'silent':
      well.nodes = [
        ...without('silent'),
        {
          node: nodeNews.node,
          is: 'silent',
          sinceMs: nodeNews.sinceMs,
          // Its site is told instead of it, and how it is fed weighs its silence
          // (src/core/alarms/sensing/node-silent.ts).
          ...((nodeNews.withSite !== undefined || nodeNews.fedFrom !== undefined) && {
            evidence: {
              ...(nodeNews.withSite !== undefined && { withSite: nodeNews.withSite }),
              ...(nodeNews.fedFrom !== undefined && { fedFrom: nodeNews.fedFrom }),
            },
          }),
        },
      ];
      break;
    case 'heard':
      well.nodes = without('silent');
      break;
    case 'no-power':
      well.nodes = [...without('no-power'), { node: nodeNews.node, is: 'no-power', sinceMs: atMs }];
      break;
    case 'power-back':
      well.nodes = without('no-power');
      break;
    case 'conflict':
      well.nodes = [
        ...without('conflict'),
        { node: nodeNews.node, is: 'conflict', sinceMs: nodeNews.sinceMs, evidence: nodeNews.evidence },
      ];
      break;
    case 'conflict-over':
      well.nodes = without('conflict');
      break;
    case 'full-scale':
      applyFullScale(well, nodeNews);
      updateFullScales(well, atMs);
      break;
    default:
      nodeNews satisfies never;
  }
}

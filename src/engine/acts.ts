/** What an act of a person, or news of a node, changes in a well. */
import { alarmAct } from '../alarm/alarms.ts';
import { pinBaseline, restartLearning } from '../baseline/learn.ts';
import { newSupply } from '../baseline/supply.ts';
import type { Act } from '../card/act.ts';
import { nodesOf } from '../card/reads.ts';
import { twoPointCorrection } from '../card/two-point.ts';
import { levelsRestart } from '../cycles/levels.ts';
import { newPump } from '../cycles/pump-state.ts';
import { setWaterCard, startNewBaseline } from '../hydraulics/water-state.ts';
import { correctionsAt, noteFullScales } from './channels.ts';
import type { Emit } from './emit.ts';
import type { NodeNews } from './input.ts';
import { growDay } from './day.ts';
import { isDriven } from './feeds.ts';
import { endOfDateMs } from './local-day.ts';
import { alarmEmit } from './look.ts';
import { newMinute } from './minute.ts';
import { sayBaseline, withoutShape } from './teach.ts';
import { newRecord, waterCard, type WellState } from './state.ts';

export function takeAct(well: WellState, atMs: number, act: Act, emit: Emit): void {
  switch (act.kind) {
    case 'card-changed':
      changeCard(well, act.card, atMs);
      break;
    case 'visit-opened':
      well.visitOpen = true;
      break;
    case 'visit-closed':
      if (act.newBaseline) beginAnew(well);
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
      sayBaseline(well, at, record.pinned, emit);
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
  alarmAct(well.alarms, act, atMs, alarmEmit(well, emit));
}

/**
 * What was in force stays where the points make no line that a reading can be corrected by. The reader of acts refuses such points and
 * says why (src/card/read-act.ts), but an act kept before that rule, or in another Stillwell, must not stop the well.
 */
function calibrate(well: WellState, act: Extract<Act, { kind: 'calibrated' }>, atMs: number): void {
  const line = twoPointCorrection(act.channel, act.points);
  if ('rule' in line) return;
  well.corrections[`${act.node}:${act.channel}`] = line.correction;
  well.inForce = correctionsAt(well, atMs);
}

function changeCard(well: WellState, card: WellState['card'], atMs: number): void {
  const before = well.card;
  well.card = card;
  if (card.timeZone !== before.timeZone) moveDay(well, card.timeZone);
  for (const [at, pump] of card.pumps.entries()) {
    const state = well.pumps[at];
    if (!state) {
      well.pumps.push(newPump(at, pump.maxAmps, isDriven(pump)));
      well.records.push(newRecord());
    } else if (
      pump.maxAmps !== before.pumps[at]?.maxAmps ||
      isDriven(pump) !== (state.levels.driven === true)
    ) {
      state.maxAmps = pump.maxAmps;
      levelsRestart(state.levels, pump.maxAmps, isDriven(pump));
    }
  }
  well.pumps.length = card.pumps.length;
  well.records.length = card.pumps.length;
  if (well.minute.pumps.length !== card.pumps.length) well.minute = newMinute(card.pumps.length);
  for (const day of [...well.waitingDays, ...(well.day ? [well.day] : [])]) growDay(day, card.pumps.length);
  // A node that the new card does not name is no news of this well any more.
  const named = new Set(nodesOf(card, atMs).map(({ node }) => node));
  well.nodes = well.nodes.filter(({ node }) => named.has(node));
  setWaterCard(well.water, waterCard(card));
}

/** The day that is open keeps its date and ends when that date does in the new time zone, so that no date comes twice. */
function moveDay(well: WellState, timeZone: string): void {
  if (!well.day) return;
  well.day.endMs = Math.max(endOfDateMs(well.day.date, timeZone), well.nextMinuteMs);
}

/** After a repair: what was normal before is no measure any more; it is kept to compare with. */
function beginAnew(well: WellState): void {
  startNewBaseline(well.water);
  for (const [at, record] of well.records.entries()) {
    restartLearning(record.learning);
    record.supply = newSupply();
    // Two visits before anything new was learnt: what was normal before the first is still what was normal.
    if (record.baseline) record.before = withoutShape(record.baseline);
    record.baseline = undefined;
    record.pinned = undefined;
    record.cycles = [];
    const { levels } = well.pumps[at]!;
    levelsRestart(levels, well.card.pumps[at]?.maxAmps, levels.driven);
  }
}

/** All that its node says of its channels now; what it said before holds no more. */
function takeFullScale(well: WellState, { node, most }: Extract<NodeNews, { news: 'full-scale' }>): void {
  const others = Object.entries(well.fullScales ?? {}).filter(([name]) => !name.startsWith(`${node}:`));
  const mine = Object.entries(most).map(([channel, value]) => [`${node}:${channel}`, value] as const);
  well.fullScales = Object.fromEntries([...others, ...mine]);
}

export function takeNews(well: WellState, atMs: number, node: NodeNews): void {
  const others = well.nodes.filter((n) => n.node !== node.node);
  const mine = well.nodes.filter((n) => n.node === node.node);
  const without = (is: string): WellState['nodes'] => [...others, ...mine.filter((n) => n.is !== is)];
  switch (node.news) {
    case 'silent':
      well.nodes = [
        ...without('silent'),
        {
          node: node.node,
          is: 'silent',
          sinceMs: node.sinceMs,
          // Its site is told instead of it, and how it is fed weighs its silence (src/watch/node-silent.ts).
          ...((node.withSite !== undefined || node.fedFrom !== undefined) && {
            evidence: {
              ...(node.withSite !== undefined && { withSite: node.withSite }),
              ...(node.fedFrom !== undefined && { fedFrom: node.fedFrom }),
            },
          }),
        },
      ];
      break;
    case 'heard':
      well.nodes = without('silent');
      break;
    case 'no-power':
      well.nodes = [...without('no-power'), { node: node.node, is: 'no-power', sinceMs: atMs }];
      break;
    case 'power-back':
      well.nodes = without('no-power');
      break;
    case 'conflict':
      well.nodes = [
        ...without('conflict'),
        { node: node.node, is: 'conflict', sinceMs: node.sinceMs, evidence: node.evidence },
      ];
      break;
    case 'conflict-over':
      well.nodes = without('conflict');
      break;
    case 'full-scale':
      takeFullScale(well, node);
      noteFullScales(well, atMs);
      break;
    default:
      node satisfies never;
  }
}

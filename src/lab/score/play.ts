/**
 * Plays a case: the plant's seconds become a node's messages, these go through the very intake,
 * engine and order of `replay`, and what comes out is kept beside the truth. Nothing is written to
 * a file; what is held is a week of readings and what was said.
 */
import type { AlarmEvent, CycleEvent, DayEvent, WellEvent } from '../../../shared/api/events.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import { readCard } from '../../core/domain/read-card.ts';
import { finish, settle } from '../../replay/settle.ts';
import { newReplay, type Replay } from '../../replay/state.ts';
import { summaryOf } from '../../replay/summary.ts';
import { handleRecorded } from '../../replay/handle-line.ts';
import { DEFAULT_ROOT } from '../../core/decode/topics.ts';
import type { PlantSample, TrueCycle, TrueDay } from '../plant/params.ts';
import { newPlant, playPlant, truthOf } from '../plant/plant.ts';
import { playSecond } from '../second-plant/play.ts';
import type { CorpusCase } from './case.ts';
import type { DeliveredMessage } from './link.ts';
import type { MeteredWell } from './metered-well.ts';
import { newSimulatedNode, finishNode, handleSample, type SimulatedNode, type Gap } from './node.ts';

export interface PlayResult {
  truth: { cycles: TrueCycle[]; days: TrueDay[] };
  /** When the fault first showed, where the plant can see that. */
  shownMs?: number;
  cycles: CycleEvent[];
  days: DayEvent[];
  alarms: AlarmEvent[];
  /** Where no reader can be asked for anything. */
  gaps: Gap[];
  readings: number;
  /** What `replay` would say on stderr. */
  remarks: string[];
  /** Faults of our own. */
  faults: string[];
}

/**
 * Throws an Error where the case itself is wrong: a card that can't be read, a channel that isn't.
 */
export function playCase(corpusCase: CorpusCase): PlayResult {
  const { name, plan, node: nodePlan, fromMs, days } = corpusCase;
  const read = readCard(corpusCase.card);
  if ('problem' in read) throw new Error(`Cannot play ${name}: ${read.problem}`);
  const replay = newReplay([read.card], new Map());
  const events: Pick<PlayResult, 'cycles' | 'days' | 'alarms'> = { cycles: [], days: [], alarms: [] };
  const record = (event: WellEvent): void => recordEvent(events, event);
  const acts = actsOf(corpusCase);
  let lastMs = fromMs;
  const arrive = (message: DeliveredMessage): void => {
    // Two boxes have two links, and what is written down is in order of arrival.
    lastMs = Math.max(lastMs, message.tstMs);
    acts.applyUpTo(replay, lastMs);
    handleRecorded(replay, DEFAULT_ROOT, { is: 'message', ...message, tstMs: lastMs });
    settle(replay, record);
  };
  const newBox = (well: MeteredWell, bootMs: number): SimulatedNode =>
    newSimulatedNode({ name: read.card.well, plan: nodePlan, well, fromMs: bootMs }, arrive);
  const node = newBox(plan, fromMs);
  const twins: SimulatedNode[] = [];
  const twinFromMs = nodePlan.twinFromMs ?? Number.POSITIVE_INFINITY;
  const { shownMs, ...truth } = playWell(corpusCase, (sample) => {
    handleSample(node, sample);
    if (sample.tMs < twinFromMs) return;
    if (twins.length === 0) twins.push(newBox({ ...plan, seed: plan.seed + 1 }, sample.tMs));
    for (const twin of twins) handleSample(twin, sample);
  });
  for (const one of [node, ...twins]) finishNode(one);
  const untilMs = fromMs + days * DAY_MS;
  acts.applyUpTo(replay, untilMs);
  // Time goes on to the case's end, also where nobody speaks any more.
  handleRecorded(replay, DEFAULT_ROOT, { is: 'act', tstMs: untilMs, act: { kind: 'tick' } });
  finish(replay, record);
  return {
    ...events,
    truth,
    ...(shownMs !== undefined && { shownMs }),
    gaps: node.gaps.sort((a, b) => a.fromMs - b.fromMs),
    readings: node.readings,
    remarks: summaryOf(replay),
    faults: replay.faults,
  };
}

function playWell(
  { plan, node, fromMs, days }: CorpusCase,
  onSample: (sample: PlantSample) => void,
): PlayResult['truth'] & Pick<PlayResult, 'shownMs'> {
  const untilMs = fromMs + days * DAY_MS;
  const everyS = node.everyS || 1;
  if ('plant' in plan) return playSecond(plan, { fromMs, untilMs, everyS }, onSample);
  const plant = newPlant(plan, fromMs);
  playPlant(plant, untilMs, everyS, onSample);
  return truthOf(plant);
}

function recordEvent(events: Pick<PlayResult, 'cycles' | 'days' | 'alarms'>, event: WellEvent): void {
  switch (event.event) {
    case 'cycle':
      events.cycles.push(event);
      break;
    case 'day':
      events.days.push(event);
      break;
    case 'alarm':
      events.alarms.push(event);
      break;
    case 'baseline':
      break;
    default:
      event satisfies never;
  }
}

/** The case's acts, handed over in their turn among the messages. */
function actsOf({ acts }: CorpusCase): { applyUpTo: (replay: Replay, toMs: number) => void } {
  const pending = [...(acts ?? [])];
  return {
    applyUpTo(replay, toMs) {
      while (pending.length > 0 && pending[0]!.atMs <= toMs) {
        const { atMs, act } = pending.shift()!;
        handleRecorded(replay, DEFAULT_ROOT, { is: 'act', tstMs: atMs, act });
      }
    },
  };
}

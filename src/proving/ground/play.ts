/**
 * Plays a case: the plant's seconds become a node's messages, these go through the very intake, engine and order of `replay`, and
 * what comes out is kept beside the truth. Nothing is written to a file; what is held is a week of readings and what was said.
 */
import type { AlarmEvent, CycleEvent, DayEvent, WellEvent } from '../../../shared/api/events.ts';
import { readCard } from '../../card/read-card.ts';
import { finish, settle } from '../../run/replay/settle.ts';
import { newReplay, type Replay } from '../../run/replay/state.ts';
import { summaryOf } from '../../run/replay/summary.ts';
import { takeRecorded } from '../../run/replay/take-line.ts';
import { DEFAULT_ROOT } from '../../wire/topics.ts';
import type { PlantSample, TrueCycle, TrueDay, WellPlan } from '../plant/params.ts';
import { newPlant, playPlant, truthOf } from '../plant/plant.ts';
import type { CorpusCase } from './case.ts';
import type { Arrival } from './link.ts';
import { newGroundNode, nodeEnds, nodeTakes, type GroundNode, type Unheard } from './node.ts';

export interface Played {
  truth: { cycles: TrueCycle[]; days: TrueDay[] };
  cycles: CycleEvent[];
  days: DayEvent[];
  alarms: AlarmEvent[];
  /** Where no reader can be asked for anything. */
  unheard: Unheard[];
  readings: number;
  /** What `replay` would say on stderr. */
  remarks: string[];
  /** Faults of our own. */
  faults: string[];
}

const DAY_MS = 86_400_000;

/** Throws an Error where the case itself is wrong: a card that can't be read, a channel that isn't. */
export function playCase(corpusCase: CorpusCase): Played {
  const { name, plan, node: nodePlan, fromMs, days } = corpusCase;
  const read = readCard(corpusCase.card);
  if ('problem' in read) throw new Error(`Cannot play ${name}: ${read.problem}`);
  const replay = newReplay([read.card], new Map());
  const said: Pick<Played, 'cycles' | 'days' | 'alarms'> = { cycles: [], days: [], alarms: [] };
  const say = (event: WellEvent): void => keep(said, event);
  const acts = actsOf(corpusCase);
  let lastMs = fromMs;
  const arrive = (message: Arrival): void => {
    // Two boxes have two links, and what is written down is in order of arrival.
    lastMs = Math.max(lastMs, message.tstMs);
    acts.upTo(replay, lastMs);
    takeRecorded(replay, DEFAULT_ROOT, { is: 'message', ...message, tstMs: lastMs });
    settle(replay, say);
  };
  const box = (well: WellPlan, bootMs: number): GroundNode =>
    newGroundNode({ name: read.card.well, plan: nodePlan, well, fromMs: bootMs }, arrive);
  const node = box(plan, fromMs);
  const twins: GroundNode[] = [];
  const twinFromMs = nodePlan.twinFromMs ?? Number.POSITIVE_INFINITY;
  const truth = playWell(corpusCase, (sample) => {
    nodeTakes(node, sample);
    if (sample.tMs < twinFromMs) return;
    if (twins.length === 0) twins.push(box({ ...plan, seed: plan.seed + 1 }, sample.tMs));
    for (const twin of twins) nodeTakes(twin, sample);
  });
  for (const one of [node, ...twins]) nodeEnds(one);
  const untilMs = fromMs + days * DAY_MS;
  acts.upTo(replay, untilMs);
  // Time goes on to the case's end, also where nobody speaks any more.
  takeRecorded(replay, DEFAULT_ROOT, { is: 'act', tstMs: untilMs, act: { kind: 'tick' } });
  finish(replay, say);
  return {
    ...said,
    truth,
    unheard: node.unheard.sort((a, b) => a.fromMs - b.fromMs),
    readings: node.readings,
    remarks: summaryOf(replay),
    faults: replay.faults,
  };
}

function playWell(
  { plan, node, fromMs, days, play }: CorpusCase,
  take: (sample: PlantSample) => void,
): Played['truth'] {
  if (play) return play(take);
  const plant = newPlant(plan, fromMs);
  playPlant(plant, fromMs + days * DAY_MS, node.everyS || 1, take);
  return truthOf(plant);
}

function keep(said: Pick<Played, 'cycles' | 'days' | 'alarms'>, event: WellEvent): void {
  switch (event.event) {
    case 'cycle':
      said.cycles.push(event);
      break;
    case 'day':
      said.days.push(event);
      break;
    case 'alarm':
      said.alarms.push(event);
      break;
    case 'baseline':
      break;
    default:
      event satisfies never;
  }
}

/** The case's acts, handed over in their turn among the messages. */
function actsOf({ acts }: CorpusCase): { upTo: (replay: Replay, toMs: number) => void } {
  const waiting = [...(acts ?? [])];
  return {
    upTo(replay, toMs) {
      while (waiting.length > 0 && waiting[0]!.atMs <= toMs) {
        const { atMs, act } = waiting.shift()!;
        takeRecorded(replay, DEFAULT_ROOT, { is: 'act', tstMs: atMs, act });
      }
    },
  };
}

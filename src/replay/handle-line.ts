/** One line of a recording, given to the fleet at its arrival time. */
import type { Act } from '../core/domain/act.ts';
import { readAct } from '../core/domain/read-act.ts';
import { readMessage } from '../core/decode/read-message.ts';
import { parseRecordingLine, type RecordedLine, type RecordedMessage } from '../core/decode/recording.ts';
import { cardAt, withDefaultNode } from '../core/fleet/read-table.ts';
import { addProblem, take } from './apply-effect.ts';
import { increment, type Replay } from './state.ts';

/**
 * Takes one line, without its end. `root` is the first part of the topics. Never throws for what
 * stands in a line.
 */
export function handleLine(replay: Replay, root: string, bytes: Uint8Array): void {
  handleRecorded(replay, root, parseRecordingLine(bytes));
}

/**
 * Takes what a line of a recording says, in order of arrival: for whoever makes messages without
 * writing them down first.
 */
export function handleRecorded(replay: Replay, root: string, line: RecordedLine): void {
  replay.counts.lines++;
  switch (line.is) {
    case 'message':
      handleMessage(replay, root, line);
      break;
    case 'act':
      handleAct(replay, line.tstMs, line.act);
      break;
    case 'ignored':
      if (line.reason !== 'blank') increment(replay.counts.ignored, line.reason);
      break;
    default:
      line satisfies never;
  }
}

function handleMessage(replay: Replay, root: string, raw: RecordedMessage): void {
  const { topic, payload, retained, tstMs } = raw;
  replay.counts.messages++;
  const message = readMessage({ root, topic, payload, retained, arrivalMs: tstMs });
  take(replay, { is: 'message', message }, tstMs);
}

function handleAct(replay: Replay, atMs: number, json: unknown): void {
  replay.counts.acts++;
  const read = readAct(json, { cardOf: (well) => cardAt(replay.periods, well, atMs) });
  if ('act' in read) take(replay, { is: 'act', act: withReplayedNode(replay, read.act) }, atMs);
  else {
    take(replay, { is: 'time' }, atMs);
    addProblem(replay, atMs, read.problem);
  }
}

/** A card that is written later reads by default from the node that the command line named. */
function withReplayedNode({ defaultNodes }: Replay, act: Act): Act {
  if (act.kind !== 'card-changed') return act;
  const node = defaultNodes.get(act.card.well);
  return node === undefined ? act : { ...act, card: withDefaultNode(act.card, node) };
}

/**
 * A record as text -> a record, or one sentence that says what is wrong and in which line. Read
 * whole or not at all: of half a well's past nobody could say which half. What is kept is each line
 * as it was written, so that it can be handed on to the letter.
 */
import { readAct } from '../../core/domain/read-act.ts';
import { isName } from '../../core/domain/parse-context.ts';
import type { Entry } from '../../../shared/entries/entry.ts';
import { readEntry } from '../entries/read-entry.ts';
import { RECORD_VERSION, type Sha256, type WellRecord } from './record.ts';
import { endShape, headShape, lineShape, type RecordLine } from './shapes.ts';
import { importing } from '../texts.ts';

/** A well of 500 starts a day has 1.8 million cycles in ten years. */
const MAX_LINES = 3_000_000;
/**
 * The longest line is a card or an entry: 64 KiB at most (src/http/api-request.ts), and its frame.
 */
const MAX_LINE_LENGTH = 80 * 1024;

type ReadRecordResult = { record: WellRecord } | { problem: string };
class UnreadableRecord extends Error {}

/** Never throws. */
export function readRecord(text: string, sha256: Sha256): ReadRecordResult {
  try {
    return { record: parseRecord(text, sha256) };
  } catch (error) {
    if (error instanceof UnreadableRecord) return { problem: importing().cannot(error.message) };
    throw error;
  }
}

function parseRecord(text: string, sha256: Sha256): WellRecord {
  // No more than these are made: of line breaks alone a record of the largest size would be 268
  // million lines.
  const lines = text.split('\n', MAX_LINES + 1);
  if (lines.length > MAX_LINES) throw new UnreadableRecord(importing().tooManyLines(MAX_LINES));
  const well = readHead(lines[0] ?? '');
  verifyEnd(text, lines, sha256);
  const record: WellRecord = {
    well,
    acts: [],
    entries: [],
    baselines: [],
    days: [],
    cycles: [],
    alarms: [],
  };
  const ids = new Set<string>();
  for (let at = 1; at < lines.length - 2; at++) addLine(record, lines[at]!, at + 1, ids);
  return record;
}

function readHead(first: string): string {
  const head = headShape.safeParse(parseLine(first, 1));
  if (!head.success) throw new UnreadableRecord(importing().isNoRecord);
  const { version, well } = head.data;
  if (version > RECORD_VERSION)
    throw new UnreadableRecord(importing().isNewer({ version, known: RECORD_VERSION }));
  if (version < 1) throw new UnreadableRecord(importing().noSuchFormat(version));
  if (!isName(well)) throw new UnreadableRecord(importing().wellName);
  return well;
}

/** The last line counts and vouches for those before it. */
function verifyEnd(text: string, lines: readonly string[], sha256: Sha256): void {
  const last = lines.at(-2) ?? '';
  const end =
    lines.at(-1) === '' && last !== '' ? endShape.safeParse(parseLine(last, lines.length - 1)) : undefined;
  if (!end?.success) throw new UnreadableRecord(importing().endIsMissing);
  const body = text.slice(0, text.length - last.length - 1);
  if (end.data.lines !== lines.length - 2 || end.data.sha256 !== sha256(new TextEncoder().encode(body)))
    throw new UnreadableRecord(importing().hashDiffers);
}

function parseLine(line: string, at: number): unknown {
  if (line.length > MAX_LINE_LENGTH)
    throw new UnreadableRecord(importing().lineTooLong({ line: at, max: MAX_LINE_LENGTH }));
  try {
    return JSON.parse(line);
  } catch {
    throw new UnreadableRecord(importing().lineIsNoJson(at));
  }
}

function addLine(record: WellRecord, line: string, at: number, ids: Set<string>): void {
  const json = parseLine(line, at);
  const read = lineShape.safeParse(json);
  if (!read.success) {
    const issue = read.error.issues[0];
    throw new UnreadableRecord(
      importing().lineField({
        line: at,
        field: issue?.path.join('.') ?? '',
        problem: issue?.message ?? importing().isUnknown,
      }),
    );
  }
  const problem = lineProblem(read.data, record.well, ids);
  if (problem !== undefined) throw new UnreadableRecord(importing().line({ line: at, problem }));
  // Just read by its shape. Kept as it came and not as the shape gives it back, which would put its
  // keys in another order.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  appendLine(record, json as RecordLine);
}

/** What no shape can say: whose line it is, and whether a card, act or entry is one. */
function lineProblem(line: RecordLine, well: string, ids: Set<string>): string | undefined {
  switch (line.is) {
    case 'act':
      return duplicateProblem(ids, { what: importing().act, id: line.row.id }) ?? actProblem(line.row, well);
    case 'entry': {
      const { id, createdMs, by, atMs, body, kind, replaces } = line.row;
      if (line.row.well !== well) return importing().isOfOtherWell(line.row.well);
      const written = {
        ...body,
        kind,
        well,
        at: new Date(atMs).toISOString(),
        ...(replaces !== undefined && { replaces }),
      };
      const read = readEntry(written, { id, createdMs, ...(by !== undefined && { by }) });
      return 'problem' in read ? read.problem : duplicateProblem(ids, { what: importing().entry, id });
    }
    case 'alarm':
      return line.row.well === well
        ? duplicateProblem(ids, { what: importing().alarm, id: line.row.id })
        : importing().isOfOtherWell(line.row.well);
    case 'baseline':
    case 'day':
    case 'cycle':
      return line.row.event.well === well ? undefined : importing().isOfOtherWell(line.row.event.well);
    default:
      return line satisfies never;
  }
}

/** An act and an entry may have the same id. */
function duplicateProblem(ids: Set<string>, { what, id }: Record<'what' | 'id', string>): string | undefined {
  const key = `${what} ${id}`;
  if (ids.has(key)) return importing().isTwice({ what, id });
  ids.add(key);
  return undefined;
}

function actProblem(row: Extract<RecordLine, { is: 'act' }>['row'], well: string): string | undefined {
  const read = readAct(row.body, { past: true });
  if ('problem' in read) return read.problem;
  const { act } = read;
  if (act.kind !== row.kind) return importing().kindDiffers({ written: row.kind, found: act.kind });
  const of = act.kind === 'card-changed' ? act.card.well : 'well' in act ? act.well : undefined;
  if (of !== undefined && (of !== well || row.well !== well)) return importing().isOfOtherWell(of);
  return of === undefined && act.kind !== 'calibrated' ? importing().isNoActOfWell(act.kind) : undefined;
}

function appendLine(record: WellRecord, line: RecordLine): void {
  switch (line.is) {
    case 'act':
      record.acts.push(line.row);
      break;
    case 'entry':
      // Its reader has looked at each field of its kind.
      record.entries.push(line.row as Entry);
      break;
    case 'baseline':
      record.baselines.push(line.row);
      break;
    case 'day':
      record.days.push(line.row);
      break;
    case 'cycle':
      record.cycles.push(line.row);
      break;
    case 'alarm':
      record.alarms.push(line.row);
      break;
    default:
      line satisfies never;
  }
}

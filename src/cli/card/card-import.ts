/**
 * `stillwell card import`: a firm's list of wells. All of it is read and checked against the cards
 * as they stand before the first is written, so that a wrong row leaves nothing half taken. What
 * was taken already is no change: after a stop it can be run again.
 */
import { SingleBar } from 'cli-progress';
import { cardDifferences } from '../../../shared/card/differences.ts';
import { flatten, unflatten } from '../../../shared/card/flat-card.ts';
import { cardIssues } from '../../core/domain/read-card.ts';
import { readCardFile, type CardFile, type CardTask } from './card-file.ts';
import { EXIT, type Io } from '../command.ts';
import { mistakeLines, rowPlace, type RowMistake } from '../mistake-lines.ts';
import { ApiError, type ServerApi } from '../server-api.ts';
import { texts } from './texts.ts';

export interface ImportOptions {
  file: string;
  skipBad: boolean;
  dryRun: boolean;
  by?: string;
}

/** The server commits together what waits for it. Common practice, no source. */
const AT_ONCE = 16;

interface CardChange {
  line: number;
  well: string;
  card: Record<string, unknown>;
  basedOn?: string;
  isNew: boolean;
}

interface Plan {
  changes: CardChange[];
  bad: RowMistake[];
  same: number;
}

export async function importCards(io: Io, api: ServerApi, options: ImportOptions): Promise<number> {
  const file = readCardFile(options.file);
  const plan = await planOf(api, file);
  const words = texts().rows[file.rowName];
  for (const line of mistakeLines(plan.bad, words)) io.err(line);
  const count = file.tasks.length + file.bad.length;
  if (plan.bad.length > 0 && !options.skipBad) {
    io.err(texts().nothingWasImported[file.rowName](plan.bad.length, count));
    return EXIT.usage;
  }
  const fresh = plan.changes.filter(({ isNew }) => isNew).length;
  const same = texts().unchanged(plan.same, plan.bad.length);
  if (options.dryRun) {
    for (const { well, isNew } of plan.changes) io.out(isNew ? texts().newWell(well) : well);
    io.out(texts().cardsWouldBeImported({ changesCount: plan.changes.length, fresh, same }));
    return EXIT.ok;
  }
  const written = await writeAll(io, api, plan.changes, options.by);
  if ('why' in written) {
    const why = `${rowPlace(written.at, words)}: ${written.why}`;
    io.err(texts().ofCardsWereImported({ why, n: written.n, changesCount: plan.changes.length }));
    return EXIT.failed;
  }
  io.out(texts().cardsImportedOfNewWells({ n: written.n, fresh, same }));
  if (written.odd > 0) io.out(texts().importedAsTheyAre(written.odd));
  return EXIT.ok;
}

/** What each card is to become, and which cannot be. */
async function planOf(api: ServerApi, file: CardFile): Promise<Plan> {
  const { cards } = await api.get('cards');
  const known = new Map(cards.map((card) => [card.well, card]));
  const plan: Plan = { changes: [], bad: [...file.bad], same: 0 };
  for (const task of file.tasks) {
    const now = known.get(task.well);
    const before = flatten(now?.card ?? { well: task.well });
    const flat = { ...task.apply(before), well: task.well };
    const card = { ...unflatten(flat), well: task.well };
    const reasons = cardIssues(card).map(({ key, rule, valueText }) => `${key} ${rule}: ${valueText}`);
    if (reasons.length > 0) plan.bad.push({ line: task.line, well: task.well, reason: reasons.join('; ') });
    else if (now && cardDifferences(before, flat).length === 0) plan.same++;
    else plan.changes.push(changeOf(task, card, now));
  }
  return plan;
}

function changeOf(
  { line, well }: CardTask,
  card: Record<string, unknown>,
  now: { act?: string } | undefined,
): CardChange {
  return { line, well, card, isNew: now === undefined, ...(now?.act !== undefined && { basedOn: now.act }) };
}

type WriteResult = { n: number; odd: number } | { n: number; at: CardChange; why: string };

async function writeAll(
  io: Io,
  api: ServerApi,
  changes: readonly CardChange[],
  by: string | undefined,
): Promise<WriteResult> {
  const bar = new SingleBar({
    format: texts().progress,
    stream: process.stderr,
    hideCursor: true,
    clearOnComplete: true,
  });
  if (io.progress) bar.start(changes.length, 0);
  const waiting = changes.values();
  const end: { n: number; odd: number; failed?: { at: CardChange; why: string } } = { n: 0, odd: 0 };
  let isStopped = false;
  const writeNext = async (): Promise<void> => {
    for (const change of waiting) {
      if (isStopped) return;
      // oxlint-disable-next-line no-await-in-loop
      const written = await writeOne(api, change, by).catch((error: unknown) => {
        isStopped = true;
        throw error;
      });
      if ('why' in written) {
        isStopped = true;
        end.failed ??= written;
        return;
      }
      end.n += 1;
      end.odd += written.questions;
      if (io.progress) bar.update(end.n);
    }
  };
  // What is under way when one fails is waited for: nothing goes on behind an error.
  const all = await Promise.allSettled(Array.from({ length: AT_ONCE }, writeNext));
  if (io.progress) bar.stop();
  const broken = all.find((one) => one.status === 'rejected');
  if (broken) throw broken.reason;
  return end.failed ? { n: end.n, ...end.failed } : end;
}

async function writeOne(
  api: ServerApi,
  change: CardChange,
  by: string | undefined,
): Promise<{ questions: number } | { at: CardChange; why: string }> {
  const { well, card, basedOn } = change;
  const body = { card, ...(basedOn !== undefined && { basedOn }), ...(by !== undefined && { by }) };
  try {
    const { questions } = await api.post('writeCard', { well }, body);
    return { questions: questions.length };
  } catch (error) {
    if (error instanceof ApiError) return { at: change, why: error.message };
    throw error;
  }
}

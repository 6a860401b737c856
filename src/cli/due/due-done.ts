/**
 * `stillwell due done`: a check written down as done, with its value as found and as left, a remark
 * and photos.
 */
import { EXIT, UsageError, type Io } from '../command.ts';
import type { ServerApi } from '../server-api.ts';
import { writeEntry, type EntryFlags } from '../logbook/write-entry.ts';
import { texts } from './texts.ts';

export interface DoneOptions extends EntryFlags {
  well: string;
  check: string;
  result?: string | undefined;
  value?: string | undefined;
  left?: string | undefined;
  json?: boolean | undefined;
}

export async function writeDone(io: Io, api: ServerApi, options: DoneOptions): Promise<number> {
  const { well, check, result, value, left, json } = options;
  const { checks } = await api.get('checks', { well });
  const known = checks.find((one) => one.check === check);
  if (!known)
    throw new UsageError(
      texts().checksOf({ check, well, checks: checks.map((one) => one.check).join(', ') }),
    );
  const entry = {
    kind: 'check',
    check,
    outcome: result ?? 'right',
    ...(value !== undefined && { value }),
    ...(left !== undefined && { left }),
  };
  const saved = await writeEntry(io, api, { well, about: known.title, entry }, options);
  const after = (await api.get('checks', { well })).checks.find((one) => one.check === check);
  if (json === true) io.out(JSON.stringify(saved));
  else
    io.out(
      after?.dueDate === undefined
        ? texts().recordedNotDueAgain(known.title)
        : texts().recordedIsNextDue({ title: known.title, date: after.dueDate }),
    );
  return EXIT.ok;
}

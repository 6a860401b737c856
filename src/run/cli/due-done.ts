/** `stillwell due done`: a check written down as done, with its value as found and as left, a remark and photos. */
import { EXIT, Misuse, type Io } from './command.ts';
import type { ServerApi } from './server-api.ts';
import { writeDown, type WrittenWith } from './write-down.ts';

export interface DoneOptions extends WrittenWith {
  well: string;
  check: string;
  was?: string | undefined;
  value?: string | undefined;
  left?: string | undefined;
  json?: boolean | undefined;
}

export async function writeDone(io: Io, api: ServerApi, options: DoneOptions): Promise<number> {
  const { well, check, was, value, left, json } = options;
  const { checks } = await api.ask('checks', { well });
  const known = checks.find((one) => one.check === check);
  if (!known)
    throw new Misuse(`${well} has no check ${check}; it has ${checks.map((one) => one.check).join(', ')}`);
  const entry = {
    kind: 'check',
    check,
    outcome: was ?? 'right',
    ...(value !== undefined && { value }),
    ...(left !== undefined && { left }),
  };
  const kept = await writeDown(io, api, { well, about: known.title, entry }, options);
  const after = (await api.ask('checks', { well })).checks.find((one) => one.check === check);
  if (json === true) io.out(JSON.stringify(kept));
  else
    io.out(
      `Written down. ${known.title} is next due ${after?.on === undefined ? 'never' : `on ${after.on}`}.`,
    );
  return EXIT.ok;
}

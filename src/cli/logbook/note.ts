/** `stillwell say`: what somebody knows of a well in one line with its end, that it stands still, and that it is back. */
import type { WrittenAct } from '../../../shared/acts/act-fields.ts';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import { actNote } from '../../../shared/known/act-note.ts';
import { parseNote, type ParsedNote } from '../../../shared/known/parse-note.ts';
import { untilWords } from '../../../shared/known/until-words.ts';
import { EXIT, UsageError, type Command, type Io } from '../command.ts';
import { readOptions } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import {
  SERVER_HELP,
  SERVER_OPTIONS,
  asUsageError,
  requireName,
  actorOf,
  timeZoneOf,
  type Actor,
} from './write-entry.ts';

const OPTIONS = {
  ...SERVER_OPTIONS,
  by: { type: 'string' },
  'laid-up': { type: 'boolean' },
  expected: { type: 'boolean' },
  out: { type: 'boolean' },
  back: { type: 'boolean' },
} as const;

export const noteCommand: Command = {
  name: 'say',
  usage: 'say WELL ["guests until Sunday" | --out | --back]',
  about:
    'Say what you know of a well and its sensors do not: guests, a garden, more stock, laid up; each with its end.',
  more: `The server must be running. One line with its end: "watering the new lawn until the 20th", "40 head on this pasture for 3 weeks",
"laid up until 15 April". More use that was announced is no alarm; while a well is laid up nothing is raised, and its checks wait. It
ends by itself. Without a line, what was said before is listed.

  --laid-up         it means that the well stands still (else told from the words)
  --expected        it means that it is used otherwise than usual
  --out             out of service: it stands still, and nobody knows how long
  --back            it is back: no longer laid up or out of service
  --by NAME         who says so (your name on this computer unless given)

${SERVER_HELP}`,
  async run(args, io) {
    const { flags, names } = readOptions(args, OPTIONS);
    const [name, ...words] = names;
    const well = requireName(name, 'say WELL "guests until Sunday"');
    const api = serverApi(flags.server);
    const line = words.join(' ');
    const actions = [line !== '', flags.out === true, flags.back === true].filter(Boolean).length;
    if (actions > 1 || (flags['laid-up'] === true && flags.expected === true))
      throw new UsageError('Cannot say several things at once: one line, --out or --back is expected');
    const json = flags.json === true;
    const actor = actorOf(flags, io);
    const send = (act: WrittenAct, sentence: string): Promise<number> =>
      sendAct(io, api, { act, actor, json, sentence });
    if (flags.out === true)
      return send(
        { kind: 'out-of-service', well },
        `${well} is out of service: nothing is raised until it is back.`,
      );
    if (flags.back === true) return send({ kind: 'back-in-service', well }, `${well} is back in service.`);
    if (line === '') return list(io, api, well, json);
    const zone = await timeZoneOf(api, well);
    const known = parseNote(line, Date.now(), zone);
    if ('problem' in known) throw new UsageError(`Cannot say "${line}": ${known.problem}`);
    const is = flags['laid-up'] === true ? 'laid-up' : flags.expected === true ? 'expected' : known.is;
    return send(actFrom(well, { ...known, is }), confirmation(known, is, zone));
  },
};

function actFrom(well: string, { is, text, untilMs }: Exclude<ParsedNote, { problem: string }>): WrittenAct {
  return { kind: is, well, text, until: new Date(untilMs).toISOString() };
}

function confirmation(
  { text, untilMs }: Exclude<ParsedNote, { problem: string }>,
  is: 'expected' | 'laid-up',
  zone: string,
): string {
  const means = is === 'laid-up' ? 'It is laid up, and nothing is raised' : 'It is used otherwise than usual';
  return `Understood: "${text}". ${means} until ${untilWords(untilMs, zone, 'us', Date.now())}.`;
}

interface SendParams {
  act: WrittenAct;
  actor: Actor;
  json: boolean;
  sentence: string;
}

async function sendAct(io: Io, api: ServerApi, { act, actor, json, sentence }: SendParams): Promise<number> {
  const result = await asUsageError(() => api.post('act', {}, { act, ...actor }));
  io.out(json ? JSON.stringify({ ...result, act }) : sentence);
  return EXIT.ok;
}

const NOTE_KINDS: readonly string[] = ['expected', 'laid-up', 'out-of-service', 'back-in-service'];

/** Newest first; what is in force says so. */
async function list(io: Io, api: ServerApi, well: string, json: boolean): Promise<number> {
  const [{ acts }, zone] = await Promise.all([api.get('wellActs', { well }), timeZoneOf(api, well)]);
  const notes = acts.filter(({ kind }) => NOTE_KINDS.includes(kind)).reverse();
  if (json) for (const act of notes) io.out(JSON.stringify(act));
  else if (notes.length === 0) io.out(`Nothing was said of ${well} yet.`);
  else
    for (const { kind, atMs, by, body } of notes) {
      const now = Date.now();
      const { text, untilMs } = actNote(kind, body);
      const end =
        untilMs === undefined
          ? ''
          : `, ${untilMs > now ? '' : 'was '}until ${untilWords(untilMs, zone, 'us', now)}`;
      const what = kind === 'expected' || kind === 'laid-up' ? text : kind.replaceAll('-', ' ');
      io.out(`${momentWords(atMs, zone, 'us', now)}  ${what}${end}${by === undefined ? '' : `  (${by})`}`);
    }
  return EXIT.ok;
}

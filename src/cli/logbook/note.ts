/**
 * `stillwell note`: what somebody knows about a well in one line with its end, and whether it is in
 * service.
 */
import type { WrittenAct } from '../../../shared/acts/act-fields.ts';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import { actNote } from '../../../shared/notes/act-note.ts';
import { parseNote, type ParsedNote } from '../../../shared/notes/parse-note.ts';
import { untilWords } from '../../../shared/notes/until-words.ts';
import { EXIT, UsageError, type CommandBuilder, type Io } from '../command.ts';
import { byOption, jsonOption, serverOption } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { asUsageError, actorOf, timeZoneOf, type Actor } from './write-entry.ts';
import { texts } from './texts.ts';

export const noteCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(texts().tellStillwellWhatItsSensors)
    .argument('<well>', texts().nameOfTheWell)
    .argument('[line...]', texts().noteWithItsEnd)
    .option('--laid-up', texts().wellIsShutDownDefault)
    .option('--expected', texts().useOfWaterDiffersDefault)
    .option('--out-of-service', texts().wellIsOutOfService)
    .option('--in-service', texts().wellIsInServiceAgain)
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfNote)
    .action(
      action((well, words, flags) => {
        const note = { well, line: words.join(' '), flags };
        return takeNote(
          { io, api: serverApi(flags.server), actor: actorOf(flags, io), json: flags.json === true },
          note,
        );
      }),
    );
};

interface NoteFlags {
  laidUp?: true;
  expected?: true;
  outOfService?: true;
  inService?: true;
}

interface NoteIo {
  io: Io;
  api: ServerApi;
  actor: Actor;
  json: boolean;
}

async function takeNote(
  to: NoteIo,
  { well, line, flags }: { well: string; line: string; flags: NoteFlags },
): Promise<number> {
  const { laidUp, expected, outOfService, inService } = flags;
  const actions = [line !== '', outOfService, inService].filter((one) => one === true).length;
  if (actions > 1 || (laidUp && expected)) throw new UsageError(texts().lineOutOfService);
  if (outOfService) return sendAct(to, { kind: 'out-of-service', well }, texts().isOutOfServiceAlarms(well));
  if (inService) return sendAct(to, { kind: 'back-in-service', well }, texts().isInServiceAgain(well));
  if (line === '') return list(to.io, to.api, well, to.json);
  const zone = await timeZoneOf(to.api, well);
  const known = parseNote(line, Date.now(), zone);
  if ('problem' in known) throw new UsageError(texts().readTheNote({ line, problem: known.problem }));
  const is = laidUp ? 'laid-up' : expected ? 'expected' : known.is;
  return sendAct(to, actFrom(well, { ...known, is }), confirmation(known, is, zone));
}

function actFrom(well: string, { is, text, untilMs }: Exclude<ParsedNote, { problem: string }>): WrittenAct {
  return { kind: is, well, text, until: new Date(untilMs).toISOString() };
}

function confirmation(
  { text, untilMs }: Exclude<ParsedNote, { problem: string }>,
  is: 'expected' | 'laid-up',
  zone: string,
): string {
  const means = is === 'laid-up' ? texts().wellIsLaidUp : texts().otherUseThanNormal;
  return texts().understoodUntil({ text, means, untilWords: untilWords(untilMs, zone, 'us', Date.now()) });
}

async function sendAct({ io, api, actor, json }: NoteIo, act: WrittenAct, sentence: string): Promise<number> {
  const result = await asUsageError(() => api.post('act', {}, { act, ...actor }));
  io.out(json ? JSON.stringify({ ...result, act }) : sentence);
  return EXIT.ok;
}

const NOTE_KINDS: readonly string[] = ['expected', 'laid-up', 'out-of-service', 'back-in-service'];

/** Newest first; an end that has passed says so. */
async function list(io: Io, api: ServerApi, well: string, json: boolean): Promise<number> {
  const [{ acts }, zone] = await Promise.all([api.get('wellActs', { well }), timeZoneOf(api, well)]);
  const notes = acts.filter(({ kind }) => NOTE_KINDS.includes(kind)).reverse();
  if (json) for (const act of notes) io.out(JSON.stringify(act));
  else if (notes.length === 0) io.out(texts().noNotesOfYet(well));
  else
    for (const { kind, atMs, by, body } of notes) {
      const now = Date.now();
      const { text, untilMs } = actNote(kind, body);
      const end =
        untilMs === undefined
          ? ''
          : `, ${(untilMs > now ? texts().until : texts().wasUntil)(untilWords(untilMs, zone, 'us', now))}`;
      const what = noteText(kind, text);
      io.out(`${momentWords(atMs, zone, 'us', now)}  ${what}${end}${by === undefined ? '' : `  (${by})`}`);
    }
  return EXIT.ok;
}

function noteText(kind: string, text: string): string {
  if (kind === 'out-of-service') return texts().outOfService;
  return kind === 'back-in-service' ? texts().backInService : text;
}

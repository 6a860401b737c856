/**
 * An act as it is written in recordings and sent by pages (contract, section 6) -> a checked act in
 * SI. Keys that an act does not have are passed over in a recording, whose other lines must not be
 * lost for a remark, and refused from a page (`strict`).
 */
import { ACT_FIELDS, REMARK, type ActValues } from '../../../shared/acts/act-fields.ts';
import { ACT_KINDS } from './act.ts';
import type { Act } from './act.ts';
import type { Card } from './card.ts';
import { addIssue, choiceAt, fieldValue, formatFirstIssue, required, rootContext } from './parse-context.ts';
import type { ParseContext } from './parse-context.ts';
import { readCard } from './read-card.ts';
import { readFields } from './read-fields.ts';
import { texts } from './texts.ts';
import { twoPointCorrection } from './two-point.ts';

export interface ReadActOptions {
  /** The card of a well, where known: a pump that it has not is then refused. */
  cardOf?: (well: string) => Card | undefined;
  /** Refuse unknown keys. */
  strict?: boolean;
  /**
   * The act is one of a past that was kept elsewhere: a calibration whose line no reading can be
   * corrected by is read as it was written. The engine passes it over; the rest of that past must
   * not be lost for it.
   */
  past?: boolean;
}

/** The act, or one line that names the key, the rule and the value. Never throws. */
export function readAct(json: unknown, options: ReadActOptions = {}): { act: Act } | { problem: string } {
  const context = rootContext(json, undefined);
  const kind = required(context, 'kind', choiceAt(context, 'kind', ACT_KINDS));
  if (kind === undefined)
    return { problem: formatFirstIssue(context, 'act') ?? texts().cannotReadWithoutKind('act') };
  if (options.strict === true)
    rejectUnknownKeys(context, kind === 'card-changed' ? ['card'] : Object.keys(ACT_FIELDS[kind]));
  if (kind === 'card-changed') return readCardChanged(context);
  // The compiler does not follow a kind into its fields.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  const read = { kind, ...readFields(context, ACT_FIELDS[kind]) } as ActValues;
  const act = withDefaults(read);
  checkRules(context, act, options);
  return actOrProblem(context, act);
}

/** A card's problem is told as a card's, since it is the card that the person has to look at. */
function readCardChanged(context: ParseContext): { act: Act } | { problem: string } {
  const read = readCard(fieldValue(context, 'card'));
  return 'problem' in read ? read : actOrProblem(context, { kind: 'card-changed', card: read.card });
}

function actOrProblem(context: ParseContext, act: Act): { act: Act } | { problem: string } {
  const problem = formatFirstIssue(context, 'act');
  return problem === undefined ? { act } : { problem };
}

/** `by` and `text` may stand on any act: who did it, and a remark. */
function rejectUnknownKeys(context: ParseContext, keys: readonly string[]): void {
  const known = [...new Set(['kind', 'by', ...Object.keys(REMARK), ...keys])];
  for (const key of Object.keys(context.fields)) {
    if (!known.includes(key)) addIssue(context, key, texts().isNotKnownHere(known));
  }
}

/** A well with one pump need not name it. */
function withDefaults(read: ActValues): Act {
  if (read.kind === 'visit-closed') return { ...read, newBaseline: read.newBaseline ?? false };
  return read.kind === 'pinned' ? { ...read, pump: read.pump ?? 'p1' } : read;
}

/** The rules between the fields of a kind. */
function checkRules(context: ParseContext, act: Act, options: ReadActOptions): void {
  if (act.kind === 'pinned') checkPinned(context, act);
  if (act.kind === 'calibrated') checkCalibrated(context, act, options);
  if ('well' in act) checkPump(context, act, options.cardOf?.(act.well));
}

type ActOf<K extends Act['kind']> = Extract<Act, { kind: K }>;

/** At least one value must be pinned, and cut-in stays under cut-out. */
function checkPinned(context: ParseContext, { amps, cutInKpa, cutOutKpa }: ActOf<'pinned'>): void {
  if (amps === undefined && cutInKpa === undefined && cutOutKpa === undefined)
    addIssue(context, 'amps', texts().mustPinSomething);
  if (cutInKpa !== undefined && cutOutKpa !== undefined && cutInKpa >= cutOutKpa)
    addIssue(context, 'cutIn', texts().mustBeBelow('cutOut'));
}

/**
 * The line through the points must rise, and readings must be such as it can correct. What was
 * noted before is missing here.
 */
function checkCalibrated(
  context: ParseContext,
  { channel, points }: Partial<ActOf<'calibrated'>>,
  { past }: ReadActOptions,
): void {
  const [first, second] = points ?? [];
  if (!points || !first || !second) return;
  if ((second[0] - first[0]) * (second[1] - first[1]) <= 0) addIssue(context, 'points', texts().mustRise);
  else if (channel !== undefined && past !== true) {
    const line = twoPointCorrection(channel, points);
    if ('rule' in line) addIssue(context, 'points', line.rule, line.value);
  }
}

function checkPump(context: ParseContext, act: Act, card: Card | undefined): void {
  if (!card || !('pump' in act) || act.pump === undefined) return;
  if (!card.pumps.some((pump) => pump.id === act.pump)) {
    addIssue(
      context,
      'pump',
      texts().mustBePumpOfWell({ well: card.well, pumps: card.pumps.map((pump) => pump.id) }),
    );
  }
}

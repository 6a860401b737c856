/**
 * What happens to a card while somebody writes it: typed, saved upon the one that was opened, refused with its reasons, or found to have
 * been changed by somebody else meanwhile. Nothing that was typed is ever thrown away here.
 */
import { useEffect, useState } from 'preact/hooks';
import { clashes, differences, merged, type Clash } from '../../shared/card/differences.ts';
import { flatten, unflatten, type Flat } from '../../shared/card/flat.ts';
import type { Answer } from '../../shared/api/routes.ts';
import { keepDraft, readDraft } from '../data/drafts.ts';
import { rememberedName, rememberName, useSurroundings } from '../data/settings.ts';
import { AskError, type DataSource } from '../data/source.ts';
import { flatOf, pumpsOf, typedOf, withPump, type Typed } from '../words/card-form.ts';

type CardAnswer = Answer<'card'>;

interface Written {
  /** The card that the next one is written upon. */
  opened: CardAnswer;
  typed: Typed;
  pumps: string[];
}

/** What came of saving: in words, and with the reasons by field or the other's card where it did not work. */
interface Outcome {
  said: string;
  refused: Readonly<Record<string, string>>;
  clash?: { theirs: CardAnswer; fields: Clash[] };
}

const NOTHING: Outcome = { said: '', refused: {} };

export interface UseCard extends Written, Outcome {
  openedFlat: Flat;
  /** How many fields differ from the card that was opened. */
  changed: number;
  saving: boolean;
  by: string;
  setBy: (name: string) => void;
  type: (key: string, text: string) => void;
  addPump: () => void;
  /** Back to the card as it was opened. */
  drop: () => void;
  save: () => void;
  /** After two wrote at once: theirs, with these fields yours. */
  settle: (keepYours: ReadonlySet<string>) => void;
}

export function useCard(well: string, answer: CardAnswer, saved: (answer: CardAnswer) => void): UseCard {
  const { source } = useSurroundings();
  const key = `card ${well}`;
  const [written, setWritten] = useState<Written>(() => draftOf(readDraft(key)) ?? openedOf(answer));
  const [outcome, setOutcome] = useState<Outcome>(() =>
    readDraft(key) === undefined
      ? NOTHING
      : { ...NOTHING, said: 'What you typed before is still here, not saved yet.' },
  );
  const [saving, setSaving] = useState(false);
  const [by, setBy] = useState(rememberedName);
  const openedFlat = flatten(written.opened.card);
  const yours = { ...flatOf(written.typed), well };
  const changed = differences(openedFlat, yours).length;
  useEffect(() => keepDraft(key, changed > 0 ? written : undefined), [key, changed, written]);

  const keep = async (flat: Flat, opened: CardAnswer): Promise<void> => {
    rememberName(by.trim());
    setSaving(true);
    setOutcome(NOTHING);
    try {
      const next = await told(source, { well, flat, basedOn: opened.act, by: by.trim() });
      setWritten(openedOf(next));
      setOutcome({ ...NOTHING, said: 'Kept.' });
      saved(next);
    } catch (error) {
      setOutcome(await explained(error, { source, well, opened: flatten(opened.card), yours: flat }));
    }
    setSaving(false);
  };
  return {
    ...written,
    ...outcome,
    openedFlat,
    changed,
    saving,
    by,
    setBy,
    type: (key, text) => {
      setWritten((now) => ({ ...now, typed: { ...now.typed, [key]: text } }));
      // The reasons stay at their fields till the next try.
      setOutcome((now) => ({ ...now, said: '' }));
    },
    addPump: () => setWritten((now) => ({ ...now, ...withPump(now.typed, now.pumps) })),
    drop: () => {
      setWritten(openedOf(answer));
      setOutcome(NOTHING);
    },
    save: () => void keep(yours, written.opened),
    settle: (keepYours) => {
      if (!outcome.clash) return;
      const { theirs } = outcome.clash;
      const flat = merged(flatten(theirs.card), yours, keepYours);
      setWritten({ opened: theirs, typed: typedOf(flat), pumps: pumpsOf(flat) });
      void keep(flat, theirs);
    },
  };
}

/** A draft of ours, or nothing: what a browser kept is not taken on trust. */
function draftOf(kept: unknown): Written | undefined {
  if (typeof kept !== 'object' || kept === null) return undefined;
  if (!('opened' in kept) || !('typed' in kept) || !('pumps' in kept)) return undefined;
  // Written by this page alone, in this tab.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return kept as Written;
}

function openedOf(answer: CardAnswer): Written {
  const flat = flatten(answer.card);
  return { opened: answer, typed: typedOf(flat), pumps: pumpsOf(flat) };
}

function told(
  source: DataSource,
  { well, flat, basedOn, by }: { well: string; flat: Flat; basedOn: string | undefined; by: string },
): Promise<CardAnswer> {
  const card = { ...unflatten(flat), well };
  return source.tell(
    'writeCard',
    { well },
    { card, ...(basedOn !== undefined && { basedOn }), ...(by !== '' && { by }) },
  );
}

interface Tried {
  source: DataSource;
  well: string;
  opened: Flat;
  yours: Flat;
}

/** Why it was not kept. */
async function explained(error: unknown, { source, well, opened, yours }: Tried): Promise<Outcome> {
  if (!(error instanceof AskError))
    return { ...NOTHING, said: 'That did not work. What you typed is still here.' };
  if (error.status === 409) {
    const theirs = await asked(source, well);
    return {
      said: error.message,
      refused: {},
      ...(theirs && { clash: { theirs, fields: clashes(opened, flatten(theirs.card), yours) } }),
    };
  }
  const refused = Object.fromEntries(error.fields.map(({ at, rule }) => [at, rule]));
  const { length } = error.fields;
  return { said: length === 0 ? error.message : notKept(length), refused };
}

async function asked(source: DataSource, well: string): Promise<CardAnswer | undefined> {
  try {
    return await source.ask('card', { well });
  } catch {
    // The reason of the refusal is told all the same.
    return undefined;
  }
}

/** The reasons stand at their fields; here is only that there are some. */
function notKept(fields: number): string {
  return `Not kept: ${fields === 1 ? 'one field can’t be so, and says why' : `${fields} fields can’t be so, and say why`}. Nothing is lost.`;
}

/**
 * What happens to a card while somebody writes it: typed, saved upon the one that was opened,
 * refused with its reasons, or found to have been changed by somebody else meanwhile. Nothing that
 * was typed is ever thrown away here.
 */
import { useEffect, useState } from 'preact/hooks';
import {
  findConflicts,
  cardDifferences,
  mergeCards,
  type CardConflict,
} from '../../../shared/card/differences.ts';
import { flatten, unflatten, type FlatCard } from '../../../shared/card/flat-card.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import { saveDraft, readDraft } from '../../data/drafts.ts';
import { rememberedName, rememberName, useAppContext } from '../../data/settings.ts';
import { RequestError, type DataSource } from '../../data/source.ts';
import { flatOf, pumpsOf, typedOf, withPump, type Typed } from '../../../shared/card/card-form.ts';
import { texts } from './texts.ts';

type CardAnswer = Answer<'card'>;

interface CardDraft {
  /** The card that the next one is written upon. */
  base: CardAnswer;
  typed: Typed;
  pumps: string[];
}

/**
 * What came of saving: in words, and with the reasons by field or the other's card where it did not
 * work.
 */
interface SaveOutcome {
  message: string;
  refused: Readonly<Record<string, string>>;
  conflict?: { theirs: CardAnswer; fields: CardConflict[] };
}

const NO_OUTCOME: SaveOutcome = { message: '', refused: {} };

export interface UseCard extends CardDraft, SaveOutcome {
  baseFlat: FlatCard;
  /** How many fields differ from the card that was opened. */
  changed: number;
  saving: boolean;
  by: string;
  setBy: (name: string) => void;
  setField: (key: string, text: string) => void;
  addPump: () => void;
  /** Back to the card as it was opened. */
  revert: () => void;
  save: () => void;
  /** After two wrote at once: theirs, with these fields yours. */
  resolve: (keepYours: ReadonlySet<string>) => void;
}

export function useCard(well: string, answer: CardAnswer, saved: (answer: CardAnswer) => void): UseCard {
  const { source } = useAppContext();
  const key = `card ${well}`;
  const [draft, setDraft] = useState<CardDraft>(() => parseDraft(readDraft(key)) ?? draftFrom(answer));
  const [outcome, setOutcome] = useState<SaveOutcome>(() =>
    readDraft(key) === undefined ? NO_OUTCOME : { ...NO_OUTCOME, message: texts().draftRestored },
  );
  const [saving, setSaving] = useState(false);
  const [by, setBy] = useState(rememberedName);
  const baseFlat = flatten(draft.base.card);
  const yours = { ...flatOf(draft.typed), well };
  const changed = cardDifferences(baseFlat, yours).length;
  useEffect(() => saveDraft(key, changed > 0 ? draft : undefined), [key, changed, draft]);

  const saveDraftCard = async (flat: FlatCard, opened: CardAnswer): Promise<void> => {
    rememberName(by.trim());
    setSaving(true);
    setOutcome(NO_OUTCOME);
    try {
      const next = await postCard(source, { well, flat, basedOn: opened.act, by: by.trim() });
      setDraft(draftFrom(next));
      setOutcome({ ...NO_OUTCOME, message: texts().saved });
      saved(next);
    } catch (error) {
      setOutcome(await explainFailure(error, { source, well, base: flatten(opened.card), yours: flat }));
    }
    setSaving(false);
  };
  return {
    ...draft,
    ...outcome,
    baseFlat,
    changed,
    saving,
    by,
    setBy,
    setField: (key, text) => {
      setDraft((now) => ({ ...now, typed: { ...now.typed, [key]: text } }));
      // The reasons stay at their fields till the next try.
      setOutcome((now) => ({ ...now, message: '' }));
    },
    addPump: () => setDraft((now) => ({ ...now, ...withPump(now.typed, now.pumps) })),
    revert: () => {
      setDraft(draftFrom(answer));
      setOutcome(NO_OUTCOME);
    },
    save: () => void saveDraftCard(yours, draft.base),
    resolve: (keepYours) => {
      if (!outcome.conflict) return;
      const { theirs } = outcome.conflict;
      const flat = mergeCards(flatten(theirs.card), yours, keepYours);
      setDraft({ base: theirs, typed: typedOf(flat), pumps: pumpsOf(flat) });
      void saveDraftCard(flat, theirs);
    },
  };
}

/** A draft of ours, or nothing: what a browser kept is not taken on trust. */
function parseDraft(stored: unknown): CardDraft | undefined {
  if (typeof stored !== 'object' || stored === null) return undefined;
  if (!('base' in stored) || !('typed' in stored) || !('pumps' in stored)) return undefined;
  // Written by this page alone, in this tab.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return stored as CardDraft;
}

function draftFrom(answer: CardAnswer): CardDraft {
  const flat = flatten(answer.card);
  return { base: answer, typed: typedOf(flat), pumps: pumpsOf(flat) };
}

function postCard(
  source: DataSource,
  { well, flat, basedOn, by }: { well: string; flat: FlatCard; basedOn: string | undefined; by: string },
): Promise<CardAnswer> {
  const card = { ...unflatten(flat), well };
  return source.post(
    'writeCard',
    { well },
    { card, ...(basedOn !== undefined && { basedOn }), ...(by !== '' && { by }) },
  );
}

interface SaveAttempt {
  source: DataSource;
  well: string;
  base: FlatCard;
  yours: FlatCard;
}

/** Why it was not kept. */
async function explainFailure(
  error: unknown,
  { source, well, base, yours }: SaveAttempt,
): Promise<SaveOutcome> {
  if (!(error instanceof RequestError)) return { ...NO_OUTCOME, message: texts().notSaved };
  if (error.status === 409) {
    const theirs = await fetchCard(source, well);
    return {
      message: error.message,
      refused: {},
      ...(theirs && { conflict: { theirs, fields: findConflicts(base, flatten(theirs.card), yours) } }),
    };
  }
  const refused = Object.fromEntries(error.fields.map(({ at, rule }) => [at, rule]));
  const { length } = error.fields;
  return { message: length === 0 ? error.message : texts().refusedFields(length), refused };
}

async function fetchCard(source: DataSource, well: string): Promise<CardAnswer | undefined> {
  try {
    return await source.get('card', { well });
  } catch {
    // The reason of the refusal is told all the same.
    return undefined;
  }
}

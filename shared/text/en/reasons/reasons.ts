/**
 * All reasons why an alarm can be active. A reason and its figures are what is stored; the sentence
 * is made from them when somebody reads it, in that reader's units. A new reason is a line in its
 * alarm's own file; its name and figures are typed from there.
 */
import type { AlarmKind } from '../alarms/kinds.ts';
import { TEXT_OF } from '../alarms/text-index.ts';
import type { ReasonFormat } from './format.ts';
import type { Figures, ReasonTexts } from './reason-text.ts';

/**
 * What was stored as a sentence before reasons existed, and what another version of the program
 * knows and this one does not.
 */
const AS_WRITTEN = {
  'as-written': ({ text }: { text: string }) => text,
} satisfies ReasonTexts;

type AnyTexts = (typeof TEXT_OF)[AlarmKind]['reasons'] | typeof AS_WRITTEN;
type ReasonOf<Texts> = Texts extends unknown
  ? { [Name in keyof Texts]: { reason: Name; figures: FiguresOf<Texts[Name]> } }[keyof Texts]
  : never;
type FiguresOf<Text> = Text extends (figures: infer F, format: ReasonFormat) => string
  ? unknown extends F
    ? Record<string, never>
    : F
  : never;

export type Reason = ReasonOf<AnyTexts>;

const REASON_TEXTS = new Map(
  [...Object.values(TEXT_OF).map(({ reasons }): ReasonTexts => reasons), AS_WRITTEN].flatMap((texts) =>
    Object.entries(texts),
  ),
);

/** A reason as it comes from storage or over the network: of any version. */
export interface StoredReason {
  reason: string;
  figures: Figures;
}

/** The sentence, or undefined where this version does not know the reason. */
export function reasonSentence({ reason, figures }: StoredReason, format: ReasonFormat): string | undefined {
  // The name chooses the text whose figures these are; they were typed where the reason was made.
  const text = REASON_TEXTS.get(reason) as ((figures: Figures, format: ReasonFormat) => string) | undefined;
  return text?.(figures, format);
}

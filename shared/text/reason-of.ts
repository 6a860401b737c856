/**
 * Reasons that the core gives and never writes out: a name with its figures. A table of the
 * catalogue has a sentence for each name, and its type is the closed union of what may be given.
 * The sentence is made when somebody reads it, in the language of that moment.
 */

/**
 * Sentences by the name of their reason; figures are `never` here, so that each asks for its own.
 */
export type ReasonSentences = Readonly<Record<string, string | ((figures: never) => string)>>;

/** What a sentence needs to know beside its name. */
export type FiguresOf<Sentence> = Sentence extends (figures: infer Figures) => string
  ? [figures: Figures]
  : [];

export type ReasonOf<Sentences> = {
  [Name in keyof Sentences]: Sentences[Name] extends (figures: infer Figures) => string
    ? { reason: Name; figures: Figures }
    : { reason: Name };
}[keyof Sentences];

/** The sentence of a reason from its own table. */
export function sentenceOf<Sentences extends ReasonSentences>(
  sentences: Sentences,
  given: ReasonOf<Sentences>,
): string {
  const sentence = sentences[given.reason];
  if (typeof sentence === 'string') return sentence;
  // The name chooses the sentence whose figures these are; they were typed where they were given.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return (sentence as (figures: unknown) => string)('figures' in given ? given.figures : undefined);
}

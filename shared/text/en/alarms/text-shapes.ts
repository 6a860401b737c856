/**
 * The shape of everything that is said to people about an alarm or a cause: short sentences, the
 * trade's terms, a first step that cannot hurt whoever takes it. A well driller should nod and a
 * homeowner should understand.
 */
import type { Caution } from '../cautions.ts';
import type { ReasonTexts } from '../reasons/reason-text.ts';
import type { AlarmForm } from './kinds.ts';

export interface AlarmWords {
  /** A few words, no full stop. */
  title: string;
  /** What it means for the well and the people on it. */
  means: string;
  /**
   * The first thing to do, safe for anyone: look, listen, close a tap, switch off at the breaker,
   * call.
   */
  firstStep: string;
  /**
   * When this alarm can be wrong: what healthy thing, or what other fault, looks the same from
   * here.
   */
  canBeWrong: string;
  /** What must be measured or known for it, and what more would help. */
  needs: string;
  /** What must be said along with it. */
  cautions: readonly Caution[];
  /** What is said instead where the evidence names a form of it (./forms.ts). */
  forms?: Partial<Record<AlarmForm, FormWords>>;
}

/** What a kind's own file holds: its words, and each reason for which it can be active. */
export interface AlarmText extends AlarmWords {
  reasons: ReasonTexts;
}

export type FormWords = Pick<AlarmWords, 'means' | 'firstStep' | 'canBeWrong' | 'cautions'>;

export interface CauseWords {
  /** A few words, no full stop. */
  name: string;
  /** What it is, in plain words. */
  what: string;
  /** What the readings show where it is so. */
  evidenceFor: string;
  /** What they show where it is not. */
  evidenceAgainst: string;
  firstStep: string;
  cautions: readonly Caution[];
}

/**
 * All reasons why an alarm can be active. A reason and its figures are what is stored; the sentence
 * is made from them when somebody reads it, in that reader's units. A new reason is a line in its
 * alarm's own file; its name and figures are typed from there.
 */
import { longRunReasons } from './pump/long-run.ts';
import { dryRunReasons } from './pump/dry-run.ts';
import { failedStartReasons } from './pump/failed-start.ts';
import { noStartReasons } from './pump/no-start.ts';
import { powerLostReasons } from './electric/power-lost.ts';
import { legLostReasons } from './electric/leg-lost.ts';
import { noWaterReasons } from './water/no-water.ts';
import { noRunReasons } from './pump/no-run.ts';
import { storeLowReasons } from './water/store-low.ts';
import { overPressureReasons } from './water/over-pressure.ts';
import { shortCyclingReasons } from './water/short-cycling.ts';
import { bouncedStartsReasons } from './pump/bounced-starts.ts';
import { startsOverLimitReasons } from './water/starts-over-limit.ts';
import { ampsHighReasons } from './electric/amps-high.ts';
import { ampsLowReasons } from './electric/amps-low.ts';
import { legImbalanceReasons } from './electric/leg-imbalance.ts';
import { supplyVoltageReasons } from './electric/supply-voltage.ts';
import { cutOutNotReachedReasons } from './pump/cut-out-not-reached.ts';
import { slowFillReasons } from './pump/slow-fill.ts';
import { levelLowReasons } from './water/level-low.ts';
import { tankAirLostReasons } from './water/tank-air-lost.ts';
import { tankOverchargedReasons } from './water/tank-overcharged.ts';
import { leakReasons } from './water/leak.ts';
import { freezeRiskReasons } from './water/freeze-risk.ts';
import { switchShiftReasons } from './water/switch-shift.ts';
import { cycleCountReasons } from './water/cycle-count.ts';
import { nodeSilentReasons } from './sensing/node-silent.ts';
import { siteSilentReasons } from './sensing/site-silent.ts';
import { notWatchedReasons } from './sensing/not-watched.ts';
import { nodeConflictReasons } from './sensing/node-conflict.ts';
import { sensorFaultReasons } from './sensing/sensor-fault.ts';
import type { ReasonFormat } from './format.ts';
import type { Figures, ReasonTexts } from './reason-text.ts';

/**
 * What was stored as a sentence before reasons existed, and what another version of the program
 * knows and this one does not.
 */
const asWrittenReasons = {
  'as-written': ({ text }: { text: string }) => text,
} satisfies ReasonTexts;

const REASON_TEXTS = {
  ...longRunReasons,
  ...dryRunReasons,
  ...failedStartReasons,
  ...noStartReasons,
  ...powerLostReasons,
  ...legLostReasons,
  ...noWaterReasons,
  ...noRunReasons,
  ...storeLowReasons,
  ...overPressureReasons,
  ...shortCyclingReasons,
  ...bouncedStartsReasons,
  ...startsOverLimitReasons,
  ...ampsHighReasons,
  ...ampsLowReasons,
  ...legImbalanceReasons,
  ...supplyVoltageReasons,
  ...cutOutNotReachedReasons,
  ...slowFillReasons,
  ...levelLowReasons,
  ...tankAirLostReasons,
  ...tankOverchargedReasons,
  ...leakReasons,
  ...freezeRiskReasons,
  ...switchShiftReasons,
  ...cycleCountReasons,
  ...nodeSilentReasons,
  ...siteSilentReasons,
  ...notWatchedReasons,
  ...nodeConflictReasons,
  ...sensorFaultReasons,
  ...asWrittenReasons,
};

type ReasonName = keyof typeof REASON_TEXTS;
type FiguresOf<Text> = Text extends (figures: infer F, format: ReasonFormat) => string
  ? unknown extends F
    ? Record<string, never>
    : F
  : never;
export type Reason = {
  [Name in ReasonName]: { reason: Name; figures: FiguresOf<(typeof REASON_TEXTS)[Name]> };
}[ReasonName];

/** A reason as it comes from storage or over the network: of any version. */
export interface StoredReason {
  reason: string;
  figures: Figures;
}

/** The sentence, or undefined where this version does not know the reason. */
export function reasonSentence({ reason, figures }: StoredReason, format: ReasonFormat): string | undefined {
  if (!Object.hasOwn(REASON_TEXTS, reason)) return undefined;
  // The name chooses the text whose figures these are; they were typed where the reason was made.
  const text = REASON_TEXTS[reason as ReasonName] as (figures: Figures, format: ReasonFormat) => string;
  return text(figures, format);
}

/**
 * What is said with a result of a water test that stands out: wording on several screens and in the
 * calendar. Stillwell records; the laboratory and the health department interpret.
 */
type Word = string | number;

const bacteria =
  'Do not drink this water, and do not cook or brush teeth with it. Call the health department: they say what to do next, and whether boiling is enough.';

export const waterAdvice = {
  bacteria: ({ name, fromDung }: { name: string; fromDung: boolean }) =>
    `${name} ${name === 'E. coli' ? 'was' : 'were'} found.${fromDung ? ' Such bacteria come from dung or sewage.' : ''} ${bacteria} Have a second sample drawn at once, from a clean tap without its aerator. After a licensed contractor has looked the well over and disinfected it, test again when no chlorine is left.`,
  /**
   * 40 CFR 143.3 (for the teeth of children); that a dentist is asked too: common practice, no
   * source.
   */
  fluoride:
    'Fluoride is over its secondary limit, which is there for the teeth of children. Ask the health department or a dentist before children drink this water day by day.',
  /** EPA's advisory is for strict low-sodium diets alone (from memory); a softener adds sodium. */
  sodium:
    'Sodium is at or over the advice for strict low-sodium diets. Whoever was told to eat little salt asks a doctor; a softener adds sodium to the water.',
  nitrate: 'Nitrate is at half of the limit or more. It changes with rain and season: test it twice a year.',
  secondary: (name: Word) =>
    `${name} is outside a secondary limit: one for taste, color, stains or pipes. A laboratory or a water-treatment contractor can say what helps.`,
  onlyOver: (name: Word) =>
    `The report says only that ${name} is over a figure that is under the limit. Ask the laboratory how much it is.`,
  couldNotSee: (name: Word) =>
    `The laboratory could not see as little ${name} as the limit is. At the next test ask for a lower reporting limit.`,
  atLimit: (name: Word) =>
    `${name} is at a published limit. Ask the health department whether it is safe to drink and for whom, and have a second sample confirm it.`,
  overLimit: (name: Word) =>
    `${name} is over a published limit. Ask the health department whether it is safe to drink and for whom, and have a second sample confirm it.`,
  isThatTheUnit: ({ factor, unit }: { factor: number; unit: string }) =>
    `This is over ${factor} times the highest limit. Does the report say ${unit.startsWith('mg/L') ? 'mg/L, or ug/L' : unit}?`,
  hardness: { soft: 'soft', moderate: 'moderately hard', hard: 'hard', veryHard: 'very hard' },
};

/** Where a limit stands, if its citation has words beside the numbers. */
const citations = {
  pfasRule: '40 CFR 141.61, rule of 2024-04-26',
  coliformRule: '40 CFR 141 subpart Y (Revised Total Coliform Rule, 78 FR 10354)',
  manganeseAdvisory: 'EPA health advisory of 2004, for a lifetime',
  sodiumAdvisory: 'EPA advisory, for strict low-sodium diets alone',
};

/** Beside a limit of shared/water/limits.ts, where the source of each stands. */
const notes = {
  coliform:
    'The goal is none in 100 mL. In a public system a find makes the whole system be looked over. The older rule of 5 % of samples ended on 2016-03-31.',
  eColi: 'The goal is none. In a public system the rule asks for repeat samples.',
  arsenic: 'Before it was 0.050 mg/L.',
  fluoride: 'For the teeth of children.',
  alpha: 'Without radon and uranium.',
  oldLead: 'Public systems still follow it until 2027-10-31.',
  lead: 'It was 0.015 mg/L before. The rule took effect on 2024-12-30; public systems must comply by 2027-11-01 and follow 0.015 mg/L until then. No level of lead is safe: the goal is none.',
  turbidity: 'Made for filtered surface water, never over 1 NTU: for a well it is a hint.',
  aluminum: 'The rule gives 0.05 to 0.2 mg/L; this is the upper end.',
  /** EPA's announcement of 2025-05-14, as the one below. */
  pfasLater: 'Public systems must comply by 2029; EPA means to extend that to 2031.',
  pfasWithdrawn: 'EPA announced in May 2025 that it means to withdraw this limit.',
};

export const limitTexts = { citations, notes };

export type LimitCitation = keyof typeof citations;
export type LimitNote = keyof typeof notes;

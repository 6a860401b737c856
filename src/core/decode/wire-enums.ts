/** The closed lists of words that messages carry (contract, sections 1 to 3). */
export const PRESENCES = ['here', 'gone', 'no-power'] as const;
export const CLOCKS = ['utc', 'none'] as const;
export const FED_FROM = ['pump-circuit', 'other-circuit', 'battery'] as const;
export const READING_TYPES = ['mean', 'max', 'spot'] as const;

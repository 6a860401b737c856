/** Rules of the query of a question to the API. */
export const queryRules = {
  mustBeATime: 'must be a date or time such as 2026-11-30 or 2026-11-30T06:00:00Z, or Unix ms',
  mustBeAWholeNumber: 'must be a whole number',
  mustBeAPump: 'must be a pump such as p1',
  mustBeUnixMs: 'must be Unix ms',
};

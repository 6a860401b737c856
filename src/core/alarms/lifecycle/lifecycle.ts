/**
 * The life of an alarm as a literal table, in the state names of ANSI/ISA-18.2 and IEC 62682 (from
 * memory: the standards' text was not at hand). Latched states are left out: nothing here needs a
 * reset after its condition is gone. A pair that is not in the table is illegal: it is refused and
 * changes nothing.
 */
export const LIFE_STATES = [
  'normal',
  'unacknowledged',
  'acknowledged',
  'returned-unacknowledged',
  'shelved',
  'suppressed-by-design',
  'out-of-service',
] as const;
export type LifeState = (typeof LIFE_STATES)[number];

export const LIFE_STEPS = [
  /** The condition has stood for the on-delay. */
  'occurs',
  /** The condition has been gone for the off-delay. */
  'returns',
  'acknowledge',
  /** Its priority rose: a person must see it again. */
  're-alarm',
  'shelve',
  'suppress',
  'remove',
  /** Shelf, suppression or maintenance is over, and the condition stands. */
  'resume-active',
  /** The same, and it does not. */
  'resume-normal',
] as const;
export type LifeStep = (typeof LIFE_STEPS)[number];

/**
 * While shelved, suppressed or out of service the condition comes and goes without a change of
 * state.
 */
const UNCHANGED = { occurs: 'same', returns: 'same' } as const;

const TRANSITIONS: Record<LifeState, Partial<Record<LifeStep, LifeState | 'same'>>> = {
  normal: {
    occurs: 'unacknowledged',
    shelve: 'shelved',
    suppress: 'suppressed-by-design',
    remove: 'out-of-service',
  },
  unacknowledged: {
    returns: 'returned-unacknowledged',
    acknowledge: 'acknowledged',
    're-alarm': 'unacknowledged',
    shelve: 'shelved',
    suppress: 'suppressed-by-design',
    remove: 'out-of-service',
  },
  acknowledged: {
    returns: 'normal',
    're-alarm': 'unacknowledged',
    shelve: 'shelved',
    suppress: 'suppressed-by-design',
    remove: 'out-of-service',
  },
  'returned-unacknowledged': {
    occurs: 'unacknowledged',
    acknowledge: 'normal',
    shelve: 'shelved',
    suppress: 'suppressed-by-design',
    remove: 'out-of-service',
  },
  shelved: {
    ...UNCHANGED,
    shelve: 'shelved',
    remove: 'out-of-service',
    'resume-active': 'unacknowledged',
    'resume-normal': 'normal',
  },
  'suppressed-by-design': {
    ...UNCHANGED,
    shelve: 'shelved',
    remove: 'out-of-service',
    'resume-active': 'unacknowledged',
    'resume-normal': 'normal',
  },
  'out-of-service': { ...UNCHANGED, 'resume-active': 'unacknowledged', 'resume-normal': 'normal' },
};

/** The state that follows, or undefined where the pair is illegal. */
export function nextState(state: LifeState, step: LifeStep): LifeState | undefined {
  const next = TRANSITIONS[state][step];
  return next === 'same' ? state : next;
}

/** States in which nobody is told of the alarm. */
export function isSuppressed(state: LifeState): boolean {
  return state === 'shelved' || state === 'suppressed-by-design' || state === 'out-of-service';
}

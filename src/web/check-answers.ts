/** The checks of a well with their words, and the one that only its nodes can answer: how they are fed. */
import type { CheckAnswer } from '../../shared/api/checks.ts';
import { CHECK_WORDS } from '../../shared/words/checks.ts';
import type { Check } from '../watch/first-check.ts';
import type { LiveWell, StoredNode } from './deps.ts';

export function checkAnswers(live: LiveWell, nodes: readonly StoredNode[]): CheckAnswer[] {
  return [...live.checks, nodeSupply(live, nodes)].map(inWords);
}

function inWords({ what, pump, state, card, measured }: Check): CheckAnswer {
  const { asks, toDo, waitsFor } = CHECK_WORDS[what];
  return {
    what,
    ...(pump === undefined ? {} : { pump }),
    state,
    asks,
    ...(card ? { card } : {}),
    ...(measured ? { measured } : {}),
    ...(state === 'differs' ? { toDo } : {}),
    ...(state === 'not-yet' ? { waitsFor } : {}),
  };
}

/** Silence of a node on the pump's own circuit is news about the pump, so it must be known which is which. */
function nodeSupply(live: LiveWell, nodes: readonly StoredNode[]): Check {
  const own = new Set(live.sensors.map(({ node }) => node));
  const fed = nodes.filter(({ node }) => own.has(node)).map(({ hello }) => hello?.fedFrom);
  const known = fed.length > 0 && fed.every((from) => from !== undefined);
  return {
    what: 'node-supply',
    state: !known ? 'not-yet' : fed.includes('pump-circuit') ? 'differs' : 'agrees',
  };
}

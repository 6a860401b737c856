/**
 * The checks of a well with their words, and the one that only its nodes can answer: how they are
 * fed.
 */
import type { CheckAnswer } from '../../../shared/api/checks.ts';
import { CHECK_WORDS } from '../../../shared/text/en/checks/checks.ts';
import type { Check } from '../../core/alarms/first-hour/first-checks.ts';
import type { LiveWell, StoredNode } from '../deps.ts';

export function checkAnswers(live: LiveWell, nodes: readonly StoredNode[]): CheckAnswer[] {
  return [...live.checks, nodeSupplyCheck(live, nodes)].map(checkAnswer);
}

function checkAnswer({ what, pump, state, card, measured }: Check): CheckAnswer {
  const { question, action, waitingFor } = CHECK_WORDS[what];
  return {
    what,
    ...(pump === undefined ? {} : { pump }),
    state,
    question,
    ...(card ? { card } : {}),
    ...(measured ? { measured } : {}),
    ...(state === 'differs' ? { action } : {}),
    ...(state === 'not-yet' ? { waitingFor } : {}),
  };
}

/**
 * Silence of a node on the pump's own circuit is news about the pump, so it must be known which is
 * which.
 */
function nodeSupplyCheck(live: LiveWell, nodes: readonly StoredNode[]): Check {
  const own = new Set(live.sensors.map(({ node }) => node));
  const fed = nodes.filter(({ node }) => own.has(node)).map(({ hello }) => hello?.fedFrom);
  const known = fed.length > 0 && fed.every((from) => from !== undefined);
  return {
    what: 'node-supply',
    state: !known ? 'not-yet' : fed.includes('pump-circuit') ? 'differs' : 'agrees',
  };
}

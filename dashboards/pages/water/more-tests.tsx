import { TESTS_BY_CONDITION } from '../../../shared/water/advice.ts';

/** Occasions to ask for more than the four of every year. */
export function MoreTests() {
  return (
    <details class="more">
      <summary>When to test for more, and for what</summary>
      <dl class="reasons">
        {TESTS_BY_CONDITION.map(([condition, ask]) => (
          <div key={condition}>
            <dt>{condition}</dt>
            <dd>{ask}</dd>
          </div>
        ))}
      </dl>
      <p class="secondary">
        EPA, questions and answers on private wells. With small children, somebody pregnant or nursing, or old
        people in the house: more often. The health department knows what lies in the ground there.
      </p>
    </details>
  );
}

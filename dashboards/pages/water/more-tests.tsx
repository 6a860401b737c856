import { texts } from './texts.ts';

/** Occasions to ask for more than the four of every year. */
export function MoreTests() {
  return (
    <details class="more">
      <summary>{texts().moreTests}</summary>
      <dl class="reasons">
        {texts().testsByCondition.map(([condition, ask]) => (
          <div key={condition}>
            <dt>{condition}</dt>
            <dd>{ask}</dd>
          </div>
        ))}
      </dl>
      <p class="secondary">{texts().moreTestsSource}</p>
    </details>
  );
}

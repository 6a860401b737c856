/** Names and values, a line each. */
import type { ComponentChildren } from 'preact';

export type Fact = readonly [name: ComponentChildren, value: ComponentChildren];

export function Facts({ facts }: { facts: readonly Fact[] }) {
  return (
    <dl class="facts">
      {facts.map(([name, value], at) => (
        <div key={at}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

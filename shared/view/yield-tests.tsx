/** Yield tests with what follows from them and their lines, newest first. */
import type { ComponentChildren } from 'preact';
import type { YieldTest } from '../api/figures/yield-tests.ts';
import type { UnitSystem } from '../quantity/format-quantity.ts';
import { lineCells, yieldFacts } from '../text/en/yield-tests.ts';
import { Facts } from './facts.tsx';
import { Table } from './table.tsx';
import { yieldTexts } from './texts.ts';

export interface YieldTestsProps {
  tests: readonly YieldTest[];
  units: UnitSystem;
  /** What stands under one, as the way to void it. */
  after?: (test: YieldTest) => ComponentChildren;
}

export function YieldTests({ tests, units, after }: YieldTestsProps) {
  const words = yieldTexts();
  if (tests.length === 0) return <p class="status">{words.none}</p>;
  return (
    <>
      {tests.map((test) => (
        <article key={test.id ?? 'well-log'} class="sheet">
          <h3>{test.id === undefined ? words.wellLog(test.date) : words.testOf(test.date ?? '')}</h3>
          <Facts facts={yieldFacts(test, units)} />
          {test.text !== undefined && <p>{test.text}</p>}
          <Lines test={test} units={units} />
          {after?.(test)}
        </article>
      ))}
    </>
  );
}

function Lines({ test: { points, recovery }, units }: { test: YieldTest; units: UnitSystem }) {
  const words = yieldTexts();
  if (points.length === 0) return null;
  const rows = (lines: YieldTest['points'], phase: string) =>
    lines.map((line) => ({ key: `${phase}${line.timeS}`, cells: [...lineCells(line, units), phase] }));
  return (
    <details class="more">
      <summary>{words.lines}</summary>
      <Table
        head={[words.minutes, words.level, words.flow, words.phase]}
        rows={[...rows(points, words.pumping), ...rows(recovery, words.recovering)]}
      />
    </details>
  );
}

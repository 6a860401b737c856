/**
 * Yield tests over the years: drawdown, specific capacity (flow by drawdown, which falls where a
 * screen clogs or the water table drops), and recovery. The test of the well log on the card is the
 * first of them.
 */
import type { YieldTest } from '../../../shared/api/figures/yield-tests.ts';
import { entriesOf, type Entry, type EntryOf } from '../../../shared/entries/entry.ts';
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import { parseTestLine, type TestPoint } from '../../../shared/quantity/parse-test-line.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import type { Card } from '../../core/domain/card.ts';
import type { Dimension } from '../../../shared/quantity/units.ts';

/** Newest first. `entries` that count. */
export function yieldTests(
  entries: readonly Entry[],
  { description, timeZone }: Pick<Card, 'description' | 'timeZone'>,
): YieldTest[] {
  const tests = [
    ...wellLogTest(description?.hole),
    ...entriesOf(entries, 'yield-test').map((entry) => testOf(entry, timeZone)),
  ];
  const oldest = tests.find(({ specificCapacity }) => specificCapacity !== undefined);
  return tests.map((test) => ({ ...test, ...changeSince(test, oldest) })).toReversed();
}

function changeSince(test: YieldTest, oldest: YieldTest | undefined): { change?: number } {
  const [then, now] = [oldest?.specificCapacity, test.specificCapacity];
  return test === oldest || then === undefined || now === undefined ? {} : { change: now / then - 1 };
}

function testOf({ id, atMs, by, body }: EntryOf<'yield-test'>, timeZone: string): YieldTest {
  const { doneBy, text } = body;
  const staticM = siOf(body.static, 'length');
  const points = pointsOf(body.points);
  const recovery = pointsOf(body.recovery);
  return omitUndefined({
    id,
    date: localDate(atMs, timeZone),
    by,
    doneBy,
    text,
    staticM,
    points,
    recovery,
    ...results({ staticM, points, recovery, flowLPerS: siOf(body.flow, 'flow') }),
  });
}

interface TestData {
  staticM: number | undefined;
  points: readonly TestPoint[];
  recovery: readonly TestPoint[];
  flowLPerS: number | undefined;
}

type Results = Pick<
  YieldTest,
  'flowLPerS' | 'drawdownM' | 'pumpedS' | 'specificCapacity' | 'lateFallM' | 'recoveredRatio' | 'recoveredS'
>;

function results({ staticM, points, recovery, flowLPerS }: TestData): Results {
  const last = points.at(-1);
  const flow = meanFlow(points) ?? flowLPerS;
  const drawdownM = last && staticM !== undefined ? last.levelM - staticM : undefined;
  const fell = drawdownM !== undefined && drawdownM > 0;
  const back = recovery.at(-1);
  const recoveredM = back && last ? last.levelM - back.levelM : undefined;
  return omitUndefined({
    flowLPerS: flow,
    drawdownM,
    pumpedS: last?.timeS,
    specificCapacity: fell && flow !== undefined ? flow / drawdownM : undefined,
    lateFallM: lateFall(points),
    recoveredRatio: fell && recoveredM !== undefined ? recoveredM / drawdownM : undefined,
    recoveredS: fell ? back?.timeS : undefined,
  });
}

/** Each flow holds until the next was read; undefined where a line has none. */
function meanFlow(points: readonly TestPoint[]): number | undefined {
  const read = points.filter((point) => point.flowLPerS !== undefined);
  const [first, end] = [read[0], points.at(-1)];
  if (!first || !end) return undefined;
  let liters = 0;
  for (const [at, { timeS, flowLPerS = 0 }] of read.entries())
    liters += flowLPerS * ((read[at + 1] ?? end).timeS - timeS);
  const spanS = end.timeS - first.timeS;
  return spanS > 0 ? liters / spanS : first.flowLPerS;
}

/** In the last quarter of the time; without a line shortly before it, nobody can tell. */
function lateFall(points: readonly TestPoint[]): number | undefined {
  const last = points.at(-1);
  const early =
    last && points.findLast(({ timeS }) => timeS <= last.timeS * 0.75 && timeS >= last.timeS * 0.5);
  return last && early && early !== last ? last.levelM - early.levelM : undefined;
}

function wellLogTest(hole: NonNullable<Card['description']>['hole'] | undefined): YieldTest[] {
  const { testDate, testFlowLPerS, testDrawdownM, testTimeS, testRecoveryS } = hole ?? {};
  if (testFlowLPerS === undefined && testDrawdownM === undefined) return [];
  const fell = testDrawdownM !== undefined && testDrawdownM > 0;
  return [
    omitUndefined({
      date: testDate,
      staticM: hole?.staticLevelM,
      points: [],
      recovery: [],
      flowLPerS: testFlowLPerS,
      drawdownM: testDrawdownM,
      pumpedS: testTimeS,
      specificCapacity: fell && testFlowLPerS !== undefined ? testFlowLPerS / testDrawdownM : undefined,
      recoveredS: testRecoveryS,
    }),
  ];
}

function siOf(text: string | undefined, dimension: Dimension): number | undefined {
  const read = text === undefined ? undefined : parseQuantity(text, dimension);
  return read && 'si' in read ? read.si : undefined;
}

function pointsOf(lines: readonly string[] = []): TestPoint[] {
  return lines.flatMap((line) => {
    const read = parseTestLine(line);
    return 'value' in read ? [read.value] : [];
  });
}

/** The last run laid over the usual one: amps and pressure from the start of the run, each over the band in which runs usually lie. */
import { momentWords } from '../../shared/api/time-words.ts';
import type { PumpDetail, UsualRun } from '../../shared/api/wells.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { Chart } from './chart.tsx';
import type { ChartLine } from './chart.tsx';
import { inUnits, spanWords, unitName } from './measure.ts';

/** Half width of the band in spreads: 19 of 20 values of a steady run lie within two. */
const BAND_SPREADS = 2;

type Line = readonly (number | null)[];

export function Signature({ pump, timeZone }: { pump: PumpDetail; timeZone: string }) {
  const { units } = useSurroundings();
  const { lastRun, lastCycle, usualRun } = pump;
  if (!lastRun || !lastCycle) return <p class="said">No run has been seen in the last two weeks.</p>;
  const kinds = [
    {
      title: 'Amps through the run',
      key: 'amps',
      dimension: 'current',
      tone: 'clay',
      decimals: 1,
      spanMin: 2,
    },
    {
      title: 'Pressure through the run',
      key: 'kpa',
      dimension: 'pressure',
      tone: 'water',
      decimals: 0,
      spanMin: units === 'us' ? 10 : 70,
    },
  ] as const;
  return (
    <>
      <p>
        The run of {momentWords(Date.parse(lastCycle.started), timeZone, units, nowMs())}
        {usualRun
          ? ' over the band in which this well’s runs usually lie.'
          : '. What is usual here is not known yet.'}
      </p>
      {kinds.map(({ title, key, dimension, tone, decimals, spanMin }) => {
        const unit = unitName(dimension, units);
        const { xs, last, low, high } = overlay(lastRun, usualRun, key);
        const shown = {
          last: inUnits(last, dimension, units),
          low: inUnits(low, dimension, units),
          high: inUnits(high, dimension, units),
        };
        const lines: ChartLine[] = [
          { label: '', tone: 'soft', draw: 'unseen', values: shown.high },
          { label: '', tone: 'soft', draw: 'unseen', values: shown.low },
          { label: 'This run', tone, draw: 'line', values: shown.last },
        ];
        return shown.last.every((value) => value === null) ? null : (
          <Chart
            key={key}
            title={title}
            label={`${title}: ${spanWords(shown.last, unit, decimals)}. ${outsideWords(last, low, high)}`}
            unit={unit}
            decimals={decimals}
            xs={xs}
            lines={lines}
            bands={[[0, 1]]}
            units={units}
            spanMin={spanMin}
          />
        );
      })}
    </>
  );
}

interface Overlay {
  xs: number[];
  last: (number | null)[];
  low: (number | null)[];
  high: (number | null)[];
}

/** Both on one axis of seconds from the start: the usual run is read at the last run's steps, between its own. */
export function overlay(
  run: { everyS: number; amps: Line; kpa: Line },
  usual: UsualRun | undefined,
  key: 'amps' | 'kpa',
): Overlay {
  const longest = Math.max(lengthS(run), usual ? lengthS(usual) : 0);
  const everyS = usual && lengthS(usual) > lengthS(run) ? usual.everyS : run.everyS;
  const xs = Array.from({ length: Math.round(longest / everyS) + 1 }, (_, i) => i * everyS);
  const edge = (side: -1 | 1) =>
    xs.map((s) => {
      const middle = usual ? readAt(usual[key], usual.everyS, s) : null;
      const spread = usual
        ? readAt(usual[key === 'amps' ? 'ampsSpread' : 'kpaSpread'], usual.everyS, s)
        : null;
      return middle === null || spread === null ? null : middle + side * BAND_SPREADS * spread;
    });
  return { xs, last: xs.map((s) => readAt(run[key], run.everyS, s)), low: edge(-1), high: edge(1) };
}

function lengthS({ everyS, amps }: { everyS: number; amps: Line }): number {
  return everyS * (amps.length - 1);
}

function readAt(line: Line, everyS: number, s: number): number | null {
  const place = s / everyS;
  const before = Math.floor(place + 1e-9);
  const [a, b] = [line[before] ?? null, line[before + 1] ?? null];
  const share = place - before;
  if (share < 1e-6) return a;
  return a === null || b === null ? null : a + (b - a) * share;
}

function outsideWords(last: Line, low: Line, high: Line): string {
  const judged = last
    .map((value, i) => [value, low[i] ?? null, high[i] ?? null] as const)
    .filter((three) => three.every((one) => one !== null));
  if (judged.length === 0) return 'No usual run to compare with.';
  const outside = judged.filter(
    ([value, least, most]) => (value ?? 0) < (least ?? 0) || (value ?? 0) > (most ?? 0),
  ).length;
  const share = Math.round((100 * outside) / judged.length);
  return share === 0
    ? 'Inside the usual band throughout.'
    : `Outside the usual band for ${share} % of the run.`;
}

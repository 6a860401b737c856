/**
 * The last run laid over the usual one: amps and pressure from the start of the run, each over the
 * band in which runs usually lie.
 */
import { momentWords } from '../../../shared/text/en/time-words.ts';
import type { PumpDetail } from '../../../shared/api/wells.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { Chart } from './chart.tsx';
import type { ChartLine } from './chart.tsx';
import { inUnits, spanWords, unitName } from '../../charts/measure.ts';
import { outsideWords, overlay } from './overlay.ts';
import { texts } from './texts.ts';

export function Signature({ pump, timeZone }: { pump: PumpDetail; timeZone: string }) {
  const { units } = useAppContext();
  const { lastRun, lastCycle, normalRun } = pump;
  if (!lastRun || !lastCycle) return <p class="status">{texts().noRun}</p>;
  const kinds = [
    {
      title: texts().ampsInRun,
      key: 'amps',
      dimension: 'current',
      tone: 'clay',
      decimals: 1,
      minSpan: 2,
    },
    {
      title: texts().pressureInRun,
      key: 'kpa',
      dimension: 'pressure',
      tone: 'water',
      decimals: 0,
      minSpan: units === 'us' ? 10 : 70,
    },
  ] as const;
  return (
    <>
      <p>
        {texts().runOf(
          momentWords(Date.parse(lastCycle.started), timeZone, units, nowMs()),
          normalRun !== undefined,
        )}
      </p>
      {kinds.map(({ title, key, dimension, tone, decimals, minSpan }) => {
        const unit = unitName(dimension, units);
        const { xs, run, low, high } = overlay(lastRun, normalRun, key);
        const shown = {
          last: inUnits(run, dimension, units),
          low: inUnits(low, dimension, units),
          high: inUnits(high, dimension, units),
        };
        const lines: ChartLine[] = [
          { label: '', tone: 'soft', draw: 'unseen', values: shown.high },
          { label: '', tone: 'soft', draw: 'unseen', values: shown.low },
          { label: texts().thisRun, tone, draw: 'line', values: shown.last },
        ];
        return shown.last.every((value) => value === null) ? null : (
          <Chart
            key={key}
            title={title}
            label={`${title}: ${spanWords(shown.last, unit, decimals)}. ${outsideWords(run, low, high)}`}
            unit={unit}
            decimals={decimals}
            xs={xs}
            lines={lines}
            bands={[[0, 1]]}
            units={units}
            minSpan={minSpan}
          />
        );
      })}
    </>
  );
}

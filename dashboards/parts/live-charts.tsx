/** Pressure and amps of the last 15 minutes, going on as readings come. */
import { useEffect } from 'preact/hooks';
import type { LiveMessage } from '../../shared/api/live.ts';
import type { WellDetail } from '../../shared/api/wells.ts';
import { nowMs, useNow } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { Chart } from './chart.tsx';
import { added, aligned, bufferOf, LIVE_MS } from './live-buffer.ts';
import type { LiveBuffer } from './live-buffer.ts';
import { inUnits, spanWords, unitName } from './measure.ts';
import { Said } from './said.tsx';

export type Hear = (hear: (message: LiveMessage) => void) => () => void;

/** A reading each second, at the finest. */
const POINTS = LIVE_MS / 1000;

export function LiveCharts({ detail, hear }: { detail: WellDetail; hear: Hear }) {
  const { source } = useSurroundings();
  const { well } = detail.well;
  const channels = detail.sensors
    .map((sensor) => sensor.channel)
    .filter((channel) => /(^|\/)(current|pressure)$/.test(channel));
  const { state, again, put } = useAsked<LiveBuffer>(`live ${well} ${channels.join(' ')}`, async () => {
    const to = nowMs();
    const asked = channels.map(
      async (channel) =>
        await source.ask('chart', {
          well,
          channel,
          from: Math.round(to - LIVE_MS),
          to: Math.round(to),
          points: POINTS,
        }),
    );
    return bufferOf(await Promise.all(asked));
  });
  useEffect(
    () =>
      hear((message) => {
        if (message.event === 'readings') put((buffer) => added(buffer, message.columns, nowMs()));
        if (message.event === 'again') again();
      }),
    [hear],
  );
  if (channels.length === 0) return <p class="said">This well has no sensor of current or pressure.</p>;
  return (
    <Said state={state} what="the live readings" again={again}>
      {(buffer) => <TwoCharts buffer={buffer} channels={channels} timeZone={detail.well.timeZone} />}
    </Said>
  );
}

function TwoCharts({
  buffer,
  channels,
  timeZone,
}: {
  buffer: LiveBuffer;
  channels: readonly string[];
  timeZone: string;
}) {
  const { units } = useSurroundings();
  const now = useNow(1_000);
  const xRange = [(now - LIVE_MS) / 1000, now / 1000] as const;
  const kinds = [
    {
      title: 'Pressure',
      ends: 'pressure',
      dimension: 'pressure',
      tone: 'water',
      decimals: 0,
      spanMin: units === 'us' ? 20 : 140,
    },
    { title: 'Amps', ends: 'current', dimension: 'current', tone: 'clay', decimals: 1, spanMin: 2 },
  ] as const;
  return (
    <>
      {kinds.map(({ title, ends, dimension, tone, decimals, spanMin }) => {
        const named = channels.filter((channel) => channel.endsWith(ends));
        const { xs, lines } = aligned(buffer, named);
        const unit = unitName(dimension, units);
        const values = lines.map((line) => inUnits(line, dimension, units));
        return named.length === 0 ? null : (
          <Chart
            key={title}
            title={title}
            label={`${title}, last 15 minutes: ${spanWords(values[0] ?? [], unit, decimals)}.`}
            unit={unit}
            decimals={decimals}
            xs={xs}
            lines={values.map((line, i) => ({
              label: labelOf(named[i] ?? ''),
              tone: i === 0 ? tone : 'moss',
              draw: 'line',
              values: line,
            }))}
            timeZone={timeZone}
            units={units}
            xRange={xRange}
            spanMin={spanMin}
            fromZero={ends === 'current'}
          />
        );
      })}
    </>
  );
}

function labelOf(channel: string): string {
  const cut = channel.indexOf('/');
  return cut < 0 ? '' : `Pump ${channel.slice(1, cut)}`;
}

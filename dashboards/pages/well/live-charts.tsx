/** Pressure and amps of the last 15 minutes, going on as readings come. */
import { useEffect } from 'preact/hooks';
import type { LiveMessage } from '../../../shared/api/live.ts';
import type { WellDetail } from '../../../shared/api/wells.ts';
import { nowMs, useNow } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { Chart } from './chart.tsx';
import { appendReadings, aligned, bufferOf, LIVE_MS } from './live-buffer.ts';
import type { LiveBuffer } from './live-buffer.ts';
import { inUnits, spanWords, unitName } from '../../charts/measure.ts';
import { RequestView } from '../../ui/request-view.tsx';
import { texts } from './texts.ts';

export type SubscribeLive = (hear: (message: LiveMessage) => void) => () => void;

/** A reading each second, at the finest. */
const POINTS = LIVE_MS / 1000;

export function LiveCharts({ detail, subscribe }: { detail: WellDetail; subscribe: SubscribeLive }) {
  const { source } = useAppContext();
  const { well } = detail.well;
  const channels = detail.sensors
    .map((sensor) => sensor.channel)
    .filter((channel) => /(^|\/)(current|pressure)$/.test(channel));
  const { state, reload, update } = useRequest<LiveBuffer>(`live ${well} ${channels.join(' ')}`, async () => {
    const to = nowMs();
    const requests = channels.map(
      async (channel) =>
        await source.get('chart', {
          well,
          channel,
          from: Math.round(to - LIVE_MS),
          to: Math.round(to),
          points: POINTS,
        }),
    );
    return bufferOf(await Promise.all(requests));
  });
  useEffect(
    () =>
      subscribe((message) => {
        if (message.event === 'readings')
          update((buffer) => appendReadings(buffer, message.columns, nowMs()));
        if (message.event === 'resync') reload();
      }),
    [subscribe],
  );
  if (channels.length === 0) return <p class="status">{texts().noSensor}</p>;
  return (
    <RequestView state={state} subject={texts().liveSubject} reload={reload}>
      {(buffer) => <TwoCharts buffer={buffer} channels={channels} timeZone={detail.well.timeZone} />}
    </RequestView>
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
  const { units } = useAppContext();
  const now = useNow(1_000);
  const xRange = [(now - LIVE_MS) / 1000, now / 1000] as const;
  const kinds = [
    {
      title: texts().pressure,
      ends: 'pressure',
      dimension: 'pressure',
      tone: 'water',
      decimals: 0,
      minSpan: units === 'us' ? 20 : 140,
    },
    { title: texts().amps, ends: 'current', dimension: 'current', tone: 'clay', decimals: 1, minSpan: 2 },
  ] as const;
  return (
    <>
      {kinds.map(({ title, ends, dimension, tone, decimals, minSpan }) => {
        const named = channels.filter((channel) => channel.endsWith(ends));
        const { xs, lines } = aligned(buffer, named);
        const unit = unitName(dimension, units);
        const values = lines.map((line) => inUnits(line, dimension, units));
        return named.length === 0 ? null : (
          <Chart
            key={title}
            title={title}
            label={texts().last15MinutesOf(title, spanWords(values[0] ?? [], unit, decimals))}
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
            minSpan={minSpan}
            fromZero={ends === 'current'}
          />
        );
      })}
    </>
  );
}

function labelOf(channel: string): string {
  const cut = channel.indexOf('/');
  return cut < 0 ? '' : texts().pumpNumber(channel.slice(1, cut));
}

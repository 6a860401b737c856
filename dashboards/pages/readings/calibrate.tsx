/**
 * The two points by which a clamp can be calibrated, offered where readings of a meter gave them;
 * else what is still missing.
 */
import type { CalibrationAnswer } from '../../../shared/api/readings.ts';
import { checkClamp } from '../../../shared/readings/clamp-check.ts';
import type { WellDetail } from '../../../shared/api/wells.ts';
import { formatAmps } from '../../../shared/text/en/format.ts';
import { ActionForm } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';

interface CalibrateProps {
  sensors: WellDetail['sensors'];
  calibration: readonly CalibrationAnswer[];
  changed: () => void;
}

export function Calibrate({ sensors, calibration, changed }: CalibrateProps) {
  return (
    <>
      {calibration.map((one) => {
        const channel = one.pump === 'p1' ? 'current' : `${one.pump}/current`;
        const correction = sensors.find((sensor) => sensor.channel === channel)?.correction;
        return (
          <ChannelCalibration
            key={`${one.node} ${one.channel}`}
            calibration={one}
            correction={correction}
            changed={changed}
          />
        );
      })}
    </>
  );
}

function ChannelCalibration(props: {
  calibration: CalibrationAnswer;
  correction: { gain: number; offset: number } | undefined;
  changed: () => void;
}) {
  const { calibration, correction = { gain: 1, offset: 0 }, changed } = props;
  const { node, channel, points, usesZero, reason } = calibration;
  const name = texts().clampOf(channel, node);
  if (!points)
    return reason === undefined ? null : <p class="status">{`${name}: ${texts().missingPoint[reason]}`}</p>;
  const [low, high] = points;
  const agrees = [low, high].every(
    ([read, real]) => checkClamp(`${real} A`, correction.gain * read + correction.offset).is === 'agrees',
  );
  if (agrees) return <p class="status">{texts().clampAgrees(name)}</p>;
  return (
    <div class="sheet">
      <h3>{texts().canCalibrate(name)}</h3>
      <p>
        {usesZero === true
          ? texts().readAtRest(formatAmps(low[0]), formatAmps(high[0]), formatAmps(high[1]))
          : texts().readTwoLoads(
              formatAmps(low[0]),
              formatAmps(high[0]),
              formatAmps(low[1]),
              formatAmps(high[1]),
            )}{' '}
        {texts().calibrationEffect}
      </p>
      <ActionForm
        button={texts().calibrate}
        submit={(to, _fields, actor) =>
          to.post('act', {}, { act: { kind: 'calibrated', node, channel, points: [low, high] }, ...actor })
        }
        done={changed}
      />
    </div>
  );
}

/**
 * The two points by which a clamp can be calibrated, offered where readings of a meter gave them;
 * else what is still missing.
 */
import type { CalibrationAnswer } from '../../../shared/api/readings.ts';
import { checkClamp } from '../../../shared/readings/clamp-check.ts';
import type { WellDetail } from '../../../shared/api/wells.ts';
import { formatAmps } from '../../../shared/text/en/format.ts';
import { ActionForm } from '../../ui/action-form.tsx';

const MISSING_POINT_WORDS = {
  'no-pair': 'No meter was held against this clamp since it was calibrated last.',
  'one-load':
    'Only one load was compared. A second one that differs by a fifth, or a clamp that shows nothing at rest, makes two points.',
  'does-not-rise': 'What the clamp and the meter showed contradict each other: compare again.',
} as const;

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
  const name = `Clamp ${channel} of ${node}`;
  if (!points)
    return reason === undefined ? null : <p class="status">{`${name}: ${MISSING_POINT_WORDS[reason]}`}</p>;
  const [low, high] = points;
  const agrees = [low, high].every(
    ([read, real]) => checkClamp(`${real} A`, correction.gain * read + correction.offset).is === 'agrees',
  );
  if (agrees)
    return <p class="status">{name}: it agrees with the meter, so there is nothing to calibrate.</p>;
  return (
    <div class="sheet">
      <h3>{name} can be calibrated</h3>
      <p>
        {usesZero === true
          ? `At rest it read ${formatAmps(low[0])}, where no current flows; running it read ${formatAmps(high[0])}, and the meter ${formatAmps(high[1])}.`
          : `It read ${formatAmps(low[0])} and ${formatAmps(high[0])}, and the meter ${formatAmps(low[1])} and ${formatAmps(high[1])}.`}{' '}
        From then on its readings lie on the line through both. What was read before stays as it was.
      </p>
      <ActionForm
        button="Calibrate by these two points"
        submit={(to, _fields, actor) =>
          to.post('act', {}, { act: { kind: 'calibrated', node, channel, points: [low, high] }, ...actor })
        }
        done={changed}
      />
    </div>
  );
}

/** One pump: where it works today on its curve, what its water costs, and how much it has done. */
import type { PumpFigures } from '../../../shared/api/figures/figures.ts';
import { formatQuantity, type UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { formatAmps, formatDepth, formatFlow } from '../../../shared/text/en/format.ts';
import {
  formatEnergy,
  formatHours,
  formatPercent,
  formatPowerKw,
} from '../../../shared/text/en/pages/figures.ts';
import { dateWords } from '../../../shared/text/en/time-words.ts';
import { Facts, type Fact } from '../../../shared/view/facts.tsx';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { CurveChart } from './curve-chart.tsx';
import { texts } from './texts.ts';

/** So far under the curve neither friction nor a meter explains it alone (argued). */
const WORN_RATIO = 0.85;

export interface PumpSectionProps {
  figures: PumpFigures;
  timeZone: string;
  only: boolean;
}

export function PumpSection({ figures, timeZone, only }: PumpSectionProps) {
  const { units } = useAppContext();
  const { pump, curve, duty, level, totals, drop } = figures;
  const id = `figures-${pump}`;
  return (
    <section aria-labelledby={id}>
      <h2 id={id}>{texts().pump(only ? undefined : pump.slice(1))}</h2>
      <h3>{texts().today}</h3>
      {duty ? <Facts facts={dutyFacts(duty, units)} /> : <p class="status">{texts().noDuty}</p>}
      {duty && (
        <p class="secondary">
          {level
            ? texts().headNote(
                level.from,
                formatDepth(level.m, units),
                dateWords(level.atMs, timeZone, nowMs()),
              )
            : texts().noHead}
        </p>
      )}
      {duty?.headRatio !== undefined && duty.headRatio < WORN_RATIO && <p>{texts().wornNote}</p>}
      {curve.length < 2 ? (
        <p class="secondary">{texts().noCurve}</p>
      ) : (
        <CurveChart curve={curve} duty={duty} units={units} />
      )}
      {totals && <p>{startsText(totals)}</p>}
      {drop && <p>{dropText(drop)}</p>}
    </section>
  );
}

function dutyFacts(duty: NonNullable<PumpFigures['duty']>, units: UnitSystem): Fact[] {
  const { flowLPerS, headM, curveHeadM, headRatio, powerW, efficiency, whPerL } = duty;
  const ofCurve = headRatio === undefined ? '' : `, ${texts().ofCurve(formatPercent(headRatio))}`;
  const facts: [name: string, text: string | undefined][] = [
    [texts().flow, formatFlow(flowLPerS, units)],
    [texts().head, headM === undefined ? undefined : `${formatDepth(headM, units)}${ofCurve}`],
    [texts().curveHead, curveHeadM === undefined ? undefined : formatDepth(curveHeadM, units)],
    [texts().power, powerW === undefined ? undefined : formatPowerKw(powerW)],
    [texts().efficiency, efficiency === undefined ? undefined : formatPercent(efficiency)],
    [texts().energy, whPerL === undefined ? undefined : formatEnergy(whPerL, units)],
  ];
  return facts.flatMap(([name, text]): Fact[] => (text === undefined ? [] : [[name, text]]));
}

function dropText({ volts, ratio, amps }: NonNullable<PumpFigures['drop']>): string {
  return texts().dropText(formatQuantity(volts, 'voltage', 'us', 1), formatPercent(ratio), formatAmps(amps));
}

function startsText({
  starts,
  ranS,
  since,
  installed,
  uncountedDays,
}: NonNullable<PumpFigures['totals']>): string {
  return texts().startsText({ starts, hours: formatHours(ranS), since, installed, uncountedDays });
}

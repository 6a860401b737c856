/**
 * What was done and found, newest first, and drawn where it has a value; a slip can be struck out,
 * and stays in the logbook.
 */
import type { CheckCompletionAnswer } from '../../shared/api/due.ts';
import { toDisplayUnits, formatNumber } from '../../shared/quantity/format-quantity.ts';
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import { OUTCOME_TEXT } from '../../shared/text/en/checks/due-words.ts';
import { useAppContext } from '../data/settings.ts';
import { dayWords } from '../words/due.ts';
import type { CheckProps } from './check-done.tsx';
import { spanWords } from '../charts/measure.ts';
import { DocumentLinks } from './photo-field.tsx';
import { ActionForm } from './action-form.tsx';
import { TrendChart } from '../charts/trend-chart.tsx';
import { texts } from './texts.ts';

export function CheckHistory({ check, value, well, changed }: CheckProps) {
  const { units } = useAppContext();
  if (check.completions.length === 0) return null;
  return (
    <details class="more" open={check.completions.length > 1 && check.value !== undefined}>
      <summary>
        {texts().doneBefore}{' '}
        <span class="likely">
          {texts().lastOn(dayWords(check.completions.at(-1)?.date ?? '', value.nowMs))}
        </span>
      </summary>
      {check.value && <CheckChart check={check} units={units} />}
      <ul class="past-alarms">
        {check.completions.toReversed().map((done) => (
          <li key={done.id ?? done.atMs}>
            <span>{dayWords(done.date, value.nowMs)}</span>
            <div>
              <p>{doneWords(done)}</p>
              <p class="secondary">
                {done.text !== undefined && `${done.text} `}
                {done.by !== undefined && `${texts().doneBy(done.by)} `}
                <DocumentLinks documents={done.documents} />
              </p>
              {done.id !== undefined && <VoidEntry well={well} id={done.id} changed={changed} />}
            </div>
          </li>
        ))}
      </ul>
    </details>
  );
}

function doneWords({ outcome, value, asLeft }: CheckCompletionAnswer): string {
  const found = value === undefined ? '' : ` ${texts().found(value, asLeft)}`;
  return `${OUTCOME_TEXT[outcome]}.${found}`;
}

function CheckChart({ check, units }: { check: CheckProps['check']; units: UnitSystem }) {
  const value = (kpa: number): number => toDisplayUnits(kpa, 'pressure', units).value;
  const { unit } = toDisplayUnits(0, 'pressure', units);
  const points = check.completions.flatMap(({ atMs, valueSi }) =>
    valueSi === undefined ? [] : [{ atMs, value: value(valueSi) }],
  );
  const target = check.target?.kpa === undefined ? undefined : value(check.target.kpa);
  return (
    <TrendChart
      title={texts().asFound(check.title)}
      description={spanWords(
        points.map((point) => point.value),
        unit,
        0,
      )}
      points={points}
      lines={
        target === undefined ? [] : [{ value: target, words: texts().target(formatNumber(target, 0), unit) }]
      }
    />
  );
}

export function VoidEntry({ well, id, changed }: { well: string; id: string; changed: () => void }) {
  const { source } = useAppContext();
  if (!source.live) return null;
  return (
    <details class="acts void">
      <summary>{texts().recordedByMistake}</summary>
      <ActionForm
        button={texts().void}
        submit={(to, _fields, actor) =>
          to.post('writeEntry', { well }, { entry: { kind: 'struck', replaces: id }, ...actor })
        }
        done={changed}
      />
    </details>
  );
}

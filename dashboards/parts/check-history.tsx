/** What was done and found, newest first, and drawn where it has a value; a slip can be struck out, and stays in the book. */
import type { TimeDoneAnswer } from '../../shared/api/due.ts';
import { inPeoplesUnits, printNumber } from '../../shared/quantity/print-quantity.ts';
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';
import { OUTCOME_WORDS } from '../../shared/words/due-words.ts';
import { useSurroundings } from '../data/settings.ts';
import { dayWords } from '../words/due.ts';
import type { CheckProps } from './check-done.tsx';
import { spanWords } from './measure.ts';
import { PaperLinks } from './photo-field.tsx';
import { TellForm } from './tell-form.tsx';
import { YearsLine } from './years-line.tsx';

export function CheckHistory({ check, value, well, changed }: CheckProps) {
  const { units } = useSurroundings();
  if (check.done.length === 0) return null;
  return (
    <details class="more" open={check.done.length > 1 && check.value !== undefined}>
      <summary>
        Done before <span class="likely">last on {dayWords(check.done.at(-1)?.on ?? '', value.nowMs)}</span>
      </summary>
      {check.value && <Drawn check={check} units={units} />}
      <ul class="past-alarms">
        {check.done.toReversed().map((done) => (
          <li key={done.id ?? done.atMs}>
            <span>{dayWords(done.on, value.nowMs)}</span>
            <div>
              <p>{doneWords(done)}</p>
              <p class="doing">
                {done.text !== undefined && `${done.text} `}
                {done.by !== undefined && `By ${done.by}. `}
                <PaperLinks papers={done.papers} />
              </p>
              {done.id !== undefined && <Strike well={well} id={done.id} changed={changed} />}
            </div>
          </li>
        ))}
      </ul>
    </details>
  );
}

function doneWords({ outcome, value, left }: TimeDoneAnswer): string {
  const found = value === undefined ? '' : ` Found ${value}${left === undefined ? '' : `, left ${left}`}.`;
  return `${OUTCOME_WORDS[outcome]}.${found}`;
}

function Drawn({ check, units }: { check: CheckProps['check']; units: UnitSystem }) {
  const value = (kpa: number): number => inPeoplesUnits(kpa, 'pressure', units).value;
  const { unit } = inPeoplesUnits(0, 'pressure', units);
  const points = check.done.flatMap(({ atMs, valueSi }) =>
    valueSi === undefined ? [] : [{ atMs, value: value(valueSi) }],
  );
  const target = check.target?.kpa === undefined ? undefined : value(check.target.kpa);
  return (
    <YearsLine
      title={`${check.title}, as found`}
      said={spanWords(
        points.map((point) => point.value),
        unit,
        0,
      )}
      points={points}
      lines={
        target === undefined ? [] : [{ value: target, words: `target ${printNumber(target, 0)} ${unit}` }]
      }
    />
  );
}

export function Strike({ well, id, changed }: { well: string; id: string; changed: () => void }) {
  const { source } = useSurroundings();
  if (!source.live) return null;
  return (
    <details class="acts strike">
      <summary>Written down by mistake?</summary>
      <TellForm
        button="Strike it out"
        tell={(to, _fields, who) =>
          to.tell('writeEntry', { well }, { entry: { kind: 'struck', replaces: id }, ...who })
        }
        done={changed}
      />
    </details>
  );
}

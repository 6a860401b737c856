/**
 * "Why is there no leak alarm?": what the watch of each kind said last. Asked for when somebody
 * opens it.
 */
import { useState } from 'preact/hooks';
import type { EvaluationAnswer } from '../../../shared/api/alarms.ts';
import { alarmTitle } from '../../../shared/text/en/alarm-title.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { RequestView } from '../../ui/request-view.tsx';
import { texts } from './texts.ts';

export function Evaluations({ name }: { name: string }) {
  const [open, setOpen] = useState(false);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{texts().whyNoAlarm}</summary>
      {open && <EvaluationList name={name} />}
    </details>
  );
}

function EvaluationList({ name }: { name: string }) {
  const { source } = useAppContext();
  const { state, reload } = useRequest(`evaluations ${name}`, () =>
    source.get('evaluations', { well: name }),
  );
  return (
    <RequestView state={state} subject={texts().evaluationsSubject} reload={reload}>
      {({ evaluations }) => (
        <ul>
          {evaluations.map((evaluation) => (
            <li key={`${evaluation.alarm} ${evaluation.pump ?? ''}`}>
              <strong>{titleOf(evaluation, evaluations)}.</strong> {evaluation.text}
            </li>
          ))}
        </ul>
      )}
    </RequestView>
  );
}

/** With its pump if the well has several. */
function titleOf({ alarm, pump }: EvaluationAnswer, all: readonly EvaluationAnswer[]): string {
  const several = all.some((other) => other.pump !== undefined && other.pump !== pump);
  return pump === undefined || !several
    ? alarmTitle(alarm)
    : texts().alarmOfPump(alarmTitle(alarm), pump.slice(1));
}

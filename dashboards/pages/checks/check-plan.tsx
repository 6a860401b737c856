/**
 * When a check comes round: another interval, another day of the year, the next time by hand, not
 * at all; and checks of one's own.
 */
import { useState } from 'preact/hooks';
import type { CheckRowAnswer } from '../../../shared/api/due.ts';
import { useAppContext } from '../../data/settings.ts';
import { RequestError, type DataSource } from '../../data/source.ts';
import { roundWords } from '../../words/due.ts';
import type { CheckProps } from '../../ui/check-done.tsx';
import { Field, FieldRow, type Reasons } from '../../ui/field.tsx';
import { refusedField } from '../../words/refused-field.ts';
import { ActionForm, textOf } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';
import { texts as uiTexts } from '../../ui/texts.ts';

type Actor = { by?: string };
const MAX_DAYS = 3_650;

export function CheckPlan({ check, value, well, changed }: CheckProps) {
  const { source } = useAppContext();
  if (!source.live) return null;
  const off = check.state === 'off';
  return (
    <details class="more acts">
      <summary>
        {texts().changePlan}{' '}
        <span class="likely">{off ? texts().postponed : roundWords(check.recurrence, value.nowMs)}</span>
      </summary>
      <PlanForm check={check} well={well} changed={changed} />
      <ActionForm
        button={off ? texts().resume : texts().notNeeded}
        submit={(to, _fields, actor) =>
          savePlan(to, well, actor, { ...planFields(check), ...(off ? {} : { off: true }) })
        }
        done={changed}
      />
    </details>
  );
}

function planFields({ check, title, custom, text }: CheckRowAnswer): Record<string, unknown> {
  return { check, ...(custom && { title }), ...(text !== undefined && { text }) };
}

function savePlan(
  source: DataSource,
  well: string,
  actor: Actor,
  plan: Record<string, unknown>,
): Promise<unknown> {
  return source.post('writeEntry', { well }, { entry: { kind: 'check-plan', ...plan }, ...actor });
}

function PlanForm({ check, well, changed }: Pick<CheckProps, 'check' | 'well' | 'changed'>) {
  const [reasons, setReasons] = useState<Reasons>({});
  const { recurrence } = check;
  return (
    <ActionForm
      class="action-form form"
      button={texts().savePlan}
      doneMessage={texts().saved}
      submit={(to, fields, actor) =>
        submitPlan(setReasons, fields, (plan) => savePlan(to, well, actor, { ...planFields(check), ...plan }))
      }
      done={changed}
    >
      <PlanFields
        reasons={reasons}
        days={recurrence?.is === 'days' ? String(recurrence.days) : ''}
        on={recurrence?.is === 'yearly' ? recurrence.day : ''}
      />
    </ActionForm>
  );
}

function PlanFields({ reasons, days, on }: { reasons: Reasons; days: string; on: string }) {
  return (
    <FieldRow>
      <Field
        name="everyDays"
        label={texts().everyDays}
        inputMode="numeric"
        defaultValue={days}
        maxLength={5}
        reasons={reasons}
      />
      <Field
        name="on"
        label={texts().yearlyOn}
        defaultValue={on}
        placeholder="10-01"
        maxLength={5}
        reasons={reasons}
      />
      <Field name="next" label={texts().nextDate} type="date" reasons={reasons} />
    </FieldRow>
  );
}

/** A check of one's own: what, and when. */
export function CustomCheckForm({ well, changed }: Pick<CheckProps, 'well' | 'value' | 'changed'>) {
  const { source } = useAppContext();
  const [reasons, setReasons] = useState<Reasons>({});
  if (!source.live) return null;
  const submit = (to: DataSource, fields: FormData, actor: Actor): Promise<unknown> => {
    const title = textOf(fields, 'title');
    if (title === '') {
      setReasons({ title: texts().nameRequired });
      return Promise.reject(new RequestError(uiTexts().seeFields));
    }
    const text = textOf(fields, 'text');
    return submitPlan(setReasons, fields, (plan) =>
      savePlan(to, well, actor, {
        check: customCheckId(title),
        title,
        ...(text !== '' && { text }),
        ...plan,
      }),
    );
  };
  return (
    <details class="more acts">
      <summary>{texts().addOwn}</summary>
      <ActionForm
        class="action-form form"
        button={texts().add}
        doneMessage={texts().added}
        submit={submit}
        done={changed}
      >
        <Field
          name="title"
          label={texts().name}
          maxLength={80}
          placeholder={texts().nameExample}
          reasons={reasons}
        />
        <PlanFields reasons={reasons} days="" on="" />
        <Field name="text" label={texts().remark} maxLength={500} reasons={reasons} />
      </ActionForm>
    </details>
  );
}

/** Reads the fields of a plan and keeps it; reasons go to their fields. */
async function submitPlan(
  setReasons: (reasons: Reasons) => void,
  fields: FormData,
  save: (plan: Record<string, unknown>) => Promise<unknown>,
): Promise<void> {
  const read = planOf(fields);
  if ('reasons' in read) {
    setReasons(read.reasons);
    throw new RequestError(uiTexts().seeFields);
  }
  setReasons({});
  try {
    await save(read.plan);
  } catch (error) {
    const refused = refusedField(error);
    if (refused) setReasons({ [refused.field]: refused.reason });
    throw error;
  }
}

function planOf(fields: FormData): { plan: Record<string, unknown> } | { reasons: Reasons } {
  const [days, on, next] = ['everyDays', 'on', 'next'].map((name) => textOf(fields, name)) as [
    string,
    string,
    string,
  ];
  const reasons: Record<string, string> = {};
  const every = Number(days);
  if (days !== '' && !(Number.isInteger(every) && every >= 1 && every <= MAX_DAYS))
    reasons['everyDays'] = texts().daysRule(MAX_DAYS);
  if (on !== '' && !/^\d\d-\d\d$/.test(on)) reasons['on'] = texts().dayRule;
  if (days !== '' && on !== '') reasons['on'] = texts().oneRule;
  if (days === '' && on === '' && next === '') reasons['everyDays'] = texts().planRequired;
  if (Object.keys(reasons).length > 0) return { reasons };
  return {
    plan: {
      ...(days !== '' && { everyDays: every }),
      ...(on !== '' && { on }),
      ...(next !== '' && { next }),
    },
  };
}

/**
 * A name for the logbook, unlike that of any other check: from the title, and from when it was
 * made.
 */
function customCheckId(title: string): string {
  const plain = title
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .slice(0, 20)
    .replaceAll(/^-|-$/g, '');
  return `own-${plain === '' ? 'check' : plain}-${Math.floor(Date.now() / 1000).toString(36)}`;
}

/**
 * Labels to print and hang at tank, switch, box, panel and well head: which of them, on which
 * sheet, and how they will look.
 */
import { useState } from 'preact/hooks';
import type { Label } from '../../../shared/api/labels.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { LabelPreview } from '../../labels/label-preview.tsx';
import { LabelSheets } from '../../labels/label-sheets.tsx';
import { SHEETS, type Sheet } from '../../../shared/labels/sheets.ts';
import { LogbookHead } from '../../ui/logbook-head.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { sheetName } from '../../../shared/text/en/sheet-names.ts';
import { texts } from './texts.ts';

export function LabelsPage({ name }: { name: string }) {
  const { source, units } = useAppContext();
  const { state, reload } = useRequest(`labels ${name}`, () => source.get('labels', { well: name }));
  return (
    <>
      <LogbookHead well={name} page="labels" />
      <p class="lead">{texts().intro}</p>
      <RequestView state={state} subject={texts().subject} reload={reload}>
        {(labels) => <LabelChooser labels={labels[units]} />}
      </RequestView>
    </>
  );
}

function LabelChooser({ labels }: { labels: readonly Label[] }) {
  const { units } = useAppContext();
  const defaultSheet = SHEETS.find(({ paper }) => (paper === 'letter') === (units === 'us'));
  const [sheetId, setSheetId] = useState(defaultSheet?.id);
  const [excluded, setWithout] = useState<readonly string[]>([]);
  const [first, setFirst] = useState(1);
  const sheet = SHEETS.find(({ id }) => id === sheetId) ?? SHEETS[0]!;
  const chosen = labels.filter(({ id }) => !excluded.includes(id));
  const toggle = (id: string): void =>
    setWithout((now) => (now.includes(id) ? now.filter((one) => one !== id) : [...now, id]));
  return (
    <>
      <fieldset class="label-choice">
        <legend>{texts().labels}</legend>
        {labels.map(({ id, title }) => (
          <label key={id}>
            <input type="checkbox" checked={!excluded.includes(id)} onChange={() => toggle(id)} /> {title}
          </label>
        ))}
      </fieldset>
      <SheetChoice sheet={sheet} first={first} choose={setSheetId} setFirst={setFirst} />
      <button
        type="button"
        class="print-labels"
        disabled={chosen.length === 0}
        onClick={() => window.print()}
      >
        {texts().print}
      </button>
      <p class="secondary">
        {texts().printHelp(sheet.paper)} {sheet.cutLines ? texts().scaleBarHelp : texts().labelStockHelp}
      </p>
      <h2>{texts().preview}</h2>
      <div class="label-previews">
        {chosen.map((label) => (
          <LabelPreview key={label.id} label={label} size={sheet.label} />
        ))}
      </div>
      <h2>{texts().sheets}</h2>
      <LabelSheets labels={chosen} sheet={sheet} first={Math.min(first, sheet.columns * sheet.rows)} />
    </>
  );
}

function SheetChoice(props: {
  sheet: Sheet;
  first: number;
  choose: (id: string) => void;
  setFirst: (first: number) => void;
}) {
  const { sheet, first, choose, setFirst } = props;
  const places = Array.from({ length: sheet.columns * sheet.rows }, (_, i) => i + 1);
  return (
    <div class="label-choice">
      <label>
        {texts().paper}{' '}
        <select value={sheet.id} onChange={(event) => choose(event.currentTarget.value)}>
          {SHEETS.map((one) => (
            <option key={one.id} value={one.id}>
              {sheetName(one)}
            </option>
          ))}
        </select>
      </label>
      {!sheet.cutLines && (
        <label>
          {texts().firstFreePlace}{' '}
          <select value={first} onChange={(event) => setFirst(Number(event.currentTarget.value))}>
            {places.map((place) => (
              <option key={place} value={place}>
                {place}
              </option>
            ))}
          </select>
        </label>
      )}
    </div>
  );
}

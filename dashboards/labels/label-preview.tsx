/** One label by itself, as large as the screen allows, and what its size left no room for. */
import { texts } from '../texts.ts';
import type { Label } from '../../shared/api/labels.ts';
import { layOutLabel } from '../../shared/labels/layout.ts';
import type { Size } from '../../shared/labels/sheets.ts';
import { nameText } from '../../shared/text/en/names.ts';
import { LabelDrawing } from '../../shared/view/label-drawing.tsx';
import { LABEL_TOOLS } from './browser-label-tools.ts';

export function LabelPreview({ label, size }: { label: Label; size: Size }) {
  const { omitted, qr } = layOutLabel(label, nameText(label.well), size, LABEL_TOOLS);
  const inCode = qr?.text === label.plainText.join('\n');
  return (
    <div>
      <figure class="label-preview" role="img" aria-label={texts().labelOf(label.title, label.plainText)}>
        <svg viewBox={`0 0 ${size.w} ${size.h}`}>
          <LabelDrawing label={label} size={size} tools={LABEL_TOOLS} />
        </svg>
      </figure>
      {omitted.length > 0 && <p class="secondary">{texts().noRoomFor(omitted, inCode)}</p>}
    </div>
  );
}

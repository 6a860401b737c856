/** A label as SVG, in mm from its own top left corner. Black on white on paper and on screen: it is a picture of what is printed. */
import type { Label } from '../../shared/api/labels.ts';
import { nameWords } from '../words/names.ts';
import { layoutOf } from './layout.ts';
import type { Size } from './sheets.ts';
import { LABEL_FONT, textWidth } from './text-width.ts';

export function LabelDrawing({ label, size }: { label: Label; size: Size }) {
  const { texts, rules, qr, scale } = layoutOf(label, nameWords(label.well), size, textWidth);
  return (
    <g
      transform={scale === 1 ? undefined : `scale(${round(scale)})`}
      font-family={LABEL_FONT}
      text-rendering="geometricPrecision"
      fill="#000"
    >
      {texts.map(({ x, y, size: fontSize, bold, text, end }) => (
        <text
          key={`${round(x)} ${round(y)}`}
          x={round(x)}
          y={round(y)}
          font-size={fontSize}
          font-weight={bold ? 700 : undefined}
          text-anchor={end ? 'end' : undefined}
        >
          {text}
        </text>
      ))}
      {rules.map(({ x, y, w, thick }) => (
        <path
          key={`${round(x)} ${round(y)}`}
          d={`M${round(x)} ${round(y)}h${round(w)}v${thick}h${-round(w)}z`}
        />
      ))}
      {qr && (
        <path
          class="label-code"
          transform={`translate(${round(qr.x)} ${round(qr.y)}) scale(${round(qr.moduleMm)})`}
          shape-rendering="crispEdges"
          d={qr.path}
        />
      )}
    </g>
  );
}

/** To the ten-thousandth of a mm. */
function round(mm: number): number {
  return Math.round(mm * 1e4) / 1e4;
}

/** One label by itself, as large as the screen allows, and what its size left no room for. */
export function LabelProof({ label, size }: { label: Label; size: Size }) {
  const { leftOff, qr } = layoutOf(label, nameWords(label.well), size, textWidth);
  const inCode = qr?.text === label.says.join('\n') ? ' The code holds it.' : '';
  return (
    <div>
      <figure
        class="label-proof"
        role="img"
        aria-label={`Label: ${label.says.length === 0 ? `${label.title}, to fill in by hand` : label.says.join('; ')}`}
      >
        <svg viewBox={`0 0 ${size.w} ${size.h}`}>
          <LabelDrawing label={label} size={size} />
        </svg>
      </figure>
      {leftOff.length > 0 && (
        <p class="doing">
          No room at this size for: {leftOff.join(', ')}.{inCode}
        </p>
      )}
    </div>
  );
}

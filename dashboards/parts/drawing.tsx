/** A drawing in plain data, as SVG on a page. */
import { createElement } from 'preact';
import type { Drawing, Shape } from '../../shared/drawing/shape.ts';

export function DrawingOf({ drawing, class: className }: { drawing: Drawing; class: string }) {
  const { width, height, label, shapes } = drawing;
  return (
    <svg class={className} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
      <ShapesOf shapes={shapes} />
    </svg>
  );
}

export function ShapesOf({ shapes }: { shapes: readonly Shape[] }) {
  return <>{shapes.map(({ is, attrs, text }, at) => createElement(is, { ...attrs, key: at }, text))}</>;
}

/** A drawing in plain data, as SVG on a page or in a file. */
import { createElement } from 'preact';
import type { Drawing, Shape } from '../drawing/shape.ts';

export function DrawingView({ drawing, class: className }: { drawing: Drawing; class: string }) {
  const { width, height, label, shapes } = drawing;
  return (
    <svg class={className} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
      <SvgShapes shapes={shapes} />
    </svg>
  );
}

export function SvgShapes({ shapes }: { shapes: readonly Shape[] }) {
  return (
    <>{shapes.map(({ element, attrs, text }, at) => createElement(element, { ...attrs, key: at }, text))}</>
  );
}

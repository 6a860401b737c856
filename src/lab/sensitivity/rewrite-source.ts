/**
 * Rewrites a source of the watches or of hydraulics for the engine that is tried
 * (./scaled-engine.ts): each threshold asks what it is to be, and where that is wanted each use of
 * one is told. A threshold that nobody used in a well cannot have decided anything there.
 */
import { parseSync } from 'oxc-parser';
import { constantIdOf, thresholdsIn } from './thresholds.ts';

interface Node {
  type: string;
  start: number;
  end: number;
  [key: string]: unknown;
}

interface Edit {
  start: number;
  end: number;
  text: string;
}

/** Puts `scaled("id", …)` around the value of each threshold. */
export function withScaled(file: string, source: string): string {
  return edited(
    source,
    thresholdsIn(file, source).map(({ id, start, end }) => ({
      start,
      end,
      text: `scaled(${JSON.stringify(id)}, ${source.slice(start, end)})`,
    })),
  );
}

/** Puts `(used("file NAME"), NAME)` where a threshold of this file is used. */
export function withUses(file: string, source: string): string {
  const ids = new Map(
    thresholdsIn(file, source).map((one) => {
      const id = constantIdOf(one.id);
      return [id.split(' ')[1]!, id];
    }),
  );
  const edits: Edit[] = [];
  const visit = (value: unknown, parent: Node | undefined): void => {
    if (Array.isArray(value)) for (const one of value) visit(one, parent);
    if (!isNode(value) || value.type.startsWith('TSType') || value.type.startsWith('Import')) return;
    const id = value.type === 'Identifier' ? ids.get(String(value['name'])) : undefined;
    if (id !== undefined && parent && isUse(value, parent)) edits.push(useOf(value, parent, id));
    for (const [name, child] of Object.entries(value)) {
      // Of `{ NAME }` key and value are one place.
      if (value.type === 'Property' && name === 'key' && value['computed'] !== true) continue;
      visit(child, value);
    }
  };
  visit(parseSync(file, source).program.body, undefined);
  return edited(source, edits);
}

function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && 'type' in value;
}

function isUse(node: Node, parent: Node): boolean {
  if (parent.type === 'ExportSpecifier') return false;
  if (parent.type === 'VariableDeclarator') return parent['id'] !== node;
  return parent.type !== 'MemberExpression' || parent['object'] === node || parent['computed'] === true;
}

function useOf({ start, end, name }: Node, parent: Node, id: string): Edit {
  const key = parent.type === 'Property' && parent['shorthand'] === true ? `${String(name)}: ` : '';
  return { start, end, text: `${key}(used(${JSON.stringify(id)}), ${String(name)})` };
}

function edited(source: string, edits: readonly Edit[]): string {
  let code = source;
  for (const { start, end, text } of edits.toSorted((a, b) => b.start - a.start))
    code = code.slice(0, start) + text + code.slice(end);
  return code;
}

/**
 * The named numbers that decide what is found: those of the watches and of hydraulics, as they
 * stand in their sources, each with the comment that argues it. Nothing is listed by hand, so none
 * is forgotten.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { parseSync } from 'oxc-parser';
import { unitOf } from './threshold-unit.ts';

export interface Threshold {
  /** `src/core/alarms/water/leak.ts MIN_DAYS`; of a table's entry `… STOCK_LIMIT.times`. */
  id: string;
  file: string;
  name: string;
  unit: string;
  /** The comment above it; empty where there is none. */
  comment: string;
  /** The first of the constants that the comment stands above, where that is another one. */
  commentOf?: string;
  /** Other files may use it. */
  isExported: boolean;
  /** Where its value's expression stands in the source. */
  start: number;
  end: number;
}

/** A node of the syntax tree, as far as it is read here. */
interface Node {
  type: string;
  start: number;
  end: number;
  [key: string]: unknown;
}

interface Comment {
  text: string;
  end: number;
}

const FOLDERS = ['src/core/alarms', 'src/core/hydraulics'];
const NAME = /^[A-Z][A-Z0-9_]*$/;
/** What converts units, scales numbers for the computer or puts things in order decides nothing. */
const NOT_THRESHOLDS: ReadonlySet<string> = new Set(['KPA_PER_PSI', 'NANO', 'MICRO', 'PRIORITY_RANK']);

/** Of the whole project, which lies at `top`, in the order of files and lines. */
export function findThresholds(top: string): Threshold[] {
  return FOLDERS.flatMap((folder) =>
    readdirSync(join(top, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .toSorted()
      .flatMap((name) => {
        const file = `${folder}/${name}`;
        return thresholdsIn(file, readFileSync(join(top, file), 'utf8'));
      }),
  );
}

/** Of one source text. A comment stands for all constants up to the next blank line or comment. */
export function thresholdsIn(file: string, source: string): Threshold[] {
  const { program, comments } = parseSync(file, source);
  const above = comments.map(({ value, end }) => ({ text: commentText(value), end }));
  const found: Threshold[] = [];
  let group: { comment: string; name: string; end: number } | undefined;
  for (const statement of program.body as unknown as Node[]) {
    const declared = constantOf(statement);
    if (!declared) continue;
    const own = commentAbove(above, source, statement.start);
    const isBelow = group !== undefined && isNextLine(source, group.end, statement.start);
    if (own !== undefined || !isBelow) group = { comment: own ?? '', name: declared.name, end: 0 };
    group!.end = statement.end;
    const { comment, name: first } = group!;
    for (const { name, node } of numbersOf(declared.name, declared.value)) {
      found.push({
        id: `${file} ${name}`,
        file,
        name,
        unit: unitOf(name),
        comment,
        isExported: statement.type === 'ExportNamedDeclaration',
        ...(comment !== '' && first !== declared.name && { commentOf: first }),
        start: node.start,
        end: node.end,
      });
    }
  }
  return found;
}

/**
 * The constant that a threshold is or is an entry of: `src/core/alarms/pump/no-run.ts STOCK_LIMIT`.
 */
export function constantIdOf(id: string): string {
  return id.replace(/(?<= \w+)\..*$/, '');
}

/** `const NAME = …;` at the top of a file, exported or not. */
function constantOf(statement: Node): { name: string; value: Node } | undefined {
  const declaration = (
    statement.type === 'ExportNamedDeclaration' ? statement['declaration'] : statement
  ) as Node | null;
  if (declaration?.type !== 'VariableDeclaration' || declaration['kind'] !== 'const') return undefined;
  const [{ id, init }] = declaration['declarations'] as [{ id: Node; init: Node | null }];
  const name = String(id['name']);
  if (!NAME.test(name) || NOT_THRESHOLDS.has(name) || init === null) return undefined;
  return { name, value: init };
}

/** The numbers of a constant: itself, or each entry of a table of plain names. */
function numbersOf(name: string, value: Node): { name: string; node: Node }[] {
  if (value.type === 'TSAsExpression' || value.type === 'TSSatisfiesExpression')
    return numbersOf(name, value['expression'] as Node);
  if (value.type === 'ObjectExpression')
    return (value['properties'] as Node[]).flatMap((property) => {
      const key = property['key'] as Node | undefined;
      if (property.type !== 'Property' || key?.type !== 'Identifier') return [];
      return numbersOf(`${name}.${String(key['name'])}`, property['value'] as Node);
    });
  return isNumeric(value) ? [{ name, node: value }] : [];
}

/** Written as a number, in terms of units, or of other constants. */
function isNumeric(node: Node): boolean {
  switch (node.type) {
    case 'Literal':
      return typeof node['value'] === 'number';
    case 'UnaryExpression':
      return node['operator'] === '-' && isNumeric(node['argument'] as Node);
    case 'BinaryExpression':
      return isNumeric(node['left'] as Node) && isNumeric(node['right'] as Node);
    case 'Identifier':
      return NAME.test(String(node['name']));
    case 'CallExpression':
      return (node['arguments'] as Node[]).length > 0 && (node['arguments'] as Node[]).every(isNumeric);
    default:
      return false;
  }
}

function commentText(value: string): string {
  return value
    .split('\n')
    .map((line) => line.replace(/^\s*\*? ?/, ''))
    .join(' ')
    .replaceAll(/\s+/g, ' ')
    .trim();
}

function commentAbove(comments: readonly Comment[], source: string, start: number): string | undefined {
  return comments.find(({ end }) => isNextLine(source, end, start))?.text;
}

/** Nothing but one line's end stands between the two places. */
function isNextLine(source: string, end: number, start: number): boolean {
  return (
    end < start &&
    /^;?\s*$/.test(source.slice(end, start)) &&
    source.slice(end, start).split('\n').length === 2
  );
}

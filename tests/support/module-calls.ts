/** What a module does while it loads, by its syntax tree: calls outside all functions. */
import { parseSync } from 'oxc-parser';

interface Node {
  type: string;
  start: number;
  [key: string]: unknown;
}

function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && 'type' in value;
}

const FUNCTIONS: ReadonlySet<string> = new Set([
  'ArrowFunctionExpression',
  'FunctionDeclaration',
  'FunctionExpression',
]);

/** All nodes; those in functions only with `inFunctions`. */
function* nodesOf(value: unknown, inFunctions: boolean): Generator<Node> {
  if (Array.isArray(value)) for (const one of value) yield* nodesOf(one, inFunctions);
  if (!isNode(value)) return;
  yield value;
  if (!inFunctions && FUNCTIONS.has(value.type)) return;
  // A field of an object is made with it; a static one with the class.
  if (!inFunctions && value.type === 'PropertyDefinition' && value['static'] !== true) return;
  if (!inFunctions && value.type === 'CallExpression' && isNode(value['callee'])) {
    const callee = withoutParentheses(value['callee']);
    if (FUNCTIONS.has(callee.type)) yield* nodesOf(callee['body'], false);
  }
  for (const child of Object.values(value)) yield* nodesOf(child, inFunctions);
}

function withoutParentheses(node: Node): Node {
  const inner = node['expression'];
  return node.type === 'ParenthesizedExpression' && isNode(inner) ? withoutParentheses(inner) : node;
}

function program(file: string, source: string): unknown {
  return parseSync(file, source).program.body;
}

function nameOf(value: unknown): string | undefined {
  return isNode(value) && typeof value['name'] === 'string' ? value['name'] : undefined;
}

/** Lines of calls of these names while the module loads. */
export function callsWhileLoading(file: string, source: string, names: ReadonlySet<string>): number[] {
  return [...nodesOf(program(file, source), false)]
    .filter((node) => node.type === 'CallExpression' && names.has(nameOf(node['callee']) ?? ''))
    .map(({ start }) => source.slice(0, start).split('\n').length);
}

/** Names that this module gives to accessors: `const texts = localized(…)`. */
export function accessorsIn(file: string, source: string): string[] {
  return [...nodesOf(program(file, source), false)].flatMap((node) => {
    const made = node['init'];
    const isAccessor =
      node.type === 'VariableDeclarator' &&
      isNode(made) &&
      made.type === 'CallExpression' &&
      nameOf(made['callee']) === 'localized';
    return isAccessor ? [nameOf(node['id']) ?? ''] : [];
  });
}

export interface ImportedName {
  from: string;
  name: string;
  as: string;
}

export function importsIn(file: string, source: string): ImportedName[] {
  return [...nodesOf(program(file, source), false)].flatMap((node) => {
    const [specifiers, origin] = [node['specifiers'], node['source']];
    if (node.type !== 'ImportDeclaration' || !Array.isArray(specifiers) || !isNode(origin)) return [];
    return specifiers.flatMap((one: unknown): ImportedName[] => {
      const as = isNode(one) ? nameOf(one['local']) : undefined;
      const name = isNode(one) ? nameOf(one['imported']) : undefined;
      return name === undefined || as === undefined ? [] : [{ from: String(origin['value']), name, as }];
    });
  });
}

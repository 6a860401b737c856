/**
 * Finds English that a person would read in a source file: text of JSX, strings of props, and
 * literals that look like words. What only a program reads (keys, classes, paths, names on the
 * wire) is told apart by where it stands and how it looks.
 */
import { parseSync } from 'oxc-parser';

export interface EnglishLiteral {
  line: number;
  text: string;
}

/** Where a literal stands in its source. Of a template, one of its pieces. */
export interface LiteralPlace {
  start: number;
  end: number;
  text: string;
}

/** What is told by the folder of a file. */
interface FileKind {
  errorsAreRead: boolean;
  isApi: boolean;
}

/** A node of the syntax tree, as far as it is looked at here. */
interface Node {
  type: string;
  start: number;
  end: number;
  [key: string]: unknown;
}

/** Props whose strings are for the browser. */
const TECHNICAL_PROPS: ReadonlySet<string> = new Set(
  (
    'accept aria-current part aria-describedby aria-hidden aria-labelledby aria-live autocapitalize autocomplete ' +
    'capture charset class content d download fill for href http-equiv id inputMode key lang list loading name page ' +
    'preserveAspectRatio rel role scope shape-rendering stroke target text-anchor transform type viewBox'
  ).split(' '),
);
/** What is thrown in the core and by shared code is a programmer's mistake. */
const BUILT_IN_ERRORS: ReadonlySet<string> = new Set(['Error', 'RangeError', 'TypeError']);
/** What JSON Schema, OpenAPI and the contract's tables say: documents for programmers. */
const DOCUMENTING_CALLS: ReadonlySet<string> = new Set(['describe', 'meta', 'special']);
/** Literals in these are types, modules or the other side of a comparison. */
const TECHNICAL_PARENTS: ReadonlySet<string> = new Set([
  'ImportDeclaration',
  'ImportExpression',
  'TSInterfaceDeclaration',
  'TSLiteralType',
  'TSTypeAliasDeclaration',
  'TSTypeAnnotation',
  'TSTypeParameterInstantiation',
]);

/** What a person reads in this file. `source` is TypeScript, with or without JSX. */
export function englishIn(file: string, source: string): EnglishLiteral[] {
  return englishNodes(file, source).map(({ start, text }) => ({
    line: source.slice(0, start).split('\n').length,
    text: text.trim(),
  }));
}

/** The same with their places, in their order. */
export function englishNodes(
  file: string,
  source: string,
  { of }: { of?: 'catalogue' | 'pages' } = {},
): LiteralPlace[] {
  const found: LiteralPlace[] = [];
  const kind = {
    errorsAreRead: /^src\/(cli|channels|mqtt)\//.test(file),
    isApi: file.startsWith('shared/api/'),
  };
  const visit = (value: unknown, parents: readonly Node[]): void => {
    if (Array.isArray(value)) for (const one of value) visit(one, parents);
    if (!isNode(value) || TECHNICAL_PARENTS.has(value.type)) return;
    if (isTechnical(value, parents.at(-1), kind)) return;
    const text = textOf(value);
    const parent = parents.at(-1);
    if (
      text !== undefined &&
      (isEnglish(text, value, parent) || (of !== undefined && isText(text, value, parents, of)))
    )
      found.push({ start: value.start, end: value.end, text });
    for (const [name, child] of Object.entries(value))
      if (!isCode(value, name)) visit(child, [...parents, value]);
  };
  visit(parseSync(file, source).program.body, []);
  return found.toSorted((a, b) => a.start - b.start);
}

/** Keys, and the labels of a switch: what stands under a label may be a text. */
function isCode({ type }: Node, child: string): boolean {
  return (type === 'Property' && child === 'key') || (type === 'SwitchCase' && child === 'test');
}

function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && 'type' in value;
}

/**
 * Keys of requests, comparisons, descriptions of shapes, and errors that only a developer reads.
 * What a command, a channel or a broker throws reaches its
 * user.
 */
function isTechnical(node: Node, parent: Node | undefined, { errorsAreRead, isApi }: FileKind): boolean {
  if (node.type === 'JSXAttribute') return isTechnicalProp(node);
  if (isSql(node)) return true;
  // Of a route, for OpenAPI.
  if (isApi && parent?.type === 'Property' && keyOf(parent) === 'summary') return true;
  if (parent?.type === 'BinaryExpression') return /^[!=]==?$/.test(String(parent['operator']));
  if (parent?.type !== 'CallExpression' && parent?.type !== 'NewExpression') return false;
  const callee = calleeName(parent);
  if (parent.type === 'NewExpression') return !errorsAreRead && BUILT_IN_ERRORS.has(String(callee));
  return DOCUMENTING_CALLS.has(String(callee)) || callee === 'useRequest';
}

/** A statement or a condition of the database, with all of its pieces. */
function isSql(node: Node): boolean {
  const { quasis } = node;
  const text = Array.isArray(quasis) ? quasis.filter(isNode).map(textOf).join(' ') : textOf(node);
  return (
    text !== undefined && /^\s*(SELECT|INSERT|UPDATE|DELETE|WITH RECURSIVE)\s|\s(WHERE|AND|IN) /.test(text)
  );
}

function isTechnicalProp(attribute: Node): boolean {
  const name = isNode(attribute['name']) ? attribute['name']['name'] : undefined;
  return typeof name === 'string' && TECHNICAL_PROPS.has(name);
}

function calleeName(call: Node): unknown {
  const { callee } = call;
  if (!isNode(callee)) return undefined;
  return isNode(callee['property']) ? callee['property']['name'] : callee['name'];
}

/** The text of a literal, of JSX or of one piece of a template. */
function textOf(node: Node): string | undefined {
  if (node.type === 'TemplateElement') {
    const { value } = node;
    return typeof value === 'object' && value !== null && 'cooked' in value
      ? String(value.cooked)
      : undefined;
  }
  const { value } = node;
  return (node.type === 'Literal' || node.type === 'JSXText') && typeof value === 'string'
    ? value
    : undefined;
}

/**
 * In the catalogue a single small word is a text, too: as a piece of a template and as the words of
 * a choice; in the files of pages also as a value. Names in lists and keys of tables are not.
 */
function isText(text: string, node: Node, parents: readonly Node[], of: 'catalogue' | 'pages'): boolean {
  const parent = parents.at(-1);
  if (!/\p{L}{2}/u.test(text) || parent?.type === 'MemberExpression') return false;
  if (node.type === 'TemplateElement' || isPieceOfTemplate(parents)) return true;
  if (parent?.type === 'CallExpression') return isCountedNoun(parent, 'formatCount', 'count', 'countText');
  if (parent?.type !== 'ArrayExpression') return of === 'pages';
  const { elements } = parent;
  if (keyOf(parents.at(-2)) === 'cautions') return false;
  return Array.isArray(elements) && elements.length === 2 && elements[1] === node;
}

/** "start" of formatCount(14, 'start'). */
function isCountedNoun(parent: Node | undefined, ...counters: readonly string[]): boolean {
  return parent?.type === 'CallExpression' && counters.includes(String(calleeName(parent)));
}

function keyOf(property: Node | undefined): unknown {
  return property?.type === 'Property' && isNode(property['key']) ? property['key']['name'] : undefined;
}

/** One of the words to choose from in the midst of a template. */
function isPieceOfTemplate(parents: readonly Node[]): boolean {
  const outer = parents.findLast(({ type }) => type !== 'ConditionalExpression');
  return parents.at(-1)?.type === 'ConditionalExpression' && outer?.type === 'TemplateLiteral';
}

function isEnglish(text: string, node: Node, parent: Node | undefined): boolean {
  if (!/\p{L}{2}/u.test(text)) return false;
  if (node.type === 'JSXText' || parent?.type === 'JSXAttribute' || isCountedNoun(parent, 'formatCount'))
    return true;
  // Two words, or one that begins or ends as a sentence does.
  return (
    /(^|[\s(“-])\p{L}[\p{Ll}’]+[,;:]? [(“]?\p{L}/u.test(text) ||
    /^\p{Lu}\p{Ll}+([ -]|$)/u.test(text) ||
    /^ \p{Ll}+( |$)|\p{Ll}[.!?] ?$/u.test(text)
  );
}

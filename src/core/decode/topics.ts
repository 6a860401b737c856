/**
 * Topics: `{root}/{node}/{what}` (contract, section 1). The root is a setting and may have levels
 * of its own; a node's name is 1 to 40 of `a-z 0-9 -`, so that it can never be mistaken for a
 * level, a wildcard or a channel.
 */
export const TOPIC_KINDS = ['hello', 'presence', 'readings', 'start', 'kept', 'ask'] as const;
export type TopicKind = (typeof TOPIC_KINDS)[number];

/** What nodes publish; the other two are ours. */
export const NODE_TOPIC_KINDS = [
  'hello',
  'presence',
  'readings',
  'start',
] as const satisfies readonly TopicKind[];

export const DEFAULT_ROOT = 'wells';

const KINDS = new Map<string, TopicKind>(TOPIC_KINDS.map((kind) => [kind, kind]));
const NODE_NAME = /^[a-z0-9-]{1,40}$/;

/** True for 1 to 40 of `a-z 0-9 -`. */
export function isNodeName(text: string): boolean {
  return NODE_NAME.test(text);
}

/** Node and kind of a topic under this root, or undefined where it is none of the contract's. */
export function parseTopic(root: string, topic: string): { node: string; kind: TopicKind } | undefined {
  if (!topic.startsWith(root) || topic.charCodeAt(root.length) !== 47) return undefined;
  const slash = topic.indexOf('/', root.length + 1);
  if (slash < 0) return undefined;
  const node = topic.slice(root.length + 1, slash);
  const kind = KINDS.get(topic.slice(slash + 1));
  return kind !== undefined && isNodeName(node) ? { node, kind } : undefined;
}

/**
 * Who may publish and listen to what on the built-in broker: a node to the four upper topics of its
 * own name and of those it speaks for, and from the two lower ones; nothing else (contract, section
 * 1). Everything that is not allowed here is denied.
 */
import { isNodeName, NODE_TOPIC_KINDS } from '../core/decode/topics.ts';
import { SERVER_TOPICS, type NodeTopic } from './broker.ts';

/** Who is at the other end of one connection. */
export interface Session {
  /** Absent for a local client that gave no credential. */
  user?: string;
  /** The node names it may speak for; `any` for local clients in the demo. */
  names: ReadonlySet<string> | 'any';
  /**
   * It may listen to everything under the root (recording, showing), and then publishes nothing.
   */
  listenOnly: boolean;
}

/**
 * The upper topic that this is, where the session may publish to it; undefined where it may not.
 */
export function mayPublish(root: string, session: Session, topic: string): NodeTopic | undefined {
  const kind = topicKind(root, session, topic);
  return NODE_TOPIC_KINDS.find((upper) => upper === kind);
}

/**
 * Local clients and listeners may ask for anything under the root; a node for `kept` and `ask` of
 * its names, without wildcards.
 */
export function maySubscribe(root: string, session: Session, filter: string): boolean {
  if (session.listenOnly || session.names === 'any') return filter.startsWith(`${root}/`);
  const kind = topicKind(root, session, filter);
  return SERVER_TOPICS.some((lower) => lower === kind);
}

/** `readings` of `wells/barn-north/readings`, where the session may use that name. */
function topicKind(root: string, session: Session, topic: string): string | undefined {
  if (!topic.startsWith(root) || topic.charCodeAt(root.length) !== 47 /* slash */) return undefined;
  const slash = topic.indexOf('/', root.length + 1);
  if (slash < 0) return undefined;
  const name = topic.slice(root.length + 1, slash);
  const allowed = session.names === 'any' ? isNodeName(name) : session.names.has(name);
  return allowed ? topic.slice(slash + 1) : undefined;
}

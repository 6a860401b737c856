/**
 * What the rest of the server sees of MQTT, whichever broker carries it: messages come in with how
 * they came, `kept`, `ask` and notices go out. Two implementations, one suite for both
 * (tests/contract/broker-suite.ts): ./built-in.ts and ./client.ts.
 */
import type { NODE_TOPIC_KINDS } from '../core/decode/topics.ts';

/** How one message came. */
export interface MessageInfo {
  /**
   * True for a copy that a broker held; a node that speaks just now is never `retained`. On
   * `readings` and `start`: refused.
   */
  retained: boolean;
  qos: 0 | 1 | 2;
  /** MQTT 5 content type, where the sender gave one. */
  contentType?: string;
  /**
   * Say that the message is safe on disk. Only with `acknowledge: 'after-commit'`, where the
   * sender's acknowledgement waits for it; calling it twice or after the connection went does
   * nothing.
   */
  acknowledge?: () => void;
}

/**
 * `nodeUser` is the credential's name where the broker is ours and knows it. Must not throw: what
 * it throws is our own fault.
 */
export type OnMessage = (topic: string, payload: Uint8Array, info: MessageInfo, nodeUser?: string) => void;

/**
 * `on-arrival` on arrival; `after-commit` once `MessageInfo.kept` is called, so that the broker
 * holds and repeats what we did not keep.
 */
export type AckMode = 'on-arrival' | 'after-commit';

export interface Broker {
  /**
   * Resolves when the broker has it; rejects with one clear sentence, at once where there is no
   * connection.
   */
  publish(
    topic: string,
    payload: string | Uint8Array,
    options: { qos: 0 | 1; retain: boolean },
  ): Promise<void>;
  /**
   * Takes no more messages, says goodbye, and resolves when nothing of it is left running. Wills
   * set off by it are not heard.
   */
  close(): Promise<void>;
  /**
   * Ends the connections that messages came over, without goodbye: with `after-commit` what was
   * taken but never kept comes again when they are made anew. Nothing else makes a broker send
   * again.
   */
  dropConnections(): void;
  /**
   * User names of the nodes connected just now; always empty for an outside broker, which does not
   * say.
   */
  connectedNodes(): string[];
}

export type NodeTopic = (typeof NODE_TOPIC_KINDS)[number];
/** The last topic levels that nodes may listen to (contract, section 1). */
export const SERVER_TOPICS = ['kept', 'ask'] as const;

/**
 * The one door of the wire: an MQTT message or a line of a recording becomes a pack, a hello, a
 * presence, or a refusal with its reason. Whatever the bytes are, it returns, in time that the
 * limits bound; nothing further in looks at shapes again.
 */
import { readHello } from './hello.ts';
import { MAX_PAYLOAD_BYTES } from './limits.ts';
import type { Message, Refusal } from './messages.ts';
import type { PackSource } from './wire-format.ts';
import { readPack } from './formats.ts';
import { readPresence } from './presence.ts';
import { isRefusal, refuse, formatValue } from './refuse.ts';
import { parseTopic } from './topics.ts';

export interface RawMessage {
  /** First part of the topics, `wells` by default. */
  root: string;
  topic: string;
  payload: Uint8Array;
  /** A copy that the broker had kept from before. */
  retained: boolean;
  /** When it came, Unix ms by our clock. */
  arrivalMs: number;
  /** MQTT 5 content type. */
  contentType?: string;
}

/** Reads any message. Never throws. */
export function readMessage(raw: RawMessage): Message {
  const parsedTopic = parseTopic(raw.root, raw.topic);
  if (parsedTopic === undefined) {
    return {
      is: 'refusal',
      refusal: refuse('unknown-topic', 'topics', { root: raw.root, topic: formatValue(raw.topic) }),
    };
  }
  const { node, kind } = parsedTopic;
  if (kind === 'kept' || kind === 'ask') return { is: 'from-server', node };
  if (raw.payload.length > MAX_PAYLOAD_BYTES) {
    return refusalOf(
      node,
      refuse('too-large', 'payload-too-large', { max: MAX_PAYLOAD_BYTES, bytes: raw.payload.length }),
    );
  }
  if (kind === 'hello') {
    const hello = readHello(node, raw.payload);
    return isRefusal(hello) ? refusalOf(node, hello) : { is: 'hello', hello, retained: raw.retained };
  }
  if (kind === 'presence') {
    const presence = readPresence(raw.payload);
    return typeof presence === 'object'
      ? refusalOf(node, presence)
      : { is: 'presence', node, presence, retained: raw.retained };
  }
  return readPackMessage(raw, { node, kind, bytes: raw.payload });
}

function readPackMessage(raw: RawMessage, source: PackSource): Message {
  if (raw.retained) {
    return refusalOf(source.node, refuse('retained', 'pack-retained'));
  }
  const pack = readPack(raw.contentType === undefined ? source : { ...source, contentType: raw.contentType });
  return isRefusal(pack) ? refusalOf(source.node, pack) : { is: 'pack', pack };
}

function refusalOf(node: string, refusal: Refusal): Message {
  return { is: 'refusal', refusal: { ...refusal, node } };
}

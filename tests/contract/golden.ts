/**
 * The golden messages of firmware-contract/ as the tests read them: bytes, what MQTT says beside them, and what must come of them.
 */
import { readFileSync } from 'node:fs';
import type { Message, PackColumn, RefusalReason } from '../../src/wire/messages.ts';
import type { RawMessage } from '../../src/wire/read-message.ts';

const FOLDER = new URL('../../firmware-contract/', import.meta.url);

interface Entry {
  file: string;
  topic: string;
  rule: string;
  retained?: boolean;
  contentType?: string;
}
export interface AcceptedEntry extends Entry {
  resolved: string;
}
export interface RefusedEntry extends Entry {
  reason: RefusalReason;
}

const ARRIVAL_MS = 1795600060000;

export const goldenIndex = JSON.parse(readFileSync(new URL('golden.json', FOLDER), 'utf8')) as {
  accepted: AcceptedEntry[];
  refused: RefusedEntry[];
};

export function goldenFile(name: string): Buffer {
  return readFileSync(new URL(name, FOLDER));
}

export function goldenMessage({ file, topic, retained, contentType }: Entry): RawMessage {
  const payload = new Uint8Array(goldenFile(file));
  return {
    root: 'wells',
    topic,
    payload,
    retained: retained === true,
    arrivalMs: ARRIVAL_MS,
    ...(contentType !== undefined && { contentType }),
  };
}

/** A message as the resolved files write it: no digest, lists for arrays, null for what is no number. */
export function plainMessage(message: Message): unknown {
  if (message.is !== 'pack') return message;
  const { digest: _digest, columns, ...rest } = message.pack;
  return { is: 'pack', pack: { ...rest, columns: columns.map(plainColumn) } };
}

function plainColumn({ channel, times, values, faults }: PackColumn): unknown {
  return {
    channel,
    times: [...times],
    values: Array.from(values, (value) => (Number.isNaN(value) ? null : value)),
    ...(faults && { faults: [...faults] }),
  };
}

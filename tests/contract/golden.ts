/**
 * The golden messages of firmware-contract/ as the tests read them: bytes, what MQTT says beside
 * them, and what must come of them.
 */
import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { REFUSALS } from '../../src/core/decode/messages.ts';
import type { Message, PackColumn } from '../../src/core/decode/messages.ts';
import type { RawMessage } from '../../src/core/decode/read-message.ts';

const FOLDER = new URL('../../firmware-contract/', import.meta.url);

const entryShape = z.object({
  file: z.string(),
  topic: z.string(),
  rule: z.string(),
  retained: z.boolean().exactOptional(),
  contentType: z.string().exactOptional(),
});
const indexShape = z.object({
  accepted: z.array(entryShape.extend({ resolved: z.string() })),
  refused: z.array(entryShape.extend({ reason: z.enum(REFUSALS) })),
});

const ARRIVAL_MS = 1795600060000;

export const goldenIndex = indexShape.parse(JSON.parse(readFileSync(new URL('golden.json', FOLDER), 'utf8')));

export function goldenFile(name: string): Buffer {
  return readFileSync(new URL(name, FOLDER));
}

export function goldenMessage({
  file,
  topic,
  retained,
  contentType,
}: z.infer<typeof entryShape>): RawMessage {
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

/**
 * A message as the resolved files write it: no digest, lists for arrays, null for what is no
 * number.
 */
export function plainMessage(message: Message): unknown {
  // The golden files call what the server itself publishes by the contract's word.
  if (message.is === 'from-server') return { ...message, is: 'own' };
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

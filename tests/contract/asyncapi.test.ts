/**
 * firmware-contract/asyncapi.yaml is a valid AsyncAPI 3 document, judged by the initiative's own
 * parser with its rules, and says of topics what the code says.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Parser } from '@asyncapi/parser';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { wireSchemas } from '../../src/core/decode/json-schemas.ts';
import { DEFAULT_ROOT, NODE_TOPIC_KINDS, TOPIC_KINDS } from '../../src/core/decode/topics.ts';

const FILE = fileURLToPath(new URL('../../firmware-contract/asyncapi.yaml', import.meta.url));

async function parsed(): ReturnType<Parser['parse']> {
  return await new Parser().parse(readFileSync(FILE, 'utf8'), { source: FILE });
}

test('asyncapi.yaml: the parser finds nothing to say against it but that 3.1 exists too', async () => {
  const { diagnostics, document } = await parsed();
  const said = diagnostics.filter(({ code }) => code !== 'asyncapi-latest-version');
  expect(said.map(({ message, path }) => `${path.join('.')}: ${message}`)).toEqual([]);
  expect(document?.version()).toBe('3.0.0');
});

test('asyncapi.yaml: its channels are the topics of the code, by direction', async () => {
  const { document } = await parsed();
  const channels = document!.channels().all();
  expect(new Set(channels.map((channel) => channel.address()))).toEqual(
    new Set(TOPIC_KINDS.map((kind) => `${DEFAULT_ROOT}/{node}/${kind}`)),
  );
  const sent = document!
    .operations()
    .filterBySend()
    .flatMap((operation) =>
      operation
        .channels()
        .all()
        .map((channel) => channel.id()),
    );
  expect(new Set(sent)).toEqual(new Set(NODE_TOPIC_KINDS));
});

test('asyncapi.yaml: each message carries its published schema', async () => {
  const { document } = await parsed();
  const titles = document!
    .allMessages()
    .all()
    .map((message) => schemaTitle(message.payload()?.json()));
  const published = new Set([...wireSchemas().keys()].map((name) => name.replace('.schema.json', '')));
  expect(new Set(titles)).toEqual(published);
});

const payloadShape = z.object({ schema: z.object({ title: z.string() }) });

function schemaTitle(payload: unknown): string {
  return payloadShape.parse(payload).schema.title;
}

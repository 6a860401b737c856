/** The lists of watches and of texts are those of the catalogue. After a change of it: `-u`. */
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';
import { expect, it } from 'vitest';
import { textIndex, watchIndex } from '../../support/alarm-indexes.ts';

it.each([
  ['src/core/alarms/watch-index.ts', watchIndex()],
  ['shared/text/en/alarms/text-index.ts', textIndex()],
])('%s', async (path, text) => {
  const file = fileURLToPath(new URL(`../../../${path}`, import.meta.url));
  const formatted = await format(text, { ...(await resolveConfig(file)), parser: 'typescript' });
  await expect(formatted).toMatchFileSnapshot(file);
});

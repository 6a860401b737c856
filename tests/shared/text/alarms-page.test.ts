/**
 * shared/text/en/ALARMS.md says what the words say. After a change of wording:
 * `npx vitest run … -u` writes it anew.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';
import { expect, test } from 'vitest';
import { ALARM_KINDS } from '../../../shared/text/en/alarms/kinds.ts';
import { CATALOGUE } from '../../../shared/alarms/catalogue.ts';
import { alarmsPage, prioritiesOf } from './alarms-page.ts';

const at = (path: string): string => fileURLToPath(new URL(`../../../${path}`, import.meta.url));
const contract = readFileSync(at('firmware-contract/contract.md'), 'utf8');

test('the page of all alarms is made of the words', async () => {
  const file = at('shared/text/en/ALARMS.md');
  const page = await format(alarmsPage(contract), {
    ...(await resolveConfig(file)),
    parser: 'markdown',
  });
  await expect(page).toMatchFileSnapshot(file);
});

test('the priorities of the contract are those of the code', () => {
  const priorities = prioritiesOf(contract);
  expect([...priorities.keys()].toSorted()).toEqual([...ALARM_KINDS].toSorted());
  for (const kind of ALARM_KINDS)
    expect([kind, priorities.get(kind)?.split(/[ ;]/)[0]]).toEqual([kind, CATALOGUE[kind].priority]);
});

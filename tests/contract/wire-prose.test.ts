/**
 * contract.md and README.md of firmware-contract/ say what the code does: the same reasons, bounds,
 * channels, alarms, causes and files.
 */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';
import { describe, expect, test } from 'vitest';
import { CYCLE_FLAGS } from '../../shared/api/events.ts';
import { ALARM_KINDS, CAUSES } from '../../shared/text/en/alarms/kinds.ts';
import { cardIssues } from '../../src/core/domain/read-card.ts';
import { BASE_CHANNELS, CHANNEL_UNITS } from '../../src/core/domain/channels.ts';
import { VALUE_BOUNDS } from '../../src/core/domain/channel-bounds.ts';
import { MAX_DEPTH, MAX_PAYLOAD_BYTES, MAX_RECORDS } from '../../src/core/decode/limits.ts';
import { REFUSALS } from '../../src/core/decode/messages.ts';
import { withFieldTables } from './field-tables.ts';

const TOP = new URL('../../', import.meta.url);
const prose = readFileSync(new URL('firmware-contract/contract.md', TOP), 'utf8');
const readme = readFileSync(new URL('firmware-contract/README.md', TOP), 'utf8');

/** The names in backticks in the first column of a section's tables. */
function firstColumn(heading: string): string[] {
  const from = prose.indexOf(heading);
  if (from < 0) throw new Error(`contract.md has no ${heading}`);
  const to = prose.indexOf('\n#', from + heading.length);
  const section = prose.slice(from, to < 0 ? undefined : to);
  const cells = section.matchAll(/^\| ([^|]+) \|/gm);
  return [...cells].flatMap(([, cell]) => [...cell!.matchAll(/`([^`]+)`/g)].map(([, name]) => name!));
}

describe('contract.md', () => {
  test('names every refusal and no other', () => {
    expect(new Set(firstColumn('## 7. Why'))).toEqual(new Set(REFUSALS));
  });

  test('names every channel with its unit', () => {
    expect(firstColumn('## 2. Readings')).toEqual(['n', ...BASE_CHANNELS]);
    for (const base of BASE_CHANNELS.filter((name) => CHANNEL_UNITS[name] !== '')) {
      expect(prose).toMatch(new RegExp(`^\\|[^|]*\`${base}\`[^|]*\\| \`${CHANNEL_UNITS[base]}\` +\\|`, 'm'));
    }
  });

  test('gives the bounds that are kept', () => {
    const values = prose.slice(prose.indexOf('### Values'), prose.indexOf('### Time'));
    const figure = (text: string): number =>
      Number(text.replace('−', '-').replaceAll(',', '').replace(/ M.*/, 'e6').replace(/ .*/, ''));
    for (const [base, { low, high }] of Object.entries(VALUE_BOUNDS)) {
      if (base === 'contact' || /-[23]$/.test(base)) continue;
      const row = new RegExp(`^\\| \`${base}\` +\\| ([^|]+?) +\\| ([^|]+?) +\\|$`, 'm').exec(values);
      expect([base, figure(row?.[1] ?? ''), figure(row?.[2] ?? '')]).toEqual([base, low, high]);
    }
  });

  test('gives the limits that are kept', () => {
    expect(prose).toContain(`1 to ${MAX_RECORDS.toLocaleString('en')} records`);
    expect(prose).toContain(`${MAX_PAYLOAD_BYTES / 1024} KiB (\`too-large\`)`);
    expect(prose).toContain(`nested ${MAX_DEPTH} deep at most`);
  });

  test('names every alarm, cause and flag', () => {
    expect(firstColumn('### Alarms').toSorted()).toEqual(ALARM_KINDS.toSorted());
    for (const cause of CAUSES) expect(prose.slice(prose.indexOf('### Causes'))).toContain(`\`${cause}\``);
    for (const flag of CYCLE_FLAGS) expect(prose).toContain(`\`${flag}\``);
  });
});

describe('contract.md, section 5', () => {
  const example = /```json\n([\s\S]*?)```/.exec(prose.slice(prose.indexOf('## 5. The card')))![1]!;

  test('shows a card that is read', () => {
    expect(cardIssues(JSON.parse(example))).toEqual([]);
  });

  test('has the tables of the fields that are read: `npx vitest run … -u` writes them anew', async () => {
    const file = fileURLToPath(new URL('firmware-contract/contract.md', TOP));
    const options = { ...(await resolveConfig(file)), parser: 'markdown' };
    await expect(await format(withFieldTables(prose), options)).toMatchFileSnapshot(file);
  });
});

test('README.md: every file that it names is there', () => {
  const files = [...readme.matchAll(/`((?:tests|accepted|refused)\/[^`]+\.[a-z]+)`/g)].map(
    ([, file]) => file!,
  );
  const missing = files.filter(
    (file) => !existsSync(new URL(file.startsWith('tests/') ? file : `firmware-contract/${file}`, TOP)),
  );
  expect(files.length).toBeGreaterThan(50);
  expect(missing).toEqual(['accepted/*.resolved.json']);
});

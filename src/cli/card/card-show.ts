/** `stillwell card list | show | history`. */
import { cardChanges } from '../../../shared/card/changes.ts';
import { fieldLabel, fieldOrder } from '../../../shared/card/fields.ts';
import { flatten } from '../../../shared/card/flat-card.ts';
import { comparisonText, switchComparisonText } from '../../../shared/text/en/checks/measured-text.ts';
import { EXIT, type Io } from '../command.ts';
import type { ServerApi } from '../server-api.ts';

export async function listCards(io: Io, api: ServerApi): Promise<number> {
  const [{ wells }, { cards }] = await Promise.all([api.get('wells'), api.get('cards')]);
  if (wells.length === 0)
    io.out('There is no well yet. Write one down: stillwell card set NAME timeZone=… --new');
  const longest = Math.max(...wells.map(({ well }) => well.length));
  for (const { well, site, uses, headline } of wells) {
    const card = cards.find((one) => one.well === well);
    const place = [site, uses.join(', ')].filter((part) => part !== undefined && part !== '').join('; ');
    io.out(
      `${well.padEnd(longest)}  ${changedWords(card?.atMs)}  ${headline.us}${place === '' ? '' : `  (${place})`}`,
    );
  }
  return EXIT.ok;
}

function changedWords(atMs: number | undefined): string {
  return atMs === undefined ? 'no card yet       ' : `card of ${new Date(atMs).toISOString().slice(0, 10)}`;
}

export async function showCard(io: Io, api: ServerApi, well: string): Promise<number> {
  const { card, atMs, by, questions, measured } = await api.get('card', { well });
  const { well: _well, ...flat } = flatten(card);
  const keys = Object.keys(flat).sort((a, b) => fieldOrder(a) - fieldOrder(b) || (a < b ? -1 : 1));
  const longest = Math.max(...keys.map((key) => key.length));
  io.out(
    `${well}${atMs === undefined ? ', no card yet' : `, changed ${when(atMs)}${by === undefined ? '' : ` by ${by}`}`}`,
  );
  for (const key of keys) io.out(`  ${key.padEnd(longest)}  ${flat[key]}`);
  const points = switchComparisonText(measured, 'us');
  const each = measured.filter(({ key }) => points === undefined || !/^switch\.cut(In|Out)$/.test(key));
  if (measured.length > 0) io.out('\nWritten and measured');
  if (points !== undefined) io.out(`  switch  ${points}`);
  for (const one of each)
    io.out(`  ${one.key}  ${comparisonText(one, 'us')}${one.differs === true ? '; they differ' : ''}`);
  if (questions.length > 0) io.out('\nIs this right?');
  for (const { key, question } of questions) io.out(`  ${key}  ${question}`);
  return EXIT.ok;
}

export async function showHistory(io: Io, api: ServerApi, well: string): Promise<number> {
  const { acts } = await api.get('wellActs', { well });
  const changes = cardChanges(acts);
  if (changes.length === 0) io.out(`Nobody has written a card of ${well} yet.`);
  for (const { atMs, by, first, changes: fields } of changes) {
    io.out(`${when(atMs)}  ${by ?? 'nobody gave a name'}${first ? ', the first card' : ''}`);
    for (const { key, before, after } of fields)
      io.out(`  ${fieldLabel(key)}: ${before === undefined ? '' : `${before} -> `}${after ?? 'taken out'}`);
  }
  return EXIT.ok;
}

function when(atMs: number): string {
  return `${new Date(atMs).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
}

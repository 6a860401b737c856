/** `stillwell card list | show | history`. */
import { cardChanges } from '../../../shared/card/changes.ts';
import { fieldLabel, fieldOrder } from '../../../shared/card/fields.ts';
import { flatten } from '../../../shared/card/flat-card.ts';
import { comparisonText, switchComparisonText } from '../../../shared/text/en/checks/measured-text.ts';
import { USE_WORDS } from '../../../shared/text/en/logbook/uses.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import { EXIT, type Io } from '../command.ts';
import type { ServerApi } from '../server-api.ts';
import { utcMoment } from '../utc-moment.ts';
import { texts } from './texts.ts';

interface WellParams {
  well: string;
  json: boolean;
}

export async function listCards(io: Io, api: ServerApi, json: boolean): Promise<number> {
  const [{ wells }, { cards }] = await Promise.all([api.get('wells'), api.get('cards')]);
  if (json) {
    for (const one of cards) io.out(JSON.stringify(one));
    return EXIT.ok;
  }
  if (wells.length === 0) io.out(texts().thereIsNoWellYet);
  const longest = Math.max(...wells.map(({ well }) => well.length));
  for (const { well, site, uses, headline } of wells) {
    const card = cards.find((one) => one.well === well);
    const place = [site, uses.map((use) => USE_WORDS[use]).join(', ')]
      .filter((part) => part !== undefined && part !== '')
      .join('; ');
    io.out(
      `${well.padEnd(longest)}  ${changedWords(card?.atMs).padEnd(18)}  ${headline.us}${place === '' ? '' : `  (${place})`}`,
    );
  }
  return EXIT.ok;
}

function changedWords(atMs: number | undefined): string {
  return atMs === undefined ? texts().noCardYet : texts().cardOf(new Date(atMs).toISOString().slice(0, 10));
}

export async function showCard(io: Io, api: ServerApi, { well, json }: WellParams): Promise<number> {
  const answer = await api.get('card', { well });
  if (json) io.out(JSON.stringify(answer));
  else for (const line of cardLines(well, answer)) io.out(line);
  return EXIT.ok;
}

function cardLines(well: string, { card, atMs, by, questions, measured }: Answer<'card'>): string[] {
  const { well: _well, ...flat } = flatten(card);
  const keys = Object.keys(flat).sort((a, b) => fieldOrder(a) - fieldOrder(b) || (a < b ? -1 : 1));
  const longest = Math.max(...keys.map((key) => key.length));
  const points = switchComparisonText(measured, 'us');
  const each = measured.filter(({ key }) => points === undefined || !/^switch\.cut(In|Out)$/.test(key));
  return [
    cardHeading(well, atMs, by),
    ...keys.map((key) => `  ${key.padEnd(longest)}  ${flat[key]}`),
    ...(measured.length > 0 ? [texts().onTheCardAndMeasured] : []),
    ...(points === undefined ? [] : [`  ${texts().switch}  ${points}`]),
    ...each.map(
      (one) =>
        `  ${one.key}  ${one.differs === true ? texts().theyDiffer(comparisonText(one, 'us')) : comparisonText(one, 'us')}`,
    ),
    ...(questions.length > 0 ? [texts().isThisRightHeading] : []),
    ...questions.map(({ key, question }) => `  ${key}  ${question}`),
  ];
}

function cardHeading(well: string, atMs: number | undefined, by: string | undefined): string {
  if (atMs === undefined) return texts().andNoCardYet(well);
  return texts().changed({ well, moment: utcMoment(atMs), by });
}

export async function showHistory(io: Io, api: ServerApi, { well, json }: WellParams): Promise<number> {
  const { acts } = await api.get('wellActs', { well });
  const changes = cardChanges(acts);
  if (json) {
    for (const change of changes) io.out(JSON.stringify(change));
    return EXIT.ok;
  }
  if (changes.length === 0) io.out(texts().hasNoCardYet(well));
  for (const { atMs, by, first, changes: fields } of changes) {
    io.out(
      `${utcMoment(atMs)}  ${first ? texts().firstCard(by ?? texts().noNameGiven) : (by ?? texts().noNameGiven)}`,
    );
    for (const { key, before, after } of fields)
      io.out(
        `  ${fieldLabel(key)}: ${before === undefined ? '' : `${before} -> `}${after ?? texts().removed}`,
      );
  }
  return EXIT.ok;
}

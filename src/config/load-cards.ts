/**
 * The card files that the settings name: each file of `cards`, and every .json in `cardsDir`. A
 * card that cannot be used stops the start with one line, because a well watched by half a card is
 * told the wrong thing; two cards of one well do so too.
 */
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Card } from '../core/domain/card.ts';
import { readCard } from '../core/domain/read-card.ts';
import { FALSE_ALARMS_PER_YEAR, MAX_FILE_BYTES } from './limits.ts';
import { SettingsError } from './settings.ts';
import type { Settings } from './settings.ts';
import { texts } from '../settings-texts.ts';

export interface LoadedCard {
  card: Card;
  /** As written, for the act that puts it into the well's record. */
  json: unknown;
  path: string;
}

/**
 * All cards, in the order of their names' files. What the settings say of false alarms becomes a
 * part of each card that says nothing of them: a card is an input with a time, so that a recording
 * of the well holds by which budget it was watched.
 * @throws SettingsError with the file, the key, the rule and the value.
 */
export function loadCards({
  cards,
  cardsDir,
  falseAlarmsPerYear,
}: Pick<Settings, 'cards' | 'cardsDir' | 'falseAlarmsPerYear'>): LoadedCard[] {
  const paths = [...cards, ...(cardsDir === undefined ? [] : filesIn(cardsDir))];
  const loaded = paths.map((path) => loadCard(path, falseAlarmsPerYear));
  loaded.forEach(({ card, path }, at) => {
    const first = loaded.findIndex((other) => other.card.well === card.well);
    if (first !== at) {
      throw new SettingsError(
        texts().wellMustHaveOneCard({ path, otherPath: loaded[first]!.path, well: card.well }),
      );
    }
  });
  return loaded;
}

function filesIn(folder: string): string[] {
  try {
    return readdirSync(folder)
      .filter((name) => name.endsWith('.json'))
      .sort()
      .map((name) => join(folder, name));
  } catch (cause) {
    throw new SettingsError(texts().cardsdirMustBeAFolder(JSON.stringify(folder)), { cause });
  }
}

function loadCard(path: string, falseAlarmsPerYear: number): LoadedCard {
  const json = withFalseAlarmBudget(readJsonFile(path), falseAlarmsPerYear);
  const read = readCard(json);
  if ('problem' in read)
    throw new SettingsError(read.problem.replace(texts().cannotReadCard, texts().cannotReadCardAt(path)));
  return { card: read.card, json, path };
}

/**
 * Where the settings have the usual number the card stays as it was written: it would say nothing
 * new.
 */
function withFalseAlarmBudget(json: unknown, falseAlarmsPerYear: number): unknown {
  if (falseAlarmsPerYear === FALSE_ALARMS_PER_YEAR.default) return json;
  if (typeof json !== 'object' || json === null || Array.isArray(json)) return json;
  return { falseAlarmsPerYear, ...json };
}

function readJsonFile(path: string): unknown {
  try {
    if (statSync(path).size > MAX_FILE_BYTES)
      throw new RangeError(texts().itIsLargerThanBytes(MAX_FILE_BYTES));
    return JSON.parse(readFileSync(path, 'utf8').replace(/^\uFEFF/, ''));
  } catch (cause) {
    const reason = cause instanceof Error ? cause.message.split('\n')[0]! : texts().noReasonGiven;
    throw new SettingsError(texts().fileMustBeThere({ path, reason }), {
      cause,
    });
  }
}

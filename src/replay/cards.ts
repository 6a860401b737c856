/** The `--card` options of a replay: files that say what is known of each well, one a well. */
import { existsSync, readFileSync } from 'node:fs';
import { systemReason } from '../../shared/text/en/system-reasons.ts';
import type { Card } from '../core/domain/card.ts';
import { readCard } from '../core/domain/read-card.ts';
import { isNodeName } from '../core/decode/topics.ts';
import { withDefaultNode } from '../core/fleet/read-table.ts';
import { texts } from './texts.ts';

export interface CardOptions {
  cards: Card[];
  /** Well -> the node that it reads by default, where that has another name. */
  defaultNodes: Map<string, string>;
}

/** Reads `CARD.json` and `NODE=CARD.json`. The problem is one line that names the file. */
export function readCards(options: readonly string[]): CardOptions | { problem: string } {
  const cards: Card[] = [];
  const readsBy = new Map<string, string>();
  for (const option of options) {
    const { node, file } = splitOption(option);
    const read = readCardFile(file);
    if ('problem' in read) return read;
    const { card } = read;
    if (cards.some((other) => other.well === card.well)) {
      return { problem: texts().wellHasACardAlready({ file, well: card.well }) };
    }
    if (node !== undefined) readsBy.set(card.well, node);
    cards.push(node === undefined ? card : withDefaultNode(card, node));
  }
  return { cards, defaultNodes: readsBy };
}

/** A file whose own name has a `=` in it is taken as a file. */
function splitOption(option: string): { node?: string; file: string } {
  const cut = option.indexOf('=');
  const node = option.slice(0, Math.max(cut, 0));
  if (!isNodeName(node) || existsSync(option)) return { file: option };
  return { node, file: option.slice(cut + 1) };
}

function readCardFile(file: string): { card: Card } | { problem: string } {
  let json: unknown;
  try {
    json = JSON.parse(readFileSync(file, 'utf8').replace(/^\uFEFF/, ''));
  } catch (error) {
    const words = error instanceof Error ? error.message.split('\n')[0]! : String(error);
    const why = systemReason(error) ?? words;
    return { problem: texts().cannotReadTheCard({ file, why }) };
  }
  const read = readCard(json);
  return 'problem' in read ? { problem: `${file}: ${read.problem}` } : read;
}

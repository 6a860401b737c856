/**
 * `reads` of a card: where each channel of the well comes from. One object of rules that hold for ever, or a list of such, each with
 * `since`, for a node that was replaced (contract, section 5).
 */
import type { PumpCard, ReadRule } from './card.ts';
import { channelCode, channelUnit } from './channels.ts';
import { isName, lookInto, momentAt, note, valueOf } from './look.ts';
import type { Look } from './look.ts';

/** A card lives for decades and a node for years; a hundred changes are past both. */
const MOST_CHANGES = 100;

/** Rules sorted by channel, then `sinceMs`; problems are noted in `card`. */
export function readReads(card: Look, pumps: readonly PumpCard[]): ReadRule[] {
  const value = valueOf(card, 'reads');
  if (value === undefined) return [];
  const rules = Array.isArray(value) ? readList(card, value, pumps) : readOne(card, pumps);
  rules.sort((a, b) => (a.channel < b.channel ? -1 : a.channel > b.channel ? 1 : a.sinceMs - b.sinceMs));
  rules.forEach((rule, at) => {
    const before = rules[at - 1];
    if (before?.channel === rule.channel && before.sinceMs === rule.sinceMs) {
      note(card, 'reads', `must say once from when ${rule.channel} is read: two rules begin together`);
    }
  });
  return rules;
}

function readOne(card: Look, pumps: readonly PumpCard[]): ReadRule[] {
  const look = lookInto(card, 'reads', undefined);
  return look ? readRulesOf(look, 0, pumps) : [];
}

function readList(card: Look, list: unknown[], pumps: readonly PumpCard[]): ReadRule[] {
  if (list.length > MOST_CHANGES) {
    note(card, 'reads', `must be a list of at most ${MOST_CHANGES}`, String(list.length));
    return [];
  }
  const holder: Look = {
    path: 'reads.',
    holds: Object.fromEntries(list.entries()),
    problems: card.problems,
  };
  return list.flatMap((_entry, at) => {
    const look = lookInto(holder, String(at), undefined);
    return look ? readRulesOf(look, momentAt(look, 'since') ?? 0, pumps, true) : [];
  });
}

function readRulesOf(look: Look, sinceMs: number, pumps: readonly PumpCard[], dated = false): ReadRule[] {
  const channels = Object.keys(look.holds).filter((key) => !(dated && key === 'since'));
  return channels.flatMap((channel) => readRule(look, channel, sinceMs, pumps));
}

function readRule(look: Look, channel: string, sinceMs: number, pumps: readonly PumpCard[]): ReadRule[] {
  const code = channelCode(channel);
  if (code === undefined) {
    note(look, channel, 'is no channel of a well (such as current, p2/current, pressure)');
    return [];
  }
  if (code >> 4 >= pumps.length) {
    note(look, channel, `must belong to a pump of this card, and it has ${pumps.length}`);
    return [];
  }
  const source = valueOf(look, channel);
  const cut = typeof source === 'string' ? source.indexOf(':') : -1;
  const node = typeof source === 'string' ? source.slice(0, Math.max(cut, 0)) : '';
  const from = typeof source === 'string' ? source.slice(cut + 1) : '';
  if (!isName(node) || channelCode(from) === undefined) {
    note(look, channel, 'must be a node and its channel (such as "panel-a:p2/current")');
    return [];
  }
  if (channelUnit(from) !== channelUnit(channel)) {
    note(look, channel, `must be fed by a channel of its own unit, and ${from} has another`);
    return [];
  }
  return [{ channel, node, from, sinceMs }];
}

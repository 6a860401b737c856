/**
 * `reads` of a card: where each channel of the well comes from. One object of rules that hold for
 * ever, or a list of such, each with `since`, for a node that was replaced (contract, section 5).
 */
import type { PumpCard, SourceRule } from './card.ts';
import { channelCode, channelUnit, pumpOf } from './channels.ts';
import { isName, childContext, momentAt, addIssue, fieldValue } from './parse-context.ts';
import type { ParseContext } from './parse-context.ts';
import { texts } from './texts.ts';

/** A card lives for decades and a node for years; a hundred changes are past both. */
const MAX_SOURCE_CHANGES = 100;

/** Rules sorted by channel, then `sinceMs`; problems are noted in `card`. */
export function readSources(card: ParseContext, pumps: readonly PumpCard[]): SourceRule[] {
  const value = fieldValue(card, 'reads');
  if (value === undefined) return [];
  const rules = Array.isArray(value) ? readList(card, value, pumps) : readSingle(card, pumps);
  rules.sort((a, b) => (a.channel < b.channel ? -1 : a.channel > b.channel ? 1 : a.sinceMs - b.sinceMs));
  rules.forEach((rule, at) => {
    const before = rules[at - 1];
    if (before?.channel === rule.channel && before.sinceMs === rule.sinceMs) {
      addIssue(card, 'reads', texts().mustSayOnce(rule.channel));
    }
  });
  return rules;
}

function readSingle(card: ParseContext, pumps: readonly PumpCard[]): SourceRule[] {
  const context = childContext(card, 'reads', undefined);
  return context ? readRules(context, 0, pumps) : [];
}

function readList(card: ParseContext, list: unknown[], pumps: readonly PumpCard[]): SourceRule[] {
  if (list.length > MAX_SOURCE_CHANGES) {
    addIssue(card, 'reads', texts().mustBeAListOfAtMost(MAX_SOURCE_CHANGES), String(list.length));
    return [];
  }
  const holder: ParseContext = {
    path: 'reads.',
    fields: Object.fromEntries(list.entries()),
    issues: card.issues,
  };
  return list.flatMap((_entry, at) => {
    const context = childContext(holder, String(at), undefined);
    return context ? readRules(context, momentAt(context, 'since') ?? 0, pumps, true) : [];
  });
}

function readRules(
  context: ParseContext,
  sinceMs: number,
  pumps: readonly PumpCard[],
  dated = false,
): SourceRule[] {
  const channels = Object.keys(context.fields).filter((key) => !(dated && key === 'since'));
  return channels.flatMap((channel) => readRule(context, channel, sinceMs, pumps));
}

function readRule(
  context: ParseContext,
  channel: string,
  sinceMs: number,
  pumps: readonly PumpCard[],
): SourceRule[] {
  const code = channelCode(channel);
  if (code === undefined) {
    addIssue(context, channel, texts().isNoChannel);
    return [];
  }
  if (pumpOf(code) >= pumps.length) {
    addIssue(context, channel, texts().mustBeOfAPumpOfTheCard(pumps.length));
    return [];
  }
  const source = fieldValue(context, channel);
  const colon = typeof source === 'string' ? source.indexOf(':') : -1;
  const node = typeof source === 'string' ? source.slice(0, Math.max(colon, 0)) : '';
  const nodeChannel = typeof source === 'string' ? source.slice(colon + 1) : '';
  if (!isName(node) || channelCode(nodeChannel) === undefined) {
    addIssue(context, channel, texts().mustBeANodeAndChannel);
    return [];
  }
  if (channelUnit(nodeChannel) !== channelUnit(channel)) {
    addIssue(context, channel, texts().mustBeOfTheSameUnit(nodeChannel));
    return [];
  }
  return [{ channel, node, nodeChannel, sinceMs }];
}

/**
 * A card as people write it (contract, section 5) -> a checked card in SI. An unknown key, a wrong
 * unit or an impossible value is refused with its key, its rule and its value; what is odd but
 * possible is kept and asked about (./questions.ts). What is left out stays out. The fields are
 * those of the table (shared/card/card-fields.ts); here stand the rules between them.
 */
import { CARD, keysIn, SWITCH, TANK } from '../../../shared/card/card-fields.ts';
import type { Card, SwitchCard, TankCard } from './card.ts';
import { addIssue, childContext, fieldValue, formatFirstIssue, rootContext } from './parse-context.ts';
import type { ParseContext, ParseIssue } from './parse-context.ts';
import { readDescription } from './read-description.ts';
import { readFields } from './read-fields.ts';
import { pumpContexts, readPump } from './read-pumps.ts';
import { texts } from './texts.ts';
import { readSources } from './read-sources.ts';

/** The card, or one line that names the key, the rule and the value. Never throws. */
export function readCard(json: unknown): { card: Card } | { problem: string } {
  const { context, card } = parseCard(json);
  const problem = formatFirstIssue(context, 'card');
  return problem === undefined ? { card } : { problem };
}

/**
 * All that is wrong with a card, each with its key: for a form, which shows every reason at its
 * field.
 */
export function cardIssues(json: unknown): readonly ParseIssue[] {
  return parseCard(json).context.issues;
}

/** The card counts only where nothing was noted. */
function parseCard(json: unknown): { context: ParseContext; card: Card } {
  const context = rootContext(json, keysIn(''));
  const { timeZone, altitudeM, use, ...own } = readFields(context, CARD);
  const holders = pumpContexts(context);
  const pumps = holders.map(readPump);
  const tankContext = childContext(context, 'tank', keysIn('tank'));
  const tank = tankContext && readTank(tankContext);
  const description = readDescription(context, { pumps: holders, tank: tankContext });
  const card: Card = {
    ...own,
    timeZone: timeZone ?? 'UTC',
    altitudeM: altitudeM ?? 0,
    altitudeKnown: altitudeM !== undefined,
    uses: use ?? [],
    pumps,
    switch: readSwitch(context),
    ...(tank && { tank }),
    reads: readSources(context, pumps),
    ...(description && { description }),
  };
  return { context, card };
}

/**
 * The card of a well that nobody wrote one for: a node is a well of its own name with one pump
 * (contract, introduction).
 */
export function defaultCardForNode(node: string): Card {
  return {
    well: node,
    timeZone: 'UTC',
    altitudeM: 0,
    altitudeKnown: false,
    uses: [],
    pumps: [{ id: 'p1', control: 'pressure-switch' }],
    switch: {},
    reads: [],
  };
}

/**
 * A switch is called by its points, and often nothing more is known of it: `"40/60"` alone is one.
 */
function readSwitch(card: ParseContext): SwitchCard {
  const byName = typeof fieldValue(card, 'switch') === 'string';
  if (byName) return readFields(card, { switch: SWITCH.points }).switch ?? {};
  const context = childContext(card, 'switch', keysIn('switch'));
  if (!context) return {};
  const { points, ...written } = readFields(context, SWITCH);
  const named = fieldValue(context, 'points') !== undefined;
  for (const key of ['cutIn', 'cutOut'])
    if (named && fieldValue(context, key) !== undefined)
      addIssue(context, key, texts().mustNotStandBesidePoints);
  const values: SwitchCard = { ...written, ...points };
  requireBelow(context, ['cutIn', values.cutInKpa], ['cutOut', values.cutOutKpa]);
  requireBelow(context, ['lowCutOff', values.lowCutOffKpa], [named ? 'points' : 'cutIn', values.cutInKpa]);
  if (!named) requireBelow(context, ['lowCutOff', values.lowCutOffKpa], ['cutOut', values.cutOutKpa]);
  return values;
}

/**
 * A switch that opens at or under the pressure at which it closes cannot be: the pump would never
 * rest, or never run.
 */
function requireBelow(
  context: ParseContext,
  low: [string, number | undefined],
  high: [string, number | undefined],
): void {
  if (low[1] === undefined || high[1] === undefined || low[1] < high[1]) return;
  addIssue(
    context,
    low[0],
    texts().mustBeBelow(`${context.path}${high[0]}`),
    `${String(fieldValue(context, low[0]))}, ${String(fieldValue(context, high[0]))}`,
  );
}

/**
 * A tank with a volume or an air charge is taken for a captive-air one: plain tanks are rare and
 * their owners say so.
 */
function readTank(context: ParseContext): TankCard | undefined {
  const { kind, ...written } = readFields(context, TANK);
  if (kind === undefined && Object.keys(written).length === 0) return undefined;
  return { kind: kind ?? 'captive-air', ...written };
}

/**
 * Every notice in a language that nobody speaks (tests/support/pseudo-locale.ts): each alarm with
 * each reason, each change of it, to each channel, in both systems of units. What is left outside
 * the marks of the catalogue must be data.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { ViteDevServer } from 'vite';
import type { AlarmEvent } from '../../shared/api/events.ts';
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import type { CardNames } from '../../shared/text/en/card-names.ts';
import { ALARM_FORMS, ALARM_KINDS, CAUSES, type AlarmKind } from '../../shared/text/en/alarms/kinds.ts';
import { FORM_EVIDENCE } from '../../shared/alarms/form-evidence.ts';
import { TEXT_OF } from '../../shared/text/en/alarms/text-index.ts';
import { FIGURE_NAMES, FIGURE_VALUES } from '../../shared/text/en/figure-names.ts';
import { CHANNELS } from '../../src/channels/channels.ts';
import type * as SenderModule from '../../src/channels/sender.ts';
import type { AlarmChange } from '../../src/core/notify/decide-notices.ts';
import type * as DecideModule from '../../src/core/notify/decide-notices.ts';
import type { NoticeRow } from '../../src/core/notify/notice-row.ts';
import type * as TestNoticeModule from '../../src/core/notify/test-notice.ts';
import { alarm, NOW_MS, person, raised, siteSilent } from '../core/notify/support.ts';
import { REASON_FIGURES } from '../support/alarm-reasons.ts';
import { openPseudoModules, withoutMarked } from '../support/pseudo-locale.ts';

let modules: ViteDevServer;
let decide: typeof DecideModule;
let sender: typeof SenderModule;
let testNotices: typeof TestNoticeModule;
beforeAll(async () => {
  modules = await openPseudoModules();
  const load = async (file: string): Promise<unknown> => await modules.ssrLoadModule(file);
  /* oxlint-disable typescript/no-unsafe-type-assertion */
  decide = (await load('/src/core/notify/decide-notices.ts')) as typeof DecideModule;
  sender = (await load('/src/channels/sender.ts')) as typeof SenderModule;
  testNotices = (await load('/src/core/notify/test-notice.ts')) as typeof TestNoticeModule;
  /* oxlint-enable typescript/no-unsafe-type-assertion */
}, 60_000);
afterAll(() => modules.close());

const CARD: CardNames = {
  firm: 'Firmname 555-0142',
  breaker: '14/16',
  panel: 'Panelname',
  shutOff: 'Valvename',
};

/** Words that are no text of a notice, each list with its reason. */
const DATA: readonly (readonly [reason: string, words: string])[] = [
  ['the program', 'Stillwell'],
  ['what a card says', 'Firmname Panelname Valvename'],
  ['wells, sites, people, nodes and channels', 'north paddock home farm anna pressure current'],
  ['symbols of units', 'psi gal gpm ft hp min kPa kW ohm day days'],
  ['names of priorities in the settings', 'now soon note'],
  ['weekdays and months as Intl writes them', 'Thu April am pm'],
  ['a list as Intl joins it', 'and'],
];
const ALLOWED = new Set(DATA.flatMap(([, words]) => words.split(' ')));

/** The words that somebody gets: by mail the subject and the text, elsewhere what the JSON says. */
function left(notice: NoticeRow): string[] {
  const { subject, text, reason = '', event } = sender.noticePayload(notice);
  const why = typeof event === 'object' && event !== null && 'why' in event ? event.why : '';
  return [subject, text, reason, why].flatMap((one) =>
    (withoutMarked(String(one)).match(/\p{L}[\p{L}’]+/gu) ?? [])
      .filter((word) => !ALLOWED.has(word))
      .map((word) => `${word} | ${String(one).slice(0, 300)}`),
  );
}

/** All notices that a change brings to one person by every channel, with and without card names. */
function noticesOf(change: AlarmChange): NoticeRow[] {
  const recipient = person('anna', { priorities: ['now', 'soon', 'note'], channels: Object.keys(CHANNELS) });
  return (['us', 'metric'] satisfies UnitSystem[]).flatMap((units) =>
    [undefined, CARD].flatMap((names) =>
      decide
        .decideNotices(change, {
          recipients: [recipient],
          nowMs: NOW_MS,
          units,
          timeZone: 'America/Denver',
          ...(names && { names }),
        })
        .flatMap((decision) => ('row' in decision ? [decision.row] : [])),
    ),
  );
}

function eventsOf(kind: AlarmKind): AlarmEvent[] {
  const figures: Readonly<Record<string, readonly object[]>> = REASON_FIGURES;
  return Object.keys(TEXT_OF[kind].reasons).flatMap((reason) => {
    const rows = figures[reason] ?? [];
    expect(rows, reason).not.toEqual([]);
    const { why: _why, ...event } = raised({ alarm: kind, evidence: {} });
    return rows.map((one) => ({ ...event, reason, figures: { ...one } }));
  });
}

const leftOf = (change: AlarmChange): string[] => [...new Set(noticesOf(change).flatMap(left))];

test.each(ALARM_KINDS)('%s, each reason of it', (kind) => {
  const found = eventsOf(kind).flatMap((event) => {
    const change = { after: alarm(event), event };
    expect(noticesOf(change)).toHaveLength(4 * Object.keys(CHANNELS).length);
    return leftOf(change);
  });
  expect(found).toEqual([]);
});

const first = raised({ reason: 'starts-too-close', figures: { starts: 14, inS: 1080, ranS: 20 } });
const after = { ...alarm(first), clearedMs: NOW_MS };
const ended = (state: 'cleared' | 'withdrawn'): AlarmEvent => ({
  event: 'alarm',
  well: 'north-paddock',
  alarm: 'short-cycling',
  state,
  at: first.at,
});
const changed: AlarmEvent = { ...first, state: 'changed', priority: 'now' };
const other: AlarmEvent = { ...changed, causes: [{ cause: 'leak', weight: 0.9 }] };
const past: AlarmEvent = {
  ...changed,
  alarm: 'long-run',
  evidence: FORM_EVIDENCE['past-cut-out'],
  causes: [],
};

test.each<[string, AlarmChange]>([
  ['a higher priority', { before: alarm(first), after: alarm(changed), event: changed }],
  ['another likely cause', { before: alarm(changed), after: alarm(other), event: other }],
  ['minutes matter', { before: alarm({ ...past, evidence: {} }), after: alarm(past), event: past }],
  ['cleared too early', { before: after, after: alarm(first), event: { ...first, state: 'changed' } }],
  ['cleared', { before: alarm(first), after, event: ended('cleared') }],
  ['withdrawn', { before: alarm(first), after: alarm(first), event: ended('withdrawn') }],
  ['of the second pump', { after: alarm(raised({ pump: 'p2' })), event: { ...first, pump: 'p2' } }],
  ['of a whole site', { after: alarm(siteSilent()), event: { ...siteSilent(), why: '' } }],
])('a change: %s', (_name, change) => {
  expect(noticesOf(change)).toHaveLength(4 * Object.keys(CHANNELS).length);
  expect(leftOf(change)).toEqual([]);
});

test('every cause, and what tells those apart that look alike', () => {
  const found = CAUSES.flatMap((_cause, at) => {
    const causes = CAUSES.slice(at, at + 3).map((cause) => ({ cause, weight: 0.3 }));
    const event = { ...first, causes };
    return leftOf({ after: alarm(event), event });
  });
  expect(found).toEqual([]);
});

test('every figure and every form', () => {
  const evidence = {
    ...Object.fromEntries(Object.keys(FIGURE_NAMES).map((name) => [name, 14])),
    ...Object.fromEntries(Object.keys(FIGURE_VALUES).map((value, at) => [`x${at}`, value])),
  };
  const forms = ALARM_FORMS.map((form) => FORM_EVIDENCE[form]);
  const found = [evidence, ...forms].flatMap((one) =>
    ALARM_KINDS.flatMap((kind) => {
      const event = { ...first, alarm: kind, evidence: one };
      return kind === 'short-cycling' || one !== evidence ? leftOf({ after: alarm(event), event }) : [];
    }),
  );
  expect([...new Set(found)]).toEqual([]);
});

test('a test, and why somebody is not notified', () => {
  expect(left(testNotices.testNotice('anna', 'webhook', NOW_MS))).toEqual([]);
  const nobody = person('anna', { priorities: ['now'] });
  const context = { recipients: [nobody], nowMs: NOW_MS, units: 'us', timeZone: 'UTC' } as const;
  const reasons = [first, ended('cleared'), { ...first, state: 'changed' } as const].flatMap((event) =>
    [
      alarm(first),
      after,
      { ...after, withdrawnMs: NOW_MS },
      { ...alarm(first), shelvedUntilMs: NOW_MS + 1 },
    ].map((row) => decide.decideNotices({ after: row, event }, context)[0]?.reason),
  );
  for (const reason of reasons)
    expect(withoutMarked(reason ?? 'none')).toMatch(/^[\s.,]*(anna|soon|[\s.,])*$/);
});

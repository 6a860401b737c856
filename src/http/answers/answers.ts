/** One answer for each question of the route table: what does not compile is not answered. */
import { noticeText } from '../../core/notify/notice-text.ts';
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import type { Answer, RouteName, JsonRoute } from '../../../shared/api/routes.ts';
import { calendarAddress, setCalendarAddress } from './calendar-address-answers.ts';
import { acknowledgeAct, alarmAnswer, shelveAct } from './alarm-answers.ts';
import type { ApiRequest } from '../api-request.ts';
import { entryAnswer, writeEntry } from './logbook-answers.ts';
import { cardAnswer, cardsAnswer, writeCard } from './card-answers.ts';
import type { ActResult, WebDeps } from '../deps.ts';
import { checksAnswer, dueAnswer } from './due-answers.ts';
import { evaluationsAnswer } from './evaluation-answers.ts';
import { figuresAnswer } from './figure-answers.ts';
import { yieldTestsAnswer } from './yield-answers.ts';
import { chartAnswer, cyclesAnswer, daysAnswer } from './history-answers.ts';
import { labelsAnswer } from './label-answers.ts';
import { nodesAnswer } from './node-answers.ts';
import { sectionAnswer, importAnswer } from './export-answers.ts';
import { ProblemError } from '../problem.ts';
import { waterAnswer } from './water-answers.ts';
import { guidedRunAnswer, measuredDrawAnswer, readingsAnswer } from './reading-answers.ts';
import { partsListAnswer, reportAnswer, visitsAnswer } from './visit-answers.ts';
import { wellDetail, requireWell, wellsAnswer } from './well-answers.ts';
import { texts } from '../texts.ts';

type Answers = {
  [N in Exclude<JsonRoute, 'health'>]: (deps: WebDeps, ask: ApiRequest<N>) => Answer<N> | Promise<Answer<N>>;
};

const DEFAULT_REFUSED_LIMIT = 50;
const DEFAULT_NOTICES_LIMIT = 100;

export const ANSWERS: Answers = {
  wells: (deps) => wellsAnswer(deps),
  well: (deps, ask) => wellDetail(deps, ask.pathParam('well')),
  chart: (deps, ask) => chartAnswer(deps, ask.pathParam('well'), ask.query),
  cycles: (deps, ask) => cyclesAnswer(deps, ask.pathParam('well'), ask.query),
  days: (deps, ask) => daysAnswer(deps, ask.pathParam('well'), ask.query),
  baselines: async (deps, ask) => {
    const { status } = await requireWell(deps, ask.pathParam('well'));
    return { baselines: await deps.store.baselines(status.well) };
  },
  wellActs: async (deps, ask) => {
    const { status } = await requireWell(deps, ask.pathParam('well'));
    return { acts: await deps.store.acts({ well: status.well, fromMs: ask.query.from ?? 0 }) };
  },
  cards: (deps) => cardsAnswer(deps),
  card: (deps, ask) => cardAnswer(deps, ask.pathParam('well')),
  writeCard: (deps, ask) => writeCard(deps, ask),
  entries: async (deps, ask) => ({
    entries: await deps.logbook.entries((await requireWell(deps, ask.pathParam('well'))).status.well),
  }),
  writeEntry: (deps, ask) => writeEntry(deps, ask),
  labels: (deps, ask) => labelsAnswer(deps, ask.pathParam('well')),
  addDocument: async (deps, ask) => {
    const { status } = await requireWell(deps, ask.pathParam('well'));
    return entryAnswer(await deps.logbook.addDocument(status.well, { bytes: ask.bytes, ...ask.query }));
  },
  checks: (deps, ask) => checksAnswer(deps, ask.pathParam('well')),
  water: (deps, ask) => waterAnswer(deps, ask.pathParam('well')),
  figures: (deps, ask) => figuresAnswer(deps, ask.pathParam('well')),
  yieldTests: (deps, ask) => yieldTestsAnswer(deps, ask.pathParam('well')),
  due: (deps, ask) => dueAnswer(deps, ask),
  calendarAddress: (deps, { query }) => calendarAddress(deps, query.well),
  setCalendarAddress: (deps, ask) => setCalendarAddress(deps, ask),
  partsList: (deps, ask) => partsListAnswer(deps, ask.pathParam('well')),
  visits: (deps, ask) => visitsAnswer(deps, ask.pathParam('well')),
  report: (deps, ask) => reportAnswer(deps, ask.pathParam('well'), ask.pathParam('visit')),
  guidedRun: (deps, ask) => guidedRunAnswer(deps, ask.pathParam('well'), ask.query),
  readings: (deps, ask) => readingsAnswer(deps, ask.pathParam('well')),
  measuredDraw: (deps, ask) => measuredDrawAnswer(deps, ask.pathParam('well'), ask.query),
  section: (deps, ask) => sectionAnswer(deps, ask.pathParam('well'), ask.query),
  importWell: (deps, ask) => importAnswer(deps, ask),
  evaluations: (deps, ask) => evaluationsAnswer(deps, ask.pathParam('well')),
  alarms: async (deps, { query }) => {
    const { well, from, active } = query;
    const rows = await deps.store.alarms(omitUndefined({ well, fromMs: from, active }));
    return { alarms: rows.map(alarmAnswer) };
  },
  acknowledge: async (deps, ask) =>
    requireDone(await deps.act(await acknowledgeAct(deps, ask.pathParam('id')), ask.body.by)),
  shelve: async (deps, ask) =>
    requireDone(await deps.act(await shelveAct(deps, ask.pathParam('id'), ask.body.untilMs), ask.body.by)),
  act: async (deps, { body }) => {
    if ('well' in body.act) await requireWell(deps, body.act.well);
    return requireDone(await deps.act(body.act, body.by));
  },
  nodes: (deps) => nodesAnswer(deps),
  approveNode: async (deps, ask) => {
    const node = ask.pathParam('node');
    if (!(await deps.store.nodes()).some((row) => row.node === node)) {
      throw new ProblemError(404, texts().noSuchNode(node));
    }
    const result = await deps.approveNode(node);
    if ('problem' in result) throw new ProblemError(409, result.problem);
    return { ...result, node };
  },
  forget: async (deps, ask) => {
    const node = ask.pathParam('node');
    if (!(await deps.store.nodes()).some((row) => row.node === node))
      throw new ProblemError(404, texts().noSuchNode(node));
    const why = await deps.forget(node);
    if (why !== undefined) throw new ProblemError(409, why);
    return { done: true, node };
  },
  refused: async (deps, { query }) => ({
    nowMs: deps.now(),
    ...(await deps.store.refused(query.limit ?? DEFAULT_REFUSED_LIMIT)),
  }),
  notices: async (deps, { query }) => {
    const { state, limit = DEFAULT_NOTICES_LIMIT } = query;
    const rows = await deps.store.notices(omitUndefined({ limit, state }));
    return {
      notices: rows.map(({ body, ...row }) => ({ ...row, subject: noticeText({ ...row, body }).subject })),
    };
  },
};

function requireDone(result: ActResult): { done: true; atMs: number } {
  if ('problem' in result) throw new ProblemError(409, result.problem);
  return result;
}

/**
 * What the table leaves to the app itself: answers that are no JSON of a shape, or not always 200.
 */
export type CustomRoute = Exclude<RouteName, keyof Answers>;

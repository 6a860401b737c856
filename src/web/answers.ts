/** One answer for each question of the route table: what does not compile is not answered. */
import type { Answer, RouteName, ShapedRoute } from '../../shared/api/routes.ts';
import { calendarAddress, setCalendarAddress } from './address-answers.ts';
import { acknowledgeAct, alarmAnswer, shelveAct } from './alarm-answers.ts';
import type { Ask } from './ask.ts';
import { kept, writeEntry } from './book-answers.ts';
import { cardAnswer, cardsAnswer, writeCard } from './card-answers.ts';
import type { ActResult, WebDeps } from './deps.ts';
import { checksAnswer, dueAnswer } from './due-answers.ts';
import { chartAnswer, cyclesAnswer, daysAnswer } from './history-answers.ts';
import { labelsAnswer } from './label-answers.ts';
import { nodesAnswer } from './node-answers.ts';
import { sectionAnswer, takePacket } from './packet-answers.ts';
import { ProblemError } from './problem.ts';
import { waterAnswer } from './water-answers.ts';
import { guidedRunAnswer, measuredDrawAnswer, readingsAnswer } from './reading-answers.ts';
import { bringAnswer, proofAnswer, visitsAnswer } from './visit-answers.ts';
import { wellDetail, wellNamed, wellsAnswer } from './well-answers.ts';

/** Answers that are not `await`ed in the middle see one moment of the store. */
type Answers = {
  [N in Exclude<ShapedRoute, 'health'>]: (deps: WebDeps, ask: Ask<N>) => Answer<N> | Promise<Answer<N>>;
};

const USUAL_REFUSED = 50;
const USUAL_NOTICES = 100;

export const ANSWERS: Answers = {
  wells: (deps) => wellsAnswer(deps),
  well: (deps, ask) => wellDetail(deps, ask.part('well')),
  chart: (deps, ask) => chartAnswer(deps, ask.part('well'), ask.query),
  cycles: (deps, ask) => cyclesAnswer(deps, ask.part('well'), ask.query),
  days: (deps, ask) => daysAnswer(deps, ask.part('well'), ask.query),
  baselines: (deps, ask) => {
    const { now } = wellNamed(deps, ask.part('well'));
    return { baselines: deps.store.baselines(now.well) };
  },
  wellActs: (deps, ask) => {
    const { now } = wellNamed(deps, ask.part('well'));
    return { acts: deps.store.acts({ well: now.well, fromMs: ask.query.from ?? 0 }) };
  },
  cards: (deps) => cardsAnswer(deps),
  card: (deps, ask) => cardAnswer(deps, ask.part('well')),
  writeCard: (deps, ask) => writeCard(deps, ask),
  entries: (deps, ask) => ({ entries: deps.desk.entries(wellNamed(deps, ask.part('well')).now.well) }),
  writeEntry: (deps, ask) => writeEntry(deps, ask),
  labels: (deps, ask) => labelsAnswer(deps, ask.part('well')),
  addPaper: (deps, ask) => {
    const { now } = wellNamed(deps, ask.part('well'));
    return kept(deps.desk.addPaper(now.well, { bytes: ask.bytes, ...ask.query }));
  },
  checks: (deps, ask) => checksAnswer(deps, ask.part('well')),
  water: (deps, ask) => waterAnswer(deps, ask.part('well')),
  due: (deps, ask) => dueAnswer(deps, ask),
  calendarAddress: (deps, { query }) => calendarAddress(deps, query.well),
  setCalendarAddress: (deps, ask) => setCalendarAddress(deps, ask),
  bring: (deps, ask) => bringAnswer(deps, ask.part('well')),
  visits: (deps, ask) => visitsAnswer(deps, ask.part('well')),
  proof: (deps, ask) => proofAnswer(deps, ask.part('well'), ask.part('visit')),
  guidedRun: (deps, ask) => guidedRunAnswer(deps, ask.part('well'), ask.query),
  readings: (deps, ask) => readingsAnswer(deps, ask.part('well')),
  measuredDraw: (deps, ask) => measuredDrawAnswer(deps, ask.part('well'), ask.query),
  section: (deps, ask) => sectionAnswer(deps, ask.part('well'), ask.query),
  takePacket: (deps, ask) => takePacket(deps, ask),
  alarms: (deps, { query }) => {
    const { well, from, standing } = query;
    const rows = deps.store.alarms({
      ...(well === undefined ? {} : { well }),
      ...(from === undefined ? {} : { fromMs: from }),
      ...(standing === undefined ? {} : { standing }),
    });
    return { alarms: rows.map(alarmAnswer) };
  },
  acknowledge: async (deps, ask) => done(await deps.act(acknowledgeAct(deps, ask.part('id')), ask.body.by)),
  shelve: async (deps, ask) =>
    done(await deps.act(shelveAct(deps, ask.part('id'), ask.body.untilMs), ask.body.by)),
  act: async (deps, { body }) => {
    if ('well' in body.act) wellNamed(deps, body.act.well);
    return done(await deps.act(body.act, body.by));
  },
  nodes: (deps) => nodesAnswer(deps),
  letIn: async (deps, ask) => {
    const node = ask.part('node');
    if (!deps.store.nodes().some((row) => row.node === node)) {
      throw new ProblemError(404, `No node called ${node} was heard.`);
    }
    const result = await deps.letIn(node);
    if ('no' in result) throw new ProblemError(409, result.no);
    return { ...result, node };
  },
  forget: (deps, ask) => {
    const node = ask.part('node');
    if (!deps.store.nodes().some((row) => row.node === node))
      throw new ProblemError(404, `No node called ${node} is known.`);
    const why = deps.forget(node);
    if (why !== undefined) throw new ProblemError(409, why);
    return { done: true, node };
  },
  refused: (deps, { query }) => ({ nowMs: deps.now(), ...deps.store.refused(query.limit ?? USUAL_REFUSED) }),
  notices: (deps, { query }) => {
    const { state, limit = USUAL_NOTICES } = query;
    const rows = deps.store.notices({ limit, ...(state === undefined ? {} : { state }) });
    return { notices: rows.map(({ body, ...row }) => ({ ...row, subject: body.subject })) };
  },
};

function done(result: ActResult): { done: true; atMs: number } {
  if ('no' in result) throw new ProblemError(409, result.no);
  return result;
}

/** What the table leaves to the app itself: answers that are no JSON of a shape, or not always 200. */
export type OwnAnswer = Exclude<RouteName, keyof Answers>;

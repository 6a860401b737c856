/**
 * Every question that the API answers, in one literal table: the server mounts it, the OpenAPI
 * document is made of it, and the pages take their types from it (types alone: no zod travels to
 * the browser).
 */
import { z } from 'zod';
import { actResultShape, actRequestShape, actsShape } from './acts.ts';
import { acknowledgeShape, alarmsShape, evaluationsShape, shelveShape } from './alarms.ts';
import {
  cardAnswerShape,
  cardRequestShape,
  entriesShape,
  entryResultShape,
  entryRequestShape,
} from './logbook.ts';
import { calendarAddressQuery, calendarAddressRequest, calendarAddressShape } from './calendar-address.ts';
import { cardsShape } from './cards.ts';
import { calendarQuery, checksShape, dueQuery, dueShape, waterShape } from './due.ts';
import { baselinesShape, chartShape, cyclesShape, daysShape } from './history.ts';
import { FIGURE_ROUTES } from './figures/figure-routes.ts';
import { FILE_ROUTES } from './file-routes.ts';
import { healthShape, noticesShape, refusedShape } from './server-state.ts';
import { labelsShape } from './labels.ts';
import { NODE_ROUTES } from './node-routes.ts';
import * as queries from './queries.ts';
import { drawQuery, drawShape, guidedRunQuery, guidedRunShape, readingsShape } from './readings.ts';
import { partsListShape, reportShape, visitsShape } from './visits.ts';
import { wellDetailShape, wellsShape } from './wells.ts';
import { NAMED_PROBLEMS, OK, QUERY_PROBLEMS, WRITE_PROBLEMS } from './statuses.ts';

export interface Route {
  method: 'get' | 'post';
  /** With `{name}` where a part of the path is asked for. */
  path: string;
  summary: string;
  query: z.ZodObject;
  body?: z.ZodObject;
  /** The body is bytes as they are, and not JSON: of what, which says how many there may be. */
  bytes?: 'document' | 'export';
  /** The shape of the answer, or the media type where it is no JSON. */
  answer:
    | z.ZodType
    | 'text/event-stream'
    | 'text/calendar'
    | 'application/openmetrics-text'
    | 'application/json'
    | 'application/zip'
    | 'text/html'
    | '*/*';
  /** Statuses with which it may answer, besides the problems. */
  status: readonly number[];
  problems: readonly number[];
}

export const ROUTES = {
  ...FIGURE_ROUTES,
  ...FILE_ROUTES,
  ...NODE_ROUTES,
  wells: {
    method: 'get',
    path: '/api/wells',
    summary: 'All wells, each with its state in words, worst first',
    query: queries.noQuery,
    answer: wellsShape,
    status: OK,
    problems: QUERY_PROBLEMS,
  },
  well: {
    method: 'get',
    path: '/api/wells/{well}',
    summary: 'One well: its card, baseline, last run and sensors',
    query: queries.noQuery,
    answer: wellDetailShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  chart: {
    method: 'get',
    path: '/api/wells/{well}/chart',
    summary: 'One channel in even steps, for a chart',
    query: queries.chartQuery,
    answer: chartShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  cycles: {
    method: 'get',
    path: '/api/wells/{well}/cycles',
    summary: 'Cycles that stopped in a window',
    query: queries.cyclesQuery,
    answer: cyclesShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  days: {
    method: 'get',
    path: '/api/wells/{well}/days',
    summary: 'Local days that ended in a window',
    query: queries.daysQuery,
    answer: daysShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  baselines: {
    method: 'get',
    path: '/api/wells/{well}/baselines',
    summary: 'All baselines of a well',
    query: queries.noQuery,
    answer: baselinesShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  wellActs: {
    method: 'get',
    path: '/api/wells/{well}/acts',
    summary: 'What people did with a well',
    query: queries.actsQuery,
    answer: actsShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  cards: {
    method: 'get',
    path: '/api/cards',
    summary: 'The cards of all wells as they were written',
    query: queries.noQuery,
    answer: cardsShape,
    status: OK,
    problems: QUERY_PROBLEMS,
  },
  card: {
    method: 'get',
    path: '/api/wells/{well}/card',
    summary: 'The card of a well as it was written, and what is odd about it',
    query: queries.noQuery,
    answer: cardAnswerShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  writeCard: {
    method: 'post',
    path: '/api/wells/{well}/card',
    summary: 'Write the whole card of a well, new or known',
    query: queries.noQuery,
    body: cardRequestShape,
    answer: cardAnswerShape,
    status: OK,
    problems: WRITE_PROBLEMS,
  },
  entries: {
    method: 'get',
    path: '/api/wells/{well}/entries',
    summary: 'All that people wrote down of a well',
    query: queries.noQuery,
    answer: entriesShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  writeEntry: {
    method: 'post',
    path: '/api/wells/{well}/entries',
    summary: 'Write down one thing of a well, or put one right',
    query: queries.noQuery,
    body: entryRequestShape,
    answer: entryResultShape,
    status: OK,
    problems: WRITE_PROBLEMS,
  },
  labels: {
    method: 'get',
    path: '/api/wells/{well}/labels',
    summary: 'Labels to print for tank, switch, control box, panel and well head',
    query: queries.noQuery,
    answer: labelsShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  checks: {
    method: 'get',
    path: '/api/wells/{well}/checks',
    summary: 'The checks of a well: what is due when and why, and what was done',
    query: queries.noQuery,
    answer: checksShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  water: {
    method: 'get',
    path: '/api/wells/{well}/water',
    summary: 'Water tests of a well beside published limits',
    query: queries.noQuery,
    answer: waterShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  due: {
    method: 'get',
    path: '/api/due',
    summary: 'What is due on all wells up to a day',
    query: dueQuery,
    answer: dueShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  calendar: {
    method: 'get',
    path: '/calendar.ics',
    summary: 'What is due as a calendar to subscribe to (RFC 5545)',
    query: calendarQuery,
    answer: 'text/calendar',
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  calendarAddress: {
    method: 'get',
    path: '/api/calendar-address',
    summary: 'Where phones on the farm’s network read the calendar',
    query: calendarAddressQuery,
    answer: calendarAddressShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  setCalendarAddress: {
    method: 'post',
    path: '/api/calendar-address',
    summary: 'Make the address for phones, make a new one, or take it away',
    query: queries.noQuery,
    body: calendarAddressRequest,
    answer: calendarAddressShape,
    status: OK,
    problems: WRITE_PROBLEMS,
  },
  partsList: {
    method: 'get',
    path: '/api/wells/{well}/parts-list',
    summary: 'What to bring to a well, from its card and the alarms that stand',
    query: queries.noQuery,
    answer: partsListShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  visits: {
    method: 'get',
    path: '/api/wells/{well}/visits',
    summary: 'Visits to a well with the work that was done',
    query: queries.noQuery,
    answer: visitsShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  report: {
    method: 'get',
    path: '/api/wells/{well}/visits/{visit}/report',
    summary: 'What runs and days showed before and after a visit',
    query: queries.noQuery,
    answer: reportShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  guidedRun: {
    method: 'get',
    path: '/api/wells/{well}/guided-run',
    summary: 'The first whole run since a time, how far it is, and what it showed',
    query: guidedRunQuery,
    answer: guidedRunShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  readings: {
    method: 'get',
    path: '/api/wells/{well}/readings',
    summary: 'Readings over the years, held against the pinned ones',
    query: queries.noQuery,
    answer: readingsShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  measuredDraw: {
    method: 'get',
    path: '/api/wells/{well}/measured-draw',
    summary: 'A tank’s air charge from one measured draw',
    query: drawQuery,
    answer: drawShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  evaluations: {
    method: 'get',
    path: '/api/wells/{well}/alarms/evaluations',
    summary: 'Why there is or is not an alarm: what the watch of each kind said last',
    query: queries.noQuery,
    answer: evaluationsShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  alarms: {
    method: 'get',
    path: '/api/alarms',
    summary: 'Alarms of all wells or of one',
    query: queries.alarmsQuery,
    answer: alarmsShape,
    status: OK,
    problems: QUERY_PROBLEMS,
  },
  acknowledge: {
    method: 'post',
    path: '/api/alarms/{id}/acknowledge',
    summary: 'Say that an alarm was seen',
    query: queries.noQuery,
    body: acknowledgeShape,
    answer: actResultShape,
    status: OK,
    problems: WRITE_PROBLEMS,
  },
  shelve: {
    method: 'post',
    path: '/api/alarms/{id}/shelve',
    summary: 'Put an alarm aside until a time',
    query: queries.noQuery,
    body: shelveShape,
    answer: actResultShape,
    status: OK,
    problems: WRITE_PROBLEMS,
  },
  act: {
    method: 'post',
    path: '/api/acts',
    summary: 'Do one act: open a visit, pin a baseline, say what is expected …',
    query: queries.noQuery,
    body: actRequestShape,
    answer: actResultShape,
    status: OK,
    problems: WRITE_PROBLEMS,
  },
  refused: {
    method: 'get',
    path: '/api/refused',
    summary: 'Packs that were refused, by reason',
    query: queries.refusedQuery,
    answer: refusedShape,
    status: OK,
    problems: QUERY_PROBLEMS,
  },
  notices: {
    method: 'get',
    path: '/api/notices',
    summary: 'What was told to whom',
    query: queries.noticesQuery,
    answer: noticesShape,
    status: OK,
    problems: QUERY_PROBLEMS,
  },
  live: {
    method: 'get',
    path: '/api/live',
    summary: 'Server-sent events: see LiveMessage',
    query: queries.liveQuery,
    answer: 'text/event-stream',
    status: OK,
    problems: [400, 403, 404, 503],
  },
  openApi: {
    method: 'get',
    path: '/api/openapi.json',
    summary: 'This document',
    query: queries.noQuery,
    answer: 'application/json',
    status: OK,
    problems: QUERY_PROBLEMS,
  },
  health: {
    method: 'get',
    path: '/health',
    summary: 'Whether all is well, with reasons',
    query: queries.noQuery,
    answer: healthShape,
    status: [200, 503],
    problems: QUERY_PROBLEMS,
  },
  metrics: {
    method: 'get',
    path: '/metrics',
    summary: 'OpenMetrics text',
    query: queries.noQuery,
    answer: 'application/openmetrics-text',
    status: OK,
    problems: QUERY_PROBLEMS,
  },
} as const satisfies Record<string, Route>;

export type RouteName = keyof typeof ROUTES;
type AnswerShape<N extends RouteName> = (typeof ROUTES)[N]['answer'];
/** Routes that answer in JSON of a shape. */
export type JsonRoute = { [N in RouteName]: AnswerShape<N> extends z.ZodType ? N : never }[RouteName];
export type Answer<N extends JsonRoute> = AnswerShape<N> extends z.ZodType ? z.output<AnswerShape<N>> : never;
export type Query<N extends RouteName> = z.output<(typeof ROUTES)[N]['query']>;
export type Body<N extends RouteName> = (typeof ROUTES)[N] extends { body: infer B extends z.ZodType }
  ? z.output<B>
  : undefined;

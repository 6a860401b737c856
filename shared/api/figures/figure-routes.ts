/** Questions about what a well gave over the years; part of the table in ../routes.ts. */
import * as queries from '../queries.ts';
import { NAMED_PROBLEMS, OK } from '../statuses.ts';
import type { Route } from '../routes.ts';
import { figuresAnswerShape } from './figures.ts';
import { yieldTestsShape } from './yield-tests.ts';

export const FIGURE_ROUTES = {
  figures: {
    method: 'get',
    path: '/api/wells/{well}/figures',
    summary: 'Water by month and year, and each pump on its curve, with its starts and hours',
    query: queries.noQuery,
    answer: figuresAnswerShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  yieldTests: {
    method: 'get',
    path: '/api/wells/{well}/yield-tests',
    summary: 'Yield tests of a well over the years, and the last long run as one',
    query: queries.noQuery,
    answer: yieldTestsShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
} as const satisfies Record<string, Route>;

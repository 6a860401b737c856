/** Rows of the route table (./routes.ts) about the boxes that send: listed, let in, forgotten. */
import { z } from 'zod';
import { forgetShape, approvalShape, nodesShape } from './nodes.ts';
import { noQuery } from './queries.ts';
import type { Route } from './routes.ts';
import { OK, WRITE_PROBLEMS } from './statuses.ts';

export const NODE_ROUTES = {
  nodes: {
    method: 'get',
    path: '/api/nodes',
    summary: 'Nodes: approved and pending approval',
    query: noQuery,
    answer: nodesShape,
    status: OK,
    problems: [400, 403],
  },
  approveNode: {
    method: 'post',
    path: '/api/nodes/{node}/approve',
    summary: 'Let a waiting node in',
    query: noQuery,
    body: z.strictObject({}),
    answer: approvalShape,
    status: OK,
    problems: WRITE_PROBLEMS,
  },
  forget: {
    method: 'post',
    path: '/api/nodes/{node}/forget',
    summary: 'Forget a node that never sent a reading, with its empty well',
    query: noQuery,
    body: z.strictObject({}),
    answer: forgetShape,
    status: OK,
    problems: WRITE_PROBLEMS,
  },
} as const satisfies Record<string, Route>;

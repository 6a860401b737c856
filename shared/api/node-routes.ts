/** Rows of the route table (./routes.ts) about the boxes that send: listed, let in, forgotten. */
import { z } from 'zod';
import { forgetShape, approvalShape, nodesShape } from './nodes.ts';
import { noQuery } from './queries.ts';
import type { Route } from './routes.ts';

const OK = [200] as const;
const DONE = [400, 403, 404, 409, 413, 415] as const;

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
    problems: DONE,
  },
  forget: {
    method: 'post',
    path: '/api/nodes/{node}/forget',
    summary: 'Forget a node that never sent a reading, with its empty well',
    query: noQuery,
    body: z.strictObject({}),
    answer: forgetShape,
    status: OK,
    problems: DONE,
  },
} as const satisfies Record<string, Route>;

/** Questions whose body or answer is a file: papers, the packet of a well and the drawing in it. A part of the route table (./routes.ts). */
import { entryDoneShape, paperQuery } from './book.ts';
import { packetQuery, packetTakenShape, sectionQuery, sectionShape, takePacketQuery } from './packets.ts';
import { noQuery } from './questions.ts';
import type { Route } from './routes.ts';

const OK = [200] as const;
const NAMED = [400, 403, 404] as const;
const DONE = [400, 403, 404, 409, 413, 415] as const;

export const FILE_ROUTES = {
  addPaper: {
    method: 'post',
    path: '/api/wells/{well}/papers',
    summary: 'Keep a paper: its bytes are the body',
    query: paperQuery,
    bytes: 'paper',
    answer: entryDoneShape,
    status: OK,
    problems: DONE,
  },
  paper: {
    method: 'get',
    path: '/api/papers/{hash}',
    summary: 'The bytes of a paper',
    query: noQuery,
    answer: '*/*',
    status: OK,
    problems: NAMED,
  },
  section: {
    method: 'get',
    path: '/api/wells/{well}/section',
    summary: 'What is known of a well for its drawing in section',
    query: sectionQuery,
    answer: sectionShape,
    status: OK,
    problems: NAMED,
  },
  packet: {
    method: 'get',
    path: '/api/wells/{well}/packet.zip',
    summary: 'All that is known of a well: a page, its record, tables and papers',
    query: packetQuery,
    answer: 'application/zip',
    status: OK,
    problems: NAMED,
  },
  packetPage: {
    method: 'get',
    path: '/api/wells/{well}/packet.html',
    summary: 'The page of a well’s packet alone, which holds the record too',
    query: packetQuery,
    answer: 'text/html',
    status: OK,
    problems: NAMED,
  },
  takePacket: {
    method: 'post',
    path: '/api/packets',
    summary: 'Take in a packet that another Stillwell handed over: its ZIP or its page is the body',
    query: takePacketQuery,
    bytes: 'packet',
    answer: packetTakenShape,
    status: OK,
    problems: DONE,
  },
} as const satisfies Record<string, Route>;

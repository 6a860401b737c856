/**
 * Questions whose body or answer is a file: papers, the packet of a well and the drawing in it. A
 * part of the route table (./routes.ts).
 */
import { documentResultShape, documentQuery } from './logbook.ts';
import { exportQuery, importResultShape, sectionQuery, sectionShape, importQuery } from './exports.ts';
import { noQuery } from './queries.ts';
import type { Route } from './routes.ts';
import { NAMED_PROBLEMS, OK, WRITE_PROBLEMS } from './statuses.ts';

export const FILE_ROUTES = {
  addDocument: {
    method: 'post',
    path: '/api/wells/{well}/documents',
    summary: 'Keep a document: its bytes are the body',
    query: documentQuery,
    bytes: 'document',
    answer: documentResultShape,
    status: OK,
    problems: WRITE_PROBLEMS,
  },
  document: {
    method: 'get',
    path: '/api/documents/{hash}',
    summary: 'The bytes of a document',
    query: noQuery,
    answer: '*/*',
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  section: {
    method: 'get',
    path: '/api/wells/{well}/section',
    summary: 'What is known of a well for its drawing in section',
    query: sectionQuery,
    answer: sectionShape,
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  exportZip: {
    method: 'get',
    path: '/api/wells/{well}/export.zip',
    summary: 'All that is known of a well: a page, its record, tables and documents',
    query: exportQuery,
    answer: 'application/zip',
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  exportPage: {
    method: 'get',
    path: '/api/wells/{well}/export.html',
    summary: 'The page of a well’s export alone, which holds the record too',
    query: exportQuery,
    answer: 'text/html',
    status: OK,
    problems: NAMED_PROBLEMS,
  },
  importWell: {
    method: 'post',
    path: '/api/imports',
    summary: 'Import the export of another Stillwell: its ZIP or its page is the body',
    query: importQuery,
    bytes: 'export',
    answer: importResultShape,
    status: OK,
    problems: WRITE_PROBLEMS,
  },
} as const satisfies Record<string, Route>;

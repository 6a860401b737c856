/**
 * Where everything on the pages comes from: one interface, so that the same pages can show a
 * server's live data or a copy that was written out. Types come from the route table; no shape
 * travels to the browser.
 */
import type { LiveMessage } from '../../shared/api/live.ts';
import type { Problem } from '../../shared/api/server-state.ts';
import type { Answer, Body, ROUTES, JsonRoute } from '../../shared/api/routes.ts';
import { texts } from '../texts.ts';

export type PostRoute =
  'acknowledge' | 'shelve' | 'act' | 'approveNode' | 'writeCard' | 'writeEntry' | 'setCalendarAddress';
export type GetRoute = Exclude<JsonRoute, PostRoute | UploadRoute>;
/** Routes that take bytes. */
export type UploadRoute = 'addDocument' | 'importWell';
/** Routes whose answer is a file. */
export type FileRoute = 'document' | 'exportZip' | 'exportPage';
/** How much of the bytes has gone out, from 0 to 1. */
export type OnProgress = (fraction: number) => void;
/** Parts of the path and the query together, by name. */
export type RouteParams = Record<string, string | number | boolean>;
export type Path<N extends JsonRoute> = (typeof ROUTES)[N]['path'];

export interface DataSource {
  /** Whether it takes changes and sends live readings: a written-out copy does neither. */
  live: boolean;
  get<N extends GetRoute>(name: N, parts?: RouteParams): Promise<Answer<N>>;
  post<N extends PostRoute>(name: N, parts: RouteParams, body: Body<N>): Promise<Answer<N>>;
  /** Stores a document; the params are its well, name and what it is about. */
  addDocument(parts: RouteParams, bytes: Blob, onProgress?: OnProgress): Promise<Answer<'addDocument'>>;
  /** Imports a well: its ZIP or its page. */
  importWell(parts: RouteParams, bytes: Blob, onProgress?: OnProgress): Promise<Answer<'importWell'>>;
  /** Where a file can be fetched. */
  fileUrl(name: FileRoute, parts: RouteParams): string;
  /**
   * Calls back for each message of one well, or of all; returns how to stop. `onState` is told
   * whether the connection is up.
   */
  subscribe(
    well: string | undefined,
    onMessage: (message: LiveMessage) => void,
    onState: (up: boolean) => void,
  ): () => void;
}

/** A question that could not be answered, in words for the person who asked. */
export class RequestError extends Error {
  readonly status: number | undefined;
  /** Which parts of what was told broke which rule. */
  readonly fields: NonNullable<Problem['fields']>;

  constructor(message: string, status?: number, fields: Problem['fields'] = []) {
    super(message);
    this.name = 'RequestError';
    this.status = status;
    this.fields = fields;
  }
}

export function problemWords(problem: Partial<Problem>): string {
  return problem.detail ?? problem.title ?? texts().badAnswer;
}

/**
 * Where everything on the pages comes from: one interface, so that the same pages can show a server's live data or a copy that was
 * written out. Types come from the route table; no shape travels to the browser.
 */
import type { LiveMessage } from '../../shared/api/live.ts';
import type { Problem } from '../../shared/api/housekeeping.ts';
import type { Answer, Body, ROUTES, ShapedRoute } from '../../shared/api/routes.ts';

export type Told =
  'acknowledge' | 'shelve' | 'act' | 'letIn' | 'writeCard' | 'writeEntry' | 'setCalendarAddress';
export type Asked = Exclude<ShapedRoute, Told | Given>;
/** Routes that take bytes. */
export type Given = 'addPaper' | 'takePacket';
/** Routes whose answer is a file. */
export type FileRoute = 'paper' | 'packet' | 'packetPage';
/** How much of the bytes has gone out, from 0 to 1. */
export type Sent = (share: number) => void;
/** Parts of the path and the query together, by name. */
export type Parts = Record<string, string | number | boolean>;
export type Path<N extends ShapedRoute> = (typeof ROUTES)[N]['path'];

export interface DataSource {
  /** Whether something can be told and live readings come: not in a written-out copy. */
  live: boolean;
  ask<N extends Asked>(name: N, parts?: Parts): Promise<Answer<N>>;
  tell<N extends Told>(name: N, parts: Parts, body: Body<N>): Promise<Answer<N>>;
  /** Keeps a paper; the parts are its well, name and what it is about. */
  addPaper(parts: Parts, bytes: Blob, sent?: Sent): Promise<Answer<'addPaper'>>;
  /** Takes in a packet: its ZIP or its page. */
  takePacket(parts: Parts, bytes: Blob, sent?: Sent): Promise<Answer<'takePacket'>>;
  /** Where a file can be fetched. */
  address(name: FileRoute, parts: Parts): string;
  /** Calls back for each message of one well, or of all; returns how to stop. `state` hears whether the line stands. */
  listen(
    well: string | undefined,
    hear: (message: LiveMessage) => void,
    state: (up: boolean) => void,
  ): () => void;
}

/** A question that could not be answered, in words for the person who asked. */
export class AskError extends Error {
  readonly status: number | undefined;
  /** Which parts of what was told broke which rule. */
  readonly fields: NonNullable<Problem['fields']>;

  constructor(message: string, status?: number, fields: Problem['fields'] = []) {
    super(message);
    this.name = 'AskError';
    this.status = status;
    this.fields = fields;
  }
}

export function problemWords(problem: Partial<Problem>): string {
  return problem.detail ?? problem.title ?? 'The server answered, but not with what was asked.';
}

/**
 * Errors as people and programs can read them: problem details after RFC 9457, media type
 * `application/problem+json`.
 */
import type { Problem } from '../../shared/api/server-state.ts';

const TITLES: Record<number, string> = {
  400: 'The question is not understood',
  403: 'Not from here',
  404: 'There is no such thing',
  405: 'This can’t be asked in that way',
  409: 'That can’t be done now',
  413: 'Too much was sent',
  415: 'JSON is expected',
  500: 'A fault of our own',
  503: 'Not now',
};

/** Thrown anywhere while a question is answered; becomes the answer. */
export class ProblemError extends Error {
  readonly problem: Problem;

  /** `detail`: one sentence for people. `fields`: which parts of the question broke which rule. */
  constructor(status: number, detail: string, fields?: Problem['fields']) {
    super(detail);
    this.name = 'ProblemError';
    const title = TITLES[status] ?? 'Something is wrong';
    this.problem = { type: 'about:blank', title, status, detail, ...(fields ? { fields } : {}) };
  }
}

export function problemResponse({ problem }: ProblemError): Response {
  return new Response(JSON.stringify(problem), {
    status: problem.status,
    headers: { 'content-type': 'application/problem+json', 'cache-control': 'no-store' },
  });
}

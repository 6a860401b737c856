/**
 * Errors as people and programs can read them: problem details after RFC 9457, media type
 * `application/problem+json`.
 */
import type { Problem } from '../../shared/api/server-state.ts';
import { texts } from './texts.ts';

/** Thrown anywhere while a question is answered; becomes the answer. */
export class ProblemError extends Error {
  readonly problem: Problem;

  /** `detail`: one sentence for people. `fields`: which parts of the question broke which rule. */
  constructor(status: number, detail: string, fields?: Problem['fields']) {
    super(detail);
    this.name = 'ProblemError';
    this.problem = {
      type: 'about:blank',
      title: problemTitle(status),
      status,
      detail,
      ...(fields ? { fields } : {}),
    };
  }
}

export function problemTitle(status: number): string {
  const titles: Readonly<Record<number, string>> = texts().titles;
  return titles[status] ?? texts().otherTitle;
}

export function problemResponse({ problem }: ProblemError): Response {
  return new Response(JSON.stringify(problem), {
    status: problem.status,
    headers: { 'content-type': 'application/problem+json', 'cache-control': 'no-store' },
  });
}

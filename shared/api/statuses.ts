/**
 * Statuses of the route table (./routes.ts): the answer, and the problems that each sort of request
 * can meet.
 */
export const OK = [200] as const;
export const QUERY_PROBLEMS = [400, 403] as const;
/** The path names something that may not exist. */
export const NAMED_PROBLEMS = [400, 403, 404] as const;
/** The body may be too large, of another type, or against what was written meanwhile. */
export const WRITE_PROBLEMS = [400, 403, 404, 409, 413, 415] as const;

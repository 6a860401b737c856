/**
 * The API described by itself: an OpenAPI 3.1 document made of the route table and its zod shapes.
 * Nothing is written twice.
 */
import { z } from 'zod';
import { cardShape } from '../../shared/card/card-shape.ts';
import { entryBodyShape, writtenEntryShape } from '../../shared/entries/entry-shape.ts';
import { liveShape } from '../../shared/api/live.ts';
import { problemShape } from '../../shared/api/server-state.ts';
import { ROUTES } from '../../shared/api/routes.ts';
import type { Route } from '../../shared/api/routes.ts';
import { problemTitle } from './problem.ts';
import { texts } from './texts.ts';

type Json = Record<string, unknown>;

/**
 * What no route has as its answer, and a reader needs: what the live stream carries, and what is
 * looked through by a reader of its own.
 */
const MORE: readonly z.ZodType[] = [liveShape, cardShape, writtenEntryShape, entryBodyShape];

export interface OpenApi {
  openapi: '3.1.0';
  paths: Record<string, Json>;
  components: { schemas: Record<string, Json> };
  [more: string]: unknown;
}

export function openApiDocument(version: string): OpenApi {
  const paths: Record<string, Json> = {};
  for (const [name, route] of Object.entries(ROUTES)) {
    paths[route.path] = { ...paths[route.path], [route.method]: operation(name, route) };
  }
  return {
    openapi: '3.1.0',
    jsonSchemaDialect: 'https://json-schema.org/draft/2020-12/schema',
    info: {
      title: 'Stillwell',
      version,
      description: texts().apiDescription,
      license: { name: 'MIT', identifier: 'MIT' },
    },
    servers: [{ url: '/' }],
    paths,
    components: { schemas: schemas() },
  };
}

const SCHEMA_OPTIONS = { io: 'input', override: describeUnread } as const;

/** What a reader of its own looks through is described by the shape that it is made of. */
function describeUnread({ jsonSchema }: { jsonSchema: z.core.JSONSchema.BaseSchema }): void {
  const { describedBy, description } = jsonSchema;
  if (typeof describedBy !== 'string') return;
  for (const key of Object.keys(jsonSchema)) delete jsonSchema[key];
  Object.assign(jsonSchema, {
    $ref: `#/components/schemas/${describedBy}`,
    ...(description !== undefined && { description }),
  });
}

function operation(name: string, route: Route): Json {
  const answers = Object.fromEntries(route.status.map((status) => [status, answer(status, route.answer)]));
  const problems = Object.fromEntries(route.problems.map((status) => [status, problem(status)]));
  return {
    operationId: name,
    summary: route.summary,
    parameters: [...pathParameters(route.path), ...queryParameters(route.query)],
    ...(route.body
      ? { requestBody: { required: true, content: { 'application/json': { schema: inline(route.body) } } } }
      : {}),
    ...(route.bytes ? { requestBody: { required: true, content: { 'application/octet-stream': {} } } } : {}),
    responses: { ...answers, ...problems },
  };
}

function answer(status: number, shape: Route['answer']): Json {
  const description = status === 200 ? texts().answer : problemTitle(status);
  if (typeof shape === 'string') return { description, content: { [shape]: {} } };
  return { description, content: { 'application/json': { schema: reference(shape) } } };
}

function problem(status: number): Json {
  const content = { 'application/problem+json': { schema: reference(problemShape) } };
  return { description: problemTitle(status), content };
}

function pathParameters(path: string): Json[] {
  return [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => ({
    name,
    in: 'path',
    required: true,
    schema: { type: 'string' },
  }));
}

function queryParameters(query: z.ZodObject): Json[] {
  return Object.entries<z.ZodType>(query.shape).map(([name, shape]) => ({
    name,
    in: 'query',
    required: !(shape instanceof z.ZodExactOptional),
    schema: inline(shape),
  }));
}

function reference(shape: z.ZodType): Json {
  return { $ref: `#/components/schemas/${idOf(shape)}` };
}

function idOf(shape: z.ZodType): string {
  const id = shape.meta()?.id;
  if (id === undefined)
    throw new Error('Cannot describe the API: every answer must have an id, one has none');
  return id;
}

function inline(shape: z.ZodType): Json {
  return shape.meta()?.id === undefined
    ? withoutSchemaIds(z.toJSONSchema(shape, SCHEMA_OPTIONS))
    : reference(shape);
}

/**
 * All named shapes. They stand in zod's registry by being imported: the route table's, and the
 * stream's messages here.
 */
function schemas(): Record<string, Json> {
  MORE.forEach(idOf);
  const made = z.toJSONSchema(z.globalRegistry, {
    ...SCHEMA_OPTIONS,
    uri: (id) => `#/components/schemas/${id}`,
  });
  return Object.fromEntries(
    Object.entries(made.schemas).map(([id, schema]) => [id, withoutSchemaIds(schema)]),
  );
}

function withoutSchemaIds(schema: object): Json {
  const { $schema: _dialect, $id: _id, ...rest }: Json = { ...schema };
  return rest;
}

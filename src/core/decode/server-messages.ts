/**
 * The two messages that a server sends (contract, sections 1 and 4): `kept`, how far packs are safe, and `ask`, what it would like.
 * Both are printed here for the server and read here for whoever plays a node.
 */
import type { z } from 'zod';
import { readJson } from './senml/json-bytes.ts';
import { isRefusal } from './refuse.ts';
import { askShape, ackShape } from './shapes.ts';

/** Of these boots nothing more is wanted up to `seq`, nor of the ranges in `also` above it. */
export interface PackAck {
  boot: number;
  /** 0: nothing of this boot is safe yet. */
  seq: number;
  also?: [number, number][];
  others?: { boot: number; seq: number }[];
}

export type Ack = PackAck | { wait: true };

export type Ask = { resend: { boot: number; from: number; to: number } } | { every: number; forS: number };

/** JSON text of a `kept`; empty lists are left out. */
export function formatAck(ack: Ack): string {
  if ('wait' in ack) return '{"wait":true}';
  const { boot, seq, also, others } = ack;
  return JSON.stringify({ boot, seq, ...(also?.length && { also }), ...(others?.length && { others }) });
}

export function formatAsk(ask: Ask): string {
  return JSON.stringify(ask);
}

/** A `kept` from bytes, or undefined where it is none. */
export function parseAck(bytes: Uint8Array): Ack | undefined {
  return parseAs(ackShape, bytes);
}

/** An `ask` from bytes, or undefined where it is none: a node may ignore either. */
export function parseAsk(bytes: Uint8Array): Ask | undefined {
  return parseAs(askShape, bytes);
}

function parseAs<T>(shape: z.ZodType<T>, bytes: Uint8Array): T | undefined {
  const read = readJson(bytes);
  if (isRefusal(read)) return undefined;
  const parsed = shape.safeParse(read.value);
  return parsed.success ? parsed.data : undefined;
}

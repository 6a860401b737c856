/** Recordings written by hand: an invented well, as lines. */
import { Readable } from 'node:stream';
import { runReplay } from '../../src/replay/replay.ts';

export const NINE = Date.UTC(2026, 4, 4, 9);
export const S = 1000;
export const DAY = 86_400_000;

export interface PackSpec {
  node?: string;
  boot?: number;
  seq: number;
  /** Time of its first reading. */
  atMs: number;
  everyMs?: number;
  amps?: readonly number[];
  kpa?: readonly number[];
  arrivesMs?: number;
}

export function at(ms: number): string {
  return new Date(ms).toISOString();
}

export function message(atMs: number, topic: string, payload: unknown, more: object = {}): string {
  return JSON.stringify({ at: at(atMs), topic: `wells/${topic}`, qos: 1, ...more, payload });
}

export function packLine({
  node = 'barn',
  boot = 5,
  seq,
  atMs,
  everyMs = 10 * S,
  ...rest
}: PackSpec): string {
  const { amps = [], kpa = [] } = rest;
  const records = [
    ...amps.map((v, i) => ({ n: 'current', u: 'A', t: (i * everyMs) / S, v })),
    ...kpa.map((v, i) => ({ n: 'pressure', u: 'Pa', t: (i * everyMs) / S, v: v * 1000 })),
  ];
  const [first, ...others] = records;
  const lastMs = atMs + (Math.max(amps.length, kpa.length) - 1) * everyMs;
  const pack = [{ bn: `${node}:`, bt: atMs / S, boot, seq, ...first }, ...others];
  return message(rest.arrivesMs ?? lastMs + 400, `${node}/readings`, pack);
}

/**
 * A well that runs two of every twelve minutes, a reading each 10 s and a pack a minute: `minutes`
 * packs. The pressure saws between 280 and 410 kPa.
 */
export function days(minutes: number, node = 'barn', fromMs = NINE): PackSpec[] {
  const packs: PackSpec[] = [];
  for (let minute = 0; minute < minutes; minute++) {
    const phase = minute % 12;
    const runs = phase < 2;
    const steps = Array.from({ length: 6 }, (_, i) => phase * 6 + i);
    packs.push({
      node,
      seq: minute + 1,
      atMs: fromMs + minute * 60 * S,
      amps: steps.map((_, i) => (runs ? 7.9 + (i % 3) / 100 : 0.01)),
      kpa: steps.map((step) => (runs ? 280 + step * 11.8 : 421 - (step - 12) * 2.35)),
    });
  }
  return packs;
}

export interface ReplayResult {
  code: number;
  lines: Record<string, unknown>[];
  text: string;
  err: string[];
}

export async function run(
  recording: readonly string[] | Buffer,
  cards: readonly string[] = [],
): Promise<ReplayResult> {
  const bytes = Buffer.isBuffer(recording) ? recording : Buffer.from(`${recording.join('\n')}\n`);
  return runFile('-', cards, Readable.from(inChunks(bytes)));
}

export async function runFile(
  path: string,
  cards: readonly string[],
  stdin = Readable.from([]),
): Promise<ReplayResult> {
  let text = '';
  const err: string[] = [];
  const code = await runReplay(
    { recording: path, cards },
    { stdin, out: (more) => void (text += more), err: (line) => void err.push(line), progress: false },
  );
  const lines = text
    .split('\n')
    .filter(Boolean)
    .map((line): Record<string, unknown> => JSON.parse(line));
  return { code, lines, text, err };
}

/** In odd pieces, as a pipe gives them. */
function inChunks(bytes: Buffer): Buffer[] {
  const pieces: Buffer[] = [];
  for (let from = 0; from < bytes.length; from += 7919) pieces.push(bytes.subarray(from, from + 7919));
  return pieces;
}

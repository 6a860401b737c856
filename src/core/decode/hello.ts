/**
 * `hello`: who a node says it is (contract, section 3), from bytes and to bytes. Seconds on the
 * wire, milliseconds and a unit in the name inside.
 */
import { readJson } from './json/json-bytes.ts';
import type { Hello, Refusal } from './messages.ts';
import { isRefusal, refuse } from './refuse.ts';
import { helloShape } from './shapes.ts';

/** Reads a hello; unknown keys are ignored, a wrong value in a known one refuses it. */
export function readHello(node: string, bytes: Uint8Array): Hello | Refusal {
  if (bytes.length === 0) return refuse('empty', 'hello-empty');
  const read = readJson(bytes);
  if (isRefusal(read)) return read;
  const parsed = helloShape.safeParse(read.value);
  if (!parsed.success) {
    const { path, message: rule } = parsed.error.issues[0]!;
    return path.length === 0
      ? refuse('bad-hello', 'hello-whole', { rule })
      : refuse('bad-hello', 'hello-field', { path: path.join('.'), rule });
  }
  const { up, holds, ...rest } = parsed.data;
  return {
    node,
    ...rest,
    ...(up !== undefined && { upMs: Math.round(up * 1000) }),
    ...(holds !== undefined && { holdsS: holds }),
  };
}

/** The bytes of a hello as a node sends them. */
export function encodeHello(hello: Hello): Uint8Array {
  const { node: _node, upMs, holdsS, channels, ...rest } = hello;
  const message = {
    ...rest,
    ...(upMs !== undefined && { up: upMs / 1000 }),
    ...(holdsS !== undefined && { holds: holdsS }),
    channels,
  };
  return new TextEncoder().encode(JSON.stringify(message));
}

/** Why `node-silent` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const nodeSilentReasons = {
  'node-silent': ({ node, silentS }: { node: string; silentS: number }, { duration }) =>
    `Node ${node} has sent nothing for ${duration(silentS)}. This well is not being watched.`,
  'node-on-pump-circuit-silent': ({ node, silentS }: { node: string; silentS: number }, { duration }) =>
    `Node ${node} has sent nothing for ${duration(silentS)}. The pump's circuit powers it, so the pump may have lost power too.`,
} satisfies ReasonTexts;

/**
 * The shapes of ./shapes.ts as JSON Schema (draft 7, the one that AsyncAPI takes): what stands in
 * firmware-contract/schema/. A test keeps those files equal to what is made here.
 */
import { z } from 'zod';
import { askShape, helloShape, ackShape, packShape, presenceShape } from './shapes.ts';

const SHAPES = {
  pack: packShape,
  hello: helloShape,
  presence: presenceShape,
  kept: ackShape,
  ask: askShape,
} as const;

/** Text of each schema by its file name. */
export function wireSchemas(): Map<string, string> {
  return new Map(
    Object.entries(SHAPES).map(([name, shape]) => {
      const schema = z.toJSONSchema(shape, { target: 'draft-7', io: 'input' });
      return [`${name}.schema.json`, `${JSON.stringify({ ...schema, title: name }, null, 2)}\n`];
    }),
  );
}

/**
 * A server that is going to be killed: commits packs without end and says each `seq` once its
 * commit has returned. Housekeeping is told that days have passed, so that it seals, merges and
 * trims all the time. Run by ./crash.test.ts.
 */
import { writeSync } from 'node:fs';
import { openStore } from '../../src/store/open-store.ts';
import type { Change } from '../../src/store/store.ts';

const [path = '', first = '1'] = process.argv.slice(2);
const store = openStore(path);
const DAY_MS = 86_400_000;

for (let seq = Number(first); ; seq++) {
  const times = Float64Array.from({ length: 10 }, (_, i) => seq * 10_000 + i * 1000);
  const changes: Change[] = [
    {
      change: 'pack',
      pack: {
        node: `node-${seq % 3}`,
        kind: 'readings',
        boot: 1,
        seq,
        arrivalMs: seq * 10_000,
        digest: seq,
        columns: [{ channel: 'current', times, values: times.map((_, i) => (seq % 1000) + i / 100) }],
      },
    },
    { change: 'setting', key: 'seq', value: String(seq) },
  ];
  if (seq <= 3 || seq % 20 === 0) {
    changes.push({
      change: 'node',
      row: { node: `node-${seq % 3}`, approved: true, state: { seq }, savedMs: seq },
    });
  }
  await store.commit(changes);
  if (seq % 10 === 0) await store.maintain(seq * 10_000 + 2 * DAY_MS, 5);
  writeSync(1, `${seq}\n`);
}

import { mkdtempSync, rmSync, truncateSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openDesk } from '../../../src/run/desk.ts';
import { openPackets } from '../../../src/run/packet/packets.ts';
import { openStore } from '../../../src/store/open-store.ts';
import { openPapers } from '../../../src/store/paper-files.ts';

let folder = '';
beforeEach(() => void (folder = mkdtempSync(join(tmpdir(), 'packets-'))));
afterEach(() => rmSync(folder, { recursive: true }));

test('a paper that went bad keeps no well from being handed over, and the page says which it is', () => {
  const [store, papers, now] = [openStore(':memory:'), openPapers(folder), () => Date.UTC(2026, 4, 2)];
  const desk = openDesk({ store, papers, now });
  const hashes = ['log of the well', 'receipt'].map((text) => {
    const kept = desk.addPaper('orchard', { bytes: Buffer.from(text), name: `${text}.txt` });
    if (!('entry' in kept)) throw new Error(kept.no);
    return String(kept.entry.body['hash']);
  });
  truncateSync(join(folder, hashes[0]!.slice(0, 2), hashes[0]!), 3);
  const packets = openPackets({
    store,
    papers,
    now,
    commit: (changes) => store.commit(changes),
    writeCard: () => undefined,
  });
  const zip = Buffer.concat([...packets.zip('orchard')]).toString('latin1');
  expect(zip).toContain(`papers/${hashes[1]!.slice(0, 16)}-receipt.txt`);
  expect(zip).not.toContain(`papers/${hashes[0]!.slice(0, 16)}`);
  const page = packets.page('orchard');
  expect(page.match(/not at hand when this was written/gu)).toHaveLength(1);
  expect(page).toContain('log of the well.txt');
  store.close();
});

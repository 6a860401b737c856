/** How an export's page looks: the styles that it shares with the pages, and its own. */
import { readFileSync } from 'node:fs';

const FILES = ['tones.css', 'view.css', 'file.css'];

export function readPageStyle(): string {
  return FILES.map((name) =>
    readFileSync(new URL(`../../../shared/view/${name}`, import.meta.url), 'utf8'),
  ).join('');
}

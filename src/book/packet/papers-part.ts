/** The papers of the well. Their bytes are in the ZIP, not in the page. */
import { dayOf, entriesOf, type Context } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import { paperFileName } from './paper-names.ts';
import { valueWords } from './plain-words.ts';

const BYTES_PER_KB = 1_000;

export function papersPart(context: Context): Markup {
  const rows = entriesOf(context, 'paper').map(({ atMs, by, body }) => {
    const hash = valueWords(body['hash']);
    return [
      dayOf(context, atMs),
      html`${valueWords(body['name'])}${body['about'] !== undefined && ` (${valueWords(body['about'])})`}${body['text'] !== undefined && html`<br />${valueWords(body['text'])}`}`,
      `${valueWords(body['type'])}, ${sizeWords(body['bytes'])}`,
      context.papers.has(hash)
        ? html`<code>${paperFileName(hash, context.record.entries)}</code>`
        : 'its file was not at hand when this was written',
      by,
    ];
  });
  if (rows.length === 0) return html`<p>None was kept.</p> `;
  return html`<p class="soft">
      The files are in the ZIP that this page came in. The start of each name there is the start of the
      SHA-256 of its content.
    </p>
    ${table(['When', 'Paper', 'What it is', 'In the ZIP as', 'By'], rows)}`;
}

/** "18 bytes", "34 kB", "2.4 MB". */
function sizeWords(bytes: unknown): string {
  if (typeof bytes !== 'number') return 'size not known';
  if (bytes < BYTES_PER_KB) return `${bytes} bytes`;
  const kb = bytes / BYTES_PER_KB;
  return kb < BYTES_PER_KB ? `${Math.round(kb)} kB` : `${(kb / BYTES_PER_KB).toFixed(1)} MB`;
}

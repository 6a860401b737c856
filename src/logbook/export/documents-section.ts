/** The papers of the well. Their bytes are in the ZIP, not in the page. */
import { formatDay, entriesOf, type ExportContext } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import { documentFileName } from './document-names.ts';
import { formatValue } from './key-names.ts';

const BYTES_PER_KB = 1_000;

export function documentsSection(context: ExportContext): Markup {
  const rows = entriesOf(context, 'paper').map(({ atMs, by, body }) => {
    const hash = formatValue(body['hash']);
    return [
      formatDay(context, atMs),
      html`${formatValue(body['name'])}${body['about'] !== undefined && ` (${formatValue(body['about'])})`}${body['text'] !== undefined && html`<br />${formatValue(body['text'])}`}`,
      `${formatValue(body['type'])}, ${formatBytes(body['bytes'])}`,
      context.availableDocuments.has(hash)
        ? html`<code>${documentFileName(hash, context.record.entries)}</code>`
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
function formatBytes(bytes: unknown): string {
  if (typeof bytes !== 'number') return 'size not known';
  if (bytes < BYTES_PER_KB) return `${bytes} bytes`;
  const kb = bytes / BYTES_PER_KB;
  return kb < BYTES_PER_KB ? `${Math.round(kb)} kB` : `${(kb / BYTES_PER_KB).toFixed(1)} MB`;
}

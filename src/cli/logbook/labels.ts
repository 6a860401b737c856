/**
 * `stillwell labels`: labels to print for tank, switch, control box, panel and well head, as a file
 * or as their facts in text.
 */
import type { Label } from '../../../shared/api/labels.ts';
import { SHEETS, type Sheet } from '../../../shared/labels/sheets.ts';
import { LABEL_KINDS } from '../../../shared/text/en/label-words.ts';
import { EXIT, UsageError, type CommandBuilder, type Io } from '../command.ts';
import { requireNewFile, writeNewFile } from '../files.ts';
import { labelPage, labelSvgs, leftOffLabels, type LabelPrint } from './label-file.tsx';
import { JSON_OPTION, SERVER_OPTION, UNITS_OPTION, wholeNumber } from '../options.ts';
import { serverApi } from '../server-api.ts';

export const labelsCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(
      'Print labels for tank, switch, control box, panel and well head. ' +
        'Each label has its facts in a code that a phone reads without a network. ' +
        'Without a file, the facts are listed. The server must be running.',
    )
    .argument('<well>', 'Name of the well.')
    .argument(
      '[file]',
      'File to make: .html for pages that print in their real size, .svg for one file a sheet. ' +
        'A file that exists is left as it is.',
    )
    .option('--sheet <sheet>', 'Sheet to print on, from the list below.')
    .option('--only <kinds>', `Only these labels, separated by commas: ${LABEL_KINDS.join(',')}.`)
    .option('--first <n>', 'First free place on label stock, row by row. Default: 1.')
    .addOption(UNITS_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText(
      'after',
      `
Sheets:
${SHEETS.map(({ id, name }) => `  ${id.padEnd(18)}${name}`).join('\n')}
Default: ${defaultSheet('us').id} with US units, ${defaultSheet('metric').id} with metric units.

Example:
  stillwell labels mill mill-labels.html
Print at actual size (100 %).`,
    )
    .action(
      action(async (well, out, flags) => {
        const { units = 'us', only, json, server } = flags;
        const sheet = flags.sheet === undefined ? defaultSheet(units) : findSheet(flags.sheet);
        const places = wholeNumber('--first', { from: 1, to: sheet.columns * sheet.rows });
        const first = flags.first === undefined ? 1 : places(flags.first);
        const labels = onlyKinds((await serverApi(server).get('labels', { well }))[units], only);
        if (out !== undefined) return write(io, out, labels, { sheet, first, title: `Labels, ${well}` });
        for (const label of labels)
          for (const line of json ? [JSON.stringify(label)] : factLines(label)) io.out(line);
        return EXIT.ok;
      }),
    );
};

function factLines({ plainText, title }: Label): readonly string[] {
  return plainText.length === 0 ? [`${title}: to fill in by hand`] : plainText;
}

function defaultSheet(units: 'us' | 'metric'): Sheet {
  return SHEETS.find(({ paper }) => (paper === 'letter') === (units === 'us')) ?? SHEETS[0]!;
}

function findSheet(id: string): Sheet {
  const sheet = SHEETS.find((one) => one.id === id);
  if (!sheet)
    throw new UsageError(
      `Cannot read --sheet: it must be one of ${SHEETS.map((one) => one.id).join(', ')}: ${id}`,
    );
  return sheet;
}

/** @throws UsageError where a kind is none, or the well has no such label. */
function onlyKinds(labels: readonly Label[], only: string | undefined): Label[] {
  if (only === undefined) return [...labels];
  const kinds = only.split(',').map((kind) => kind.trim());
  const unknown = kinds.find((kind) => !labels.some((label) => label.kind === kind));
  if (unknown !== undefined)
    throw new UsageError(
      `Cannot print a label for ${unknown}: the labels of this well are ${[...new Set(labels.map(({ kind }) => kind))].join(', ')}`,
    );
  return labels.filter(({ kind }) => kinds.includes(kind));
}

function write(io: Io, out: string, labels: readonly Label[], print: LabelPrint): number {
  const files = filesOf(out, labels, print);
  for (const { path } of files) requireNewFile(path);
  for (const { path, text } of files) {
    writeNewFile(path, text);
    io.out(`${path}: ${labels.length} labels, ${print.sheet.name}`);
  }
  for (const [title, facts] of leftOffLabels(labels, print))
    io.err(`${title}: no room at this size for ${facts.join(', ')}`);
  return EXIT.ok;
}

function filesOf(out: string, labels: readonly Label[], print: LabelPrint): { path: string; text: string }[] {
  if (/\.html$/i.test(out)) return [{ path: out, text: labelPage(labels, print) }];
  if (!/\.svg$/i.test(out)) throw new UsageError(`Cannot write ${out}: its name must end in .html or .svg`);
  return labelSvgs(labels, print).map((text, at) => ({
    path: at === 0 ? out : out.replace(/\.svg$/i, `-${at + 1}$&`),
    text,
  }));
}

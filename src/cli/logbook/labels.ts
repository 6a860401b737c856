/** `stillwell labels`: labels to print for tank, switch, control box, panel and well head, as a file or as their facts in text. */
import { existsSync, writeFileSync } from 'node:fs';
import type { Label } from '../../../shared/api/labels.ts';
import { SHEETS, type Sheet } from '../../../shared/labels/sheets.ts';
import { LABEL_KINDS } from '../../../shared/text/en/label-words.ts';
import { EXIT, UsageError, type Command, type Io } from '../command.ts';
import { labelPage, labelSvgs, leftOffLabels, type LabelPrint } from './label-file.ts';
import { readOptions, readUnits, readWhole } from '../options.ts';
import { serverApi } from '../server-api.ts';
import { SERVER_HELP, SERVER_OPTIONS, requireName, rejectExtra } from './write-entry.ts';

const OPTIONS = {
  ...SERVER_OPTIONS,
  sheet: { type: 'string' },
  only: { type: 'string' },
  first: { type: 'string' },
  units: { type: 'string' },
} as const;

export const labelsCommand: Command = {
  name: 'labels',
  usage: 'labels WELL [OUT.html | OUT.svg]',
  about: 'Labels to print for tank, switch, control box, panel and well head, each with its facts in a code.',
  more: `The server must be running. Without OUT the facts are listed. OUT.html is a page that prints on the sheet's own size without a
server; OUT.svg is one sheet, and OUT-2.svg a second. Print at actual size (100 %). A file that is there already is left alone.

  --sheet SHEET     what they are printed on:
${SHEETS.map(({ id, name }) => `                      ${id.padEnd(18)}${name}`).join('\n')}
                    (${defaultSheet('us').id} with US units, ${defaultSheet('metric').id} with metric ones unless given)
  --only KINDS      only these: ${LABEL_KINDS.join(',')}
  --first N         on label stock: the first place that is free, row by row (1 unless given)
  --units UNITS     us (unless given) or metric

${SERVER_HELP}`,
  async run(args, io) {
    const { flags, names } = readOptions(args, OPTIONS);
    const [name, out, ...rest] = names;
    rejectExtra(rest);
    const well = requireName(name, 'labels WELL OUT.html');
    const units = readUnits(flags.units) ?? 'us';
    const sheet = flags.sheet === undefined ? defaultSheet(units) : findSheet(flags.sheet);
    const places = { from: 1, to: sheet.columns * sheet.rows };
    const print = { sheet, first: readWhole('first', flags.first, places) ?? 1, title: `Labels, ${well}` };
    const all = (await serverApi(flags.server).get('labels', { well }))[units];
    const labels = onlyKinds(all, flags.only);
    if (out !== undefined) return write(io, out, labels, print);
    for (const label of labels)
      if (flags.json === true) io.out(JSON.stringify(label));
      else
        for (const line of label.plainText.length === 0
          ? [`${label.title}: to fill in by hand`]
          : label.plainText)
          io.out(line);
    return EXIT.ok;
  },
};

function defaultSheet(units: 'us' | 'metric'): Sheet {
  return SHEETS.find(({ paper }) => (paper === 'letter') === (units === 'us')) ?? SHEETS[0]!;
}

function findSheet(id: string): Sheet {
  const sheet = SHEETS.find((one) => one.id === id);
  if (!sheet)
    throw new UsageError(
      `Cannot read --sheet: one of ${SHEETS.map((one) => one.id).join(', ')} is expected: ${id}`,
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
      `Cannot print a label for ${unknown}: this well has ${[...new Set(labels.map(({ kind }) => kind))].join(', ')}`,
    );
  return labels.filter(({ kind }) => kinds.includes(kind));
}

function write(io: Io, out: string, labels: readonly Label[], print: LabelPrint): number {
  const files = filesOf(out, labels, print);
  const there = files.find(({ path }) => existsSync(path));
  if (there) throw new Error(`Cannot write ${there.path}: it is there already; choose another name`);
  for (const { path, text } of files) {
    writeFileSync(path, text, { flag: 'wx' });
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

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
import { jsonOption, serverOption, unitsOption, wholeNumber } from '../options.ts';
import { serverApi } from '../server-api.ts';
import { sheetName } from '../../../shared/text/en/sheet-names.ts';
import { texts } from './texts.ts';

export const labelsCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(texts().printLabelsForTankSwitch)
    .argument('<well>', texts().nameOfTheWell)
    .argument('[file]', texts().fileToMakeHtml)
    .option('--sheet <sheet>', texts().sheetToPrint)
    .option('--only <kinds>', texts().onlyTheseLabelsSeparated(LABEL_KINDS.join(',')))
    .option('--first <n>', texts().firstFreePlaceOnLabel)
    .addOption(unitsOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText(
      'after',
      texts().sheetsAndExampleOfLabels({
        sheets: SHEETS.map((one) => `  ${one.id.padEnd(18)}${sheetName(one)}`).join('\n'),
        id: defaultSheet('us').id,
        metricId: defaultSheet('metric').id,
      }),
    )
    .action(
      action(async (well, out, flags) => {
        const { units = 'us', only, json, server } = flags;
        const sheet = flags.sheet === undefined ? defaultSheet(units) : findSheet(flags.sheet);
        const places = wholeNumber('--first', { from: 1, to: sheet.columns * sheet.rows });
        const first = flags.first === undefined ? 1 : places(flags.first);
        const labels = onlyKinds((await serverApi(server).get('labels', { well }))[units], only);
        if (out !== undefined) return write(io, out, labels, { sheet, first, title: texts().labelsOf(well) });
        for (const label of labels)
          for (const line of json ? [JSON.stringify(label)] : factLines(label)) io.out(line);
        return EXIT.ok;
      }),
    );
};

function factLines({ plainText, title }: Label): readonly string[] {
  return plainText.length === 0 ? [texts().toFillInByHand(title)] : plainText;
}

function defaultSheet(units: 'us' | 'metric'): Sheet {
  return SHEETS.find(({ paper }) => (paper === 'letter') === (units === 'us')) ?? SHEETS[0]!;
}

function findSheet(id: string): Sheet {
  const sheet = SHEETS.find((one) => one.id === id);
  if (!sheet)
    throw new UsageError(texts().itMustBeOne({ sheets: SHEETS.map((one) => one.id).join(', '), id }));
  return sheet;
}

/** @throws UsageError where a kind is none, or the well has no such label. */
function onlyKinds(labels: readonly Label[], only: string | undefined): Label[] {
  if (only === undefined) return [...labels];
  const kinds = only.split(',').map((kind) => kind.trim());
  const unknown = kinds.find((kind) => !labels.some((label) => label.kind === kind));
  if (unknown !== undefined)
    throw new UsageError(
      texts().labelsOfThisWell({ unknown, list: [...new Set(labels.map(({ kind }) => kind))].join(', ') }),
    );
  return labels.filter(({ kind }) => kinds.includes(kind));
}

function write(io: Io, out: string, labels: readonly Label[], print: LabelPrint): number {
  const files = filesOf(out, labels, print);
  for (const { path } of files) requireNewFile(path);
  for (const { path, text } of files) {
    writeNewFile(path, text);
    io.out(texts().labelsWritten({ path, count: labels.length, sheet: sheetName(print.sheet) }));
  }
  for (const [title, facts] of leftOffLabels(labels, print))
    io.err(texts().noRoomAtThisSize({ title, facts: facts.join(', ') }));
  return EXIT.ok;
}

function filesOf(out: string, labels: readonly Label[], print: LabelPrint): { path: string; text: string }[] {
  if (/\.html$/i.test(out)) return [{ path: out, text: labelPage(labels, print) }];
  if (!/\.svg$/i.test(out)) throw new UsageError(texts().itsNameMustEndInHtml(out));
  return labelSvgs(labels, print).map((text, at) => ({
    path: at === 0 ? out : out.replace(/\.svg$/i, `-${at + 1}$&`),
    text,
  }));
}

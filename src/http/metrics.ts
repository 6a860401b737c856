/**
 * Prints metric families as OpenMetrics text. Format: OpenMetrics 1.0: TYPE, UNIT and HELP lines, a
 * counter's sample ends in `_total`, label values are escaped, and the text ends in `# EOF`.
 */
type Labels = Record<string, string>;

export interface MetricFamily {
  /** Without `_total`; ends in the unit where there is one: `stillwell_commit_seconds`. */
  name: string;
  type: 'counter' | 'gauge';
  help: string;
  /** A base unit: `seconds`, `bytes`. */
  unit?: string;
  samples: { labels?: Labels; value: number }[];
}

const NAME = /^[a-z][a-z0-9_]*$/;

export const OPENMETRICS_TYPE = 'application/openmetrics-text; version=1.0.0; charset=utf-8';

/**
 * The families as text.
 * @throws RangeError for a name, label or unit that the format does not allow: a fault of our own.
 */
export function formatMetrics(families: readonly MetricFamily[]): string {
  return `${families.map(formatFamily).join('')}# EOF\n`;
}

function formatFamily(family: MetricFamily): string {
  checkNames(family);
  const { name, type, unit, help } = family;
  const suffix = type === 'counter' ? '_total' : '';
  const samples = family.samples.map(
    ({ labels, value }) => `${name}${suffix}${formatLabels(labels)} ${formatNumber(value)}\n`,
  );
  return [
    `# TYPE ${name} ${type}\n`,
    ...(unit === undefined ? [] : [`# UNIT ${name} ${unit}\n`]),
    `# HELP ${name} ${escape(help)}\n`,
    ...samples,
  ].join('');
}

function checkNames(family: MetricFamily): void {
  const labels = family.samples.flatMap(({ labels }) => Object.keys(labels ?? {}));
  const wrong = [family.name, ...labels].find((name) => !NAME.test(name));
  if (wrong !== undefined) throw new RangeError(`Cannot print metrics: a name must match ${NAME}: ${wrong}`);
  if (family.unit !== undefined && !family.name.endsWith(`_${family.unit}`)) {
    throw new RangeError(`Cannot print metrics: ${family.name} must end in its unit ${family.unit}`);
  }
}

function formatLabels(labels: Labels = {}): string {
  const pairs = Object.entries(labels).map(([name, value]) => `${name}="${escape(value)}"`);
  return pairs.length === 0 ? '' : `{${pairs.join(',')}}`;
}

function escape(text: string): string {
  return text.replaceAll('\\', '\\\\').replaceAll('\n', '\\n').replaceAll('"', '\\"');
}

function formatNumber(value: number): string {
  if (Number.isNaN(value)) return 'NaN';
  if (!Number.isFinite(value)) return value > 0 ? '+Inf' : '-Inf';
  return String(value);
}

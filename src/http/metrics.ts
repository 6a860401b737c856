/**
 * Prints metric families as OpenMetrics text. Format: OpenMetrics 1.0: TYPE, UNIT and HELP lines, a
 * counter's sample ends in `_total`, label values are escaped, and the text ends in `# EOF`.
 */
type Labels = Record<string, string>;

interface Named {
  /** Without `_total`; ends in the unit where there is one: `stillwell_commit_seconds`. */
  name: string;
  help: string;
  /** A base unit: `seconds`, `bytes`. */
  unit?: string;
}

interface SampledFamily extends Named {
  type: 'counter' | 'gauge';
  samples: { labels?: Labels; value: number }[];
}

/** How many came within each bound. */
interface HistogramFamily extends Named {
  type: 'histogram';
  bounds: readonly number[];
  /** One number a bound, and one more: all of them. */
  cumulative: readonly number[];
  sum: number;
}

export type MetricFamily = SampledFamily | HistogramFamily;

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
  return [
    `# TYPE ${name} ${type}\n`,
    ...(unit === undefined ? [] : [`# UNIT ${name} ${unit}\n`]),
    `# HELP ${name} ${escape(help)}\n`,
    ...(family.type === 'histogram' ? formatBuckets(family) : formatSamples(family)),
  ].join('');
}

function formatSamples({ name, type, samples }: SampledFamily): string[] {
  const suffix = type === 'counter' ? '_total' : '';
  return samples.map(
    ({ labels, value }) => `${name}${suffix}${formatLabels(labels)} ${formatNumber(value)}\n`,
  );
}

function formatBuckets({ name, bounds, cumulative, sum }: HistogramFamily): string[] {
  return [
    ...[...bounds, Number.POSITIVE_INFINITY].map(
      (bound, k) => `${name}_bucket{le="${formatBound(bound)}"} ${formatNumber(cumulative[k] ?? 0)}\n`,
    ),
    `${name}_count ${formatNumber(cumulative.at(-1) ?? 0)}\n`,
    `${name}_sum ${formatNumber(sum)}\n`,
  ];
}

/** OpenMetrics writes a bound as a float: `1.0`. */
function formatBound(bound: number): string {
  return Number.isInteger(bound) ? `${bound}.0` : formatNumber(bound);
}

function checkNames(family: MetricFamily): void {
  const labels =
    family.type === 'histogram' ? [] : family.samples.flatMap(({ labels }) => Object.keys(labels ?? {}));
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

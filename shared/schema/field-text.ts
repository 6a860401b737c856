/**
 * How a field is written, in one line for whoever fills it in by hand or by program: for the
 * contract's tables and the API's schema.
 */
import { MAX_CURVE_POINTS, WIRE_AREA } from '../card/limits.ts';
import { expectedText } from '../quantity/parse-quantity.ts';
import { rangeText, type Field } from './field.ts';

export function fieldText(field: Field): string {
  switch (field.kind) {
    case 'quantity':
      return `${expectedText(field.dimension)}, ${rangeText(field.range)}`;
    case 'number':
    case 'integer':
      return rangeText(field.range);
    case 'flag':
      return 'true or false';
    case 'choice':
      return `one of ${field.options.map((option) => `\`${option}\``).join(', ')}`;
    case 'choices':
      return `one of ${field.options.map((option) => `\`${option}\``).join(', ')}, or a list of them`;
    case 'choice-list':
      return `a list of ${field.options.map((option) => `\`${option}\``).join(', ')}`;
    case 'text':
      return `text in one line, at most ${field.maxCharacters} characters`;
    case 'lines':
      return `a list of at most ${field.maxItems} lines, each at most ${field.maxCharacters} characters`;
    case 'date':
      return 'a date such as `"2019-05-14"`, `"2019-05"` or `"2019"`';
    case 'moment':
      return 'a time such as `"2026-03-12T10:00:00Z"`';
    case 'name':
      return '1 to 40 of a-z, 0-9 and -';
    case 'pump':
      return 'a pump: `p1` to `p15`';
    case 'channel':
      return 'a channel, such as `current` or `p2/current`';
    case 'point-pairs':
      return 'two pairs of numbers, `[[read, true], [read, true]]`, in the unit of the channel';
    case 'time-zone':
      return 'a time zone of the IANA list';
    case 'switch-points':
      return `two pressures, cut-in first, each ${rangeText(field.range)}; psi where no unit stands: \`"40/60"\``;
    case 'wire-size':
      return `a wire size in AWG, kcmil or mm2, ${rangeText(WIRE_AREA)}`;
    case 'curve':
      return `a list of at most ${MAX_CURVE_POINTS} lines, each a flow and a head: \`"10 gpm at 180 ft"\``;
    case 'position':
      return 'latitude and longitude in decimal degrees, north and east positive: `"40.01, -105.27"`';
    case 'documents':
      return `a list of at most ${field.maxItems} documents, each by the SHA-256 of its bytes in hex`;
    case 'document':
      return 'the SHA-256 of its bytes in hex';
    case 'object':
      return `an object of ${Object.keys(field.fields).join(', ')}`;
    case 'special':
      return field.rule;
    default:
      return field satisfies never;
  }
}

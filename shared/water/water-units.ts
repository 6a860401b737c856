/**
 * Units of laboratory reports, each read into the one that is kept for its measure: mg/L, pCi/L, a count in 100 mL, pH, NTU, colour
 * units, threshold odour number, uS/cm. A litre of drinking water weighs a kilogram within a few parts in a thousand, so that ppm is
 * read as mg/L, with a remark. Factors: SI prefixes; 1 grain per US gallon is 64.79891 mg / 3.785411784 L = 17.118061 mg/L (exact
 * grain and gallon); 1 pCi is 0.037 Bq exactly.
 */
import { analyte, type AnalyteKey, type Measure } from './analytes.ts';
import { FORM_WORDS, type Form } from './forms.ts';

const KEPT_UNITS: Record<Measure, string> = {
  mass: 'mg/L',
  activity: 'pCi/L',
  count: 'per 100 mL',
  ph: '',
  turbidity: 'NTU',
  colour: 'colour units',
  odour: 'TON',
  conductivity: 'uS/cm',
};

const MG_PER_L_PER_GRAIN_PER_GAL = 64.79891 / 3.785411784;
const PCI_PER_BQ = 1 / 0.037;

interface WaterUnit {
  name: string;
  /** Without spaces, in lower case. */
  also?: readonly string[];
  measure: Measure;
  /** From this unit to the kept one. */
  times: number;
  remark?: string;
}

const AS_MG_PER_L = 'taken as mg/L: a litre of drinking water weighs very nearly a kilogram';

/** The first of each measure is the one kept; a page offers them in this order. */
export const WATER_UNITS: readonly WaterUnit[] = [
  { name: 'mg/L', measure: 'mass', times: 1 },
  { name: 'ug/L', also: ['mcg/l'], measure: 'mass', times: 1e-3 },
  { name: 'ng/L', measure: 'mass', times: 1e-6 },
  { name: 'ppm', measure: 'mass', times: 1, remark: `ppm ${AS_MG_PER_L}` },
  { name: 'ppb', measure: 'mass', times: 1e-3, remark: `ppb, thousandths of ppm, which is ${AS_MG_PER_L}` },
  { name: 'ppt', measure: 'mass', times: 1e-6, remark: `ppt, millionths of ppm, which is ${AS_MG_PER_L}` },
  {
    name: 'grains per gallon',
    also: ['gpg', 'gr/gal', 'grains/gal', 'grains/gallon', 'grain/gal', 'grain/gallon'],
    measure: 'mass',
    times: MG_PER_L_PER_GRAIN_PER_GAL,
    remark: 'grains per US gallon: 17.118 mg/L each',
  },
  { name: 'pCi/L', measure: 'activity', times: 1 },
  { name: 'Bq/L', measure: 'activity', times: PCI_PER_BQ },
  {
    name: 'per 100 mL',
    also: [
      '/100ml',
      'mpn/100ml',
      'cfu/100ml',
      'colonies/100ml',
      'mpnper100ml',
      'cfuper100ml',
      'coloniesper100ml',
    ],
    measure: 'count',
    times: 1,
  },
  { name: 'pH', also: ['su', 'units', 'phunits', 'standardunits', 'stdunits'], measure: 'ph', times: 1 },
  { name: 'NTU', measure: 'turbidity', times: 1 },
  {
    name: 'colour units',
    also: ['colorunits', 'cu', 'pcu', 'pt-co', 'ptco', 'pt-counits', 'acu', 'tcu'],
    measure: 'colour',
    times: 1,
  },
  { name: 'TON', measure: 'odour', times: 1 },
  { name: 'uS/cm', also: ['umhos/cm', 'umho/cm'], measure: 'conductivity', times: 1 },
  { name: 'mS/cm', also: ['mmhos/cm'], measure: 'conductivity', times: 1000 },
];

/**
 * Molar masses, g/mol: N 14.0067, NO3 62.0049, NO2 46.0055 (IUPAC standard atomic weights, from memory). So nitrate as NO3 is 4.4268
 * times nitrate as N, and nitrite as NO2 3.2845 times.
 */
const PER_N: Partial<Record<Form, number>> = { N: 1, NO3: 62.0049 / 14.0067, NO2: 46.0055 / 14.0067 };

export interface ReadUnit {
  /** From the number as written to the kept unit and form. */
  times: number;
  remark?: string;
}

/** How a unit is read for an analyte, or the rule that it breaks. `named`: the form that the analyte's name already says. */
export function readWaterUnit(
  text: string,
  key: AnalyteKey,
  named?: Form,
): { unit: ReadUnit } | { problem: string } {
  const { measure, forms, formNeeded } = analyte(key);
  const { bare, form: written } = splitForm(text);
  const unit = WATER_UNITS.find((one) => one.measure === measure && isNamed(one, bare));
  if (!unit) return { problem: `must be ${unitsOf(measure)}` };
  if (written !== undefined && named !== undefined && written !== named)
    return { problem: `must fit the name: the name says as ${named} and the unit as ${written}` };
  const form = written ?? named;
  if (form !== undefined && !(forms ?? []).includes(form))
    return { problem: `must not be as ${form}: ${analyte(key).name} is not given so` };
  if (form === undefined && formNeeded)
    return {
      problem: `must say as what, ${(forms ?? []).map((one) => `as ${one}`).join(' or ')}; the report says which`,
    };
  const perKept = form === undefined ? 1 : (PER_N[form] ?? 1);
  return {
    unit: { times: unit.times / perKept, ...(unit.remark === undefined ? {} : { remark: unit.remark }) },
  };
}

/** The unit in which an analyte is kept, as it is printed: "mg/L as N". */
export function keptUnit(key: AnalyteKey): string {
  const { measure, forms } = analyte(key);
  return forms?.[0] === undefined ? KEPT_UNITS[measure] : `${KEPT_UNITS[measure]} as ${forms[0]}`;
}

/** What a page offers for an analyte: units with their form, the usual one first. */
export function unitsOffered(key: AnalyteKey): string[] {
  const { measure, forms } = analyte(key);
  const names = WATER_UNITS.filter((one) => one.measure === measure).map(({ name }) => name);
  const fitting = key === 'hardness' ? names : names.filter((name) => name !== 'grains per gallon');
  if (!forms || forms.length === 1) return fitting;
  return forms.flatMap((form) => fitting.map((name) => `${name} as ${form}`));
}

function unitsOf(measure: Measure): string {
  const names = WATER_UNITS.filter((one) => one.measure === measure).map(({ name }) => name);
  return names.length === 1 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} or ${names.at(-1) ?? ''}`;
}

function isNamed({ name, also = [] }: WaterUnit, bare: string): boolean {
  return name.toLowerCase().replaceAll(' ', '') === bare || also.includes(bare);
}

/** "mg/L as N", "mg/L NO3-N", "mg/L-N" -> the bare unit without spaces, and the form. */
function splitForm(text: string): { bare: string; form?: Form } {
  const plain = text
    .trim()
    .toLowerCase()
    .replaceAll(/[µμ]/g, 'u')
    .replaceAll(/[()]/g, '')
    .replaceAll(/\s+/g, ' ')
    .replaceAll('liter', 'l')
    .replaceAll('litre', 'l');
  const parts = /^(.+?)(?: as |[ -])(no3-n|no2-n|n|nitrogen|no3|nitrate|no2|nitrite|caco3|cl2)$/.exec(plain);
  const form = parts && FORM_WORDS[parts[2] ?? ''];
  const bare = (parts?.[1] ?? plain).replaceAll(/[ .]/g, '');
  return form ? { bare, form } : { bare };
}

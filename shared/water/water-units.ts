/**
 * Units of laboratory reports, each read into the one that is kept for its measure: mg/L, pCi/L, a
 * count in 100 mL, pH, NTU, colour units, threshold odour number, uS/cm. A litre of drinking water
 * weighs a kilogram within a few parts in a thousand, so that ppm is read as mg/L, with a remark.
 * Factors: SI prefixes; 1 grain per US gallon is 64.79891 mg / 3.785411784 L = 17.118061 mg/L
 * (exact grain and gallon); 1 pCi is 0.037 Bq exactly.
 */
import { analyte, type AnalyteKey, type MeasureKind } from './analytes.ts';
import { FORMS_BY_TEXT, type Form } from './forms.ts';
import { texts } from './texts.ts';
import { analyteName } from '../text/en/logbook/analyte-names.ts';
import type { UnitRemark } from '../text/en/refusals/water-rules.ts';

const CANONICAL_UNITS: Record<MeasureKind, string> = {
  mass: 'mg/L',
  activity: 'pCi/L',
  count: 'per 100 mL',
  plate: 'per mL',
  ph: '',
  turbidity: 'NTU',
  colour: 'color units',
  odour: 'TON',
  conductivity: 'uS/cm',
};

const MG_PER_L_PER_GRAIN_PER_GAL = 64.79891 / 3.785411784;
const PCI_PER_BQ = 1 / 0.037;

interface WaterUnit {
  name: string;
  /** Without spaces, in lower case. */
  aliases?: readonly string[];
  measure: MeasureKind;
  /** From this unit to the kept one. */
  factor: number;
  remark?: UnitRemark;
}

/** The first of each measure is the one kept; a page offers them in this order. */
export const WATER_UNITS: readonly WaterUnit[] = [
  { name: 'mg/L', measure: 'mass', factor: 1 },
  { name: 'ug/L', aliases: ['mcg/l'], measure: 'mass', factor: 1e-3 },
  { name: 'ng/L', measure: 'mass', factor: 1e-6 },
  { name: 'ppm', measure: 'mass', factor: 1, remark: 'ppm' },
  { name: 'ppb', measure: 'mass', factor: 1e-3, remark: 'ppb' },
  { name: 'ppt', measure: 'mass', factor: 1e-6, remark: 'ppt' },
  {
    name: 'grains per gallon',
    aliases: ['gpg', 'gr/gal', 'grains/gal', 'grains/gallon', 'grain/gal', 'grain/gallon'],
    measure: 'mass',
    factor: MG_PER_L_PER_GRAIN_PER_GAL,
    remark: 'grains',
  },
  { name: 'pCi/L', measure: 'activity', factor: 1 },
  { name: 'Bq/L', measure: 'activity', factor: PCI_PER_BQ },
  {
    name: 'per 100 mL',
    aliases: [
      '/100ml',
      'mpn/100ml',
      'cfu/100ml',
      'colonies/100ml',
      'mpnper100ml',
      'cfuper100ml',
      'coloniesper100ml',
    ],
    measure: 'count',
    factor: 1,
  },
  { name: 'per mL', aliases: ['/ml', 'cfu/ml', 'colonies/ml', 'mpn/ml'], measure: 'plate', factor: 1 },
  { name: 'pH', aliases: ['su', 'units', 'phunits', 'standardunits', 'stdunits'], measure: 'ph', factor: 1 },
  { name: 'NTU', measure: 'turbidity', factor: 1 },
  {
    name: 'color units',
    aliases: ['colourunits', 'cu', 'pcu', 'pt-co', 'ptco', 'pt-counits', 'acu', 'tcu'],
    measure: 'colour',
    factor: 1,
  },
  { name: 'TON', measure: 'odour', factor: 1 },
  { name: 'uS/cm', aliases: ['umhos/cm', 'umho/cm'], measure: 'conductivity', factor: 1 },
  { name: 'mS/cm', aliases: ['mmhos/cm'], measure: 'conductivity', factor: 1000 },
];

/**
 * Molar masses, g/mol: N 14.0067, NO3 62.0049, NO2 46.0055 (IUPAC standard atomic weights, from
 * memory). So nitrate as NO3 is 4.4268 times nitrate as N, and nitrite as NO2 3.2845 times.
 */
const FORM_MASS_PER_N: Partial<Record<Form, number>> = {
  N: 1,
  NO3: 62.0049 / 14.0067,
  NO2: 46.0055 / 14.0067,
};

export interface UnitConversion {
  /** From the number as written to the kept unit and form. */
  factor: number;
  remark?: string;
}

/**
 * How a unit is read for an analyte, or the rule that it breaks. `namedForm`: the form that the
 * analyte's name already says.
 */
export function readWaterUnit(
  text: string,
  key: AnalyteKey,
  namedForm?: Form,
): { unit: UnitConversion } | { problem: string } {
  const { measure, forms, formRequired } = analyte(key);
  const { bare, form: written } = splitUnitAndForm(text);
  const unit = WATER_UNITS.find((one) => one.measure === measure && matchesUnit(one, bare));
  if (!unit) return { problem: texts().mustBeOneOf(unitNames(measure)) };
  if (written !== undefined && namedForm !== undefined && written !== namedForm)
    return { problem: texts().mustFitTheName({ name: namedForm, unit: written }) };
  const form = written ?? namedForm;
  if (form !== undefined && !(forms ?? []).includes(form))
    return { problem: texts().mustNotBeAs({ form, analyte: analyteName(key) }) };
  if (form === undefined && formRequired) return { problem: texts().mustSayAsWhat(forms ?? []) };
  const perKept = form === undefined ? 1 : (FORM_MASS_PER_N[form] ?? 1);
  return {
    unit: {
      factor: unit.factor / perKept,
      ...(unit.remark === undefined ? {} : { remark: texts().remarks[unit.remark] }),
    },
  };
}

/** The unit in which an analyte is kept, as it is printed: "mg/L as N". */
export function canonicalUnit(key: AnalyteKey): string {
  const { measure, forms } = analyte(key);
  return forms?.[0] === undefined ? CANONICAL_UNITS[measure] : `${CANONICAL_UNITS[measure]} as ${forms[0]}`;
}

/** What a page offers for an analyte: units with their form, the usual one first. */
export function offeredUnits(key: AnalyteKey): string[] {
  const { measure, forms } = analyte(key);
  const names = unitNames(measure);
  const fitting = key === 'hardness' ? names : names.filter((name) => name !== 'grains per gallon');
  if (!forms || forms.length === 1) return fitting;
  return forms.flatMap((form) => fitting.map((name) => `${name} as ${form}`));
}

function unitNames(measure: MeasureKind): string[] {
  return WATER_UNITS.filter((one) => one.measure === measure).map(({ name }) => name);
}

function matchesUnit({ name, aliases = [] }: WaterUnit, bare: string): boolean {
  return name.toLowerCase().replaceAll(' ', '') === bare || aliases.includes(bare);
}

/** "mg/L as N", "mg/L NO3-N", "mg/L-N" -> the bare unit without spaces, and the form. */
function splitUnitAndForm(text: string): { bare: string; form?: Form } {
  const plain = text
    .trim()
    .toLowerCase()
    .replaceAll(/[µμ]/g, 'u')
    .replaceAll(/[()]/g, '')
    .replaceAll(/\s+/g, ' ')
    .replaceAll('liter', 'l')
    .replaceAll('litre', 'l');
  const parts = /^(.+?)(?: as |[ -])(no3-n|no2-n|n|nitrogen|no3|nitrate|no2|nitrite|caco3|cl2)$/.exec(plain);
  const form = parts && FORMS_BY_TEXT[parts[2] ?? ''];
  const bare = (parts?.[1] ?? plain).replaceAll(/[ .]/g, '');
  return form ? { bare, form } : { bare };
}

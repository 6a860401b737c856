/**
 * What laboratories look for in well water, as far as limits are kept here (./limits.ts). The other
 * names that reports use stand with the texts. An analyte that is not in this table is kept as it
 * was written and compared with nothing.
 */
import { analyteAliases } from '../text/en/logbook/analyte-aliases.ts';
import { analyteName } from '../text/en/logbook/analyte-names.ts';
import { FORMS_BY_TEXT, type Form } from './forms.ts';

/** What is measured of it; each has one unit inside (./water-units.ts). */
export type MeasureKind =
  'mass' | 'activity' | 'count' | 'plate' | 'ph' | 'turbidity' | 'colour' | 'odour' | 'conductivity';

interface Analyte {
  measure: MeasureKind;
  /** Forms in which reports give it; the first is the one kept. Absent: as itself. */
  forms?: readonly Form[];
  /** A result without its form is refused, because the forms lie far apart. */
  formRequired?: true;
}

const MASS: Analyte = { measure: 'mass' };

export const ANALYTES = {
  'total-coliform': { measure: 'count' },
  'e-coli': { measure: 'count' },
  'fecal-coliform': { measure: 'count' },
  nitrate: {
    measure: 'mass',
    forms: ['N', 'NO3'],
    formRequired: true,
  },
  nitrite: {
    measure: 'mass',
    forms: ['N', 'NO2'],
    formRequired: true,
  },
  'nitrate-nitrite': {
    measure: 'mass',
    forms: ['N'],
    formRequired: true,
  },
  enterococci: { measure: 'count' },
  'iron-bacteria': { measure: 'count' },
  'plate-count': { measure: 'plate' },
  arsenic: MASS,
  fluoride: MASS,
  uranium: MASS,
  'gross-alpha': { measure: 'activity' },
  radium: { measure: 'activity' },
  radon: { measure: 'activity' },
  barium: MASS,
  cadmium: MASS,
  chromium: MASS,
  mercury: MASS,
  selenium: MASS,
  antimony: MASS,
  beryllium: MASS,
  thallium: MASS,
  cyanide: MASS,
  lead: MASS,
  copper: MASS,
  atrazine: MASS,
  alachlor: MASS,
  simazine: MASS,
  '2-4-d': MASS,
  glyphosate: MASS,
  carbofuran: MASS,
  benzene: MASS,
  trichloroethylene: MASS,
  tetrachloroethylene: MASS,
  'vinyl-chloride': MASS,
  trihalomethanes: MASS,
  'haloacetic-acids': MASS,
  chlorine: {
    measure: 'mass',
    forms: ['Cl2'],
  },
  chloramine: { measure: 'mass', forms: ['Cl2'] },
  'chlorine-dioxide': MASS,
  turbidity: { measure: 'turbidity' },
  iron: MASS,
  manganese: MASS,
  sulfate: MASS,
  chloride: MASS,
  tds: MASS,
  ph: { measure: 'ph' },
  zinc: MASS,
  silver: MASS,
  aluminium: MASS,
  'foaming-agents': MASS,
  colour: { measure: 'colour' },
  odour: { measure: 'odour' },
  sodium: MASS,
  pfoa: MASS,
  pfos: MASS,
  pfhxs: MASS,
  pfna: MASS,
  'hfpo-da': MASS,
  'pfas-sum': MASS,
  '1-4-dioxane': MASS,
  boron: MASS,
  lithium: MASS,
  molybdenum: MASS,
  nickel: MASS,
  strontium: MASS,
  sulfide: MASS,
  sand: MASS,
  hardness: {
    measure: 'mass',
    forms: ['CaCO3'],
  },
  alkalinity: { measure: 'mass', forms: ['CaCO3'] },
  calcium: MASS,
  magnesium: MASS,
  potassium: MASS,
  conductivity: { measure: 'conductivity' },
} as const satisfies Record<string, Analyte>;

export type AnalyteKey = keyof typeof ANALYTES;
export const ANALYTE_KEYS = Object.keys(ANALYTES) as AnalyteKey[];

export function analyte(key: AnalyteKey): Analyte {
  return ANALYTES[key];
}

/**
 * The analyte that a report's name means; undefined for one that is not in the table. A form in the
 * name is read apart.
 */
export function findAnalyte(text: string): { key: AnalyteKey; form?: Form } | undefined {
  const plain = normalizeName(text);
  const key = ANALYTE_KEYS.find(
    (one) =>
      one === plain || normalizeName(analyteName(one)) === plain || analyteAliases(one).includes(plain),
  );
  if (key === undefined) return findDecoratedName(plain);
  const form = formFromName(plain);
  return form === undefined ? { key } : { key, form };
}

/**
 * A known name with what laboratories put around it: "Nitrate as Nitrogen", "Nitrate (NO3-N)",
 * "Nitrogen, Nitrate", "Lead (Pb)", "Lead, total", "Total lead". A bare sign in brackets says of
 * what the result is, and not as what it is counted.
 */
function findDecoratedName(plain: string): { key: AnalyteKey; form?: Form } | undefined {
  const as = /^(.+?),? \(?as ([a-z0-9-]+)\)?$/.exec(plain);
  const form = as?.[2] === undefined ? undefined : FORMS_BY_TEXT[as[2]];
  if (as?.[1] !== undefined && form !== undefined) return withForm(findAnalyte(as[1]), form);
  const nitrogen = /^nitrogen, (nitrate|nitrite|nitrate ?[+/] ?nitrite)$/.exec(plain)?.[1];
  if (nitrogen !== undefined) return withForm(findAnalyte(nitrogen), 'N');
  const bracket = /^(.+?) ?\(([^()]+)\)$/.exec(plain);
  if (bracket?.[1] !== undefined)
    return withForm(findAnalyte(bracket[1]), /^no[23]-n$/.test(bracket[2] ?? '') ? 'N' : undefined);
  const bare =
    /^(.+), (?:total|dissolved|total recoverable)$/.exec(plain)?.[1] ?? /^total (.+)$/.exec(plain)?.[1];
  return bare === undefined ? undefined : findAnalyte(bare);
}

function withForm(
  named: { key: AnalyteKey; form?: Form } | undefined,
  form: Form | undefined,
): { key: AnalyteKey; form?: Form } | undefined {
  return named && form !== undefined ? { ...named, form } : named;
}

/**
 * "Nitrate-N" and "nitrate as NO3" say as what; a bare "NO3" does not: many reports head both so.
 */
function formFromName(plain: string): Form | undefined {
  if (/(-n|nitrogen| as n)$/.test(plain)) return 'N';
  const as = / as (no3|no2|caco3)$/.exec(plain)?.[1];
  return as === undefined ? undefined : FORMS_BY_TEXT[as];
}

function normalizeName(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replaceAll(/[.]/g, '')
    .replaceAll(/\s+/g, ' ')
    .replace(/^2,4-d$/, '2-4-d');
}

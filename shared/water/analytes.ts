/**
 * What laboratories look for in well water, as far as limits are kept here (./limits.ts), with the other names that reports use. An
 * analyte that is not in this table is kept as it was written and compared with nothing.
 */
import { FORM_WORDS, type Form } from './forms.ts';

/** What is measured of it; each has one unit inside (./water-units.ts). */
export type Measure =
  'mass' | 'activity' | 'count' | 'ph' | 'turbidity' | 'colour' | 'odour' | 'conductivity';

interface Entry {
  name: string;
  measure: Measure;
  also?: readonly string[];
  /** Forms in which reports give it; the first is the one kept. Absent: as itself. */
  forms?: readonly Form[];
  /** A result without its form is refused, because the forms lie far apart. */
  formNeeded?: true;
}

const mass = (name: string, also: readonly string[] = []): Entry => ({ name, measure: 'mass', also });

export const ANALYTES = {
  'total-coliform': {
    name: 'Total coliform bacteria',
    measure: 'count',
    also: ['total coliform', 'total coliforms', 'coliform', 'coliforms', 'coliform bacteria', 'tc'],
  },
  'e-coli': {
    name: 'E. coli',
    measure: 'count',
    also: ['ecoli', 'escherichia coli', 'ec'],
  },
  'fecal-coliform': {
    name: 'Fecal coliform bacteria',
    measure: 'count',
    also: ['fecal coliform', 'fecal coliforms', 'faecal coliform', 'faecal coliforms'],
  },
  nitrate: {
    name: 'Nitrate',
    measure: 'mass',
    also: [
      'no3',
      'nitrate nitrogen',
      'nitrate-nitrogen',
      'nitrate-n',
      'no3-n',
      'nitrate as n',
      'nitrate as no3',
    ],
    forms: ['N', 'NO3'],
    formNeeded: true,
  },
  nitrite: {
    name: 'Nitrite',
    measure: 'mass',
    also: [
      'no2',
      'nitrite nitrogen',
      'nitrite-nitrogen',
      'nitrite-n',
      'no2-n',
      'nitrite as n',
      'nitrite as no2',
    ],
    forms: ['N', 'NO2'],
    formNeeded: true,
  },
  'nitrate-nitrite': {
    name: 'Nitrate and nitrite together',
    measure: 'mass',
    also: [
      'nitrate + nitrite',
      'nitrate+nitrite',
      'nitrate/nitrite',
      'nitrate plus nitrite',
      'no3+no2',
      'nox',
    ],
    forms: ['N'],
    formNeeded: true,
  },
  arsenic: mass('Arsenic', ['as']),
  fluoride: mass('Fluoride', ['f']),
  uranium: mass('Uranium', ['u']),
  'gross-alpha': {
    name: 'Gross alpha',
    measure: 'activity',
    also: ['gross alpha activity', 'adjusted gross alpha'],
  },
  radium: {
    name: 'Radium 226 and 228 together',
    measure: 'activity',
    also: ['radium 226+228', 'combined radium', 'ra-226+ra-228', 'radium 226 + 228'],
  },
  radon: { name: 'Radon', measure: 'activity', also: ['radon 222', 'rn-222'] },
  barium: mass('Barium', ['ba']),
  cadmium: mass('Cadmium', ['cd']),
  chromium: mass('Chromium', ['cr', 'total chromium']),
  mercury: mass('Mercury', ['hg']),
  selenium: mass('Selenium', ['se']),
  antimony: mass('Antimony', ['sb']),
  beryllium: mass('Beryllium', ['be']),
  thallium: mass('Thallium', ['tl']),
  cyanide: mass('Cyanide', ['cn', 'free cyanide']),
  lead: mass('Lead', ['pb']),
  copper: mass('Copper', ['cu']),
  atrazine: mass('Atrazine'),
  alachlor: mass('Alachlor'),
  simazine: mass('Simazine'),
  '2-4-d': mass('2,4-D', ['2 4 d', '24d']),
  glyphosate: mass('Glyphosate'),
  carbofuran: mass('Carbofuran'),
  benzene: mass('Benzene'),
  trichloroethylene: mass('Trichloroethylene', ['tce', 'trichloroethene']),
  tetrachloroethylene: mass('Tetrachloroethylene', ['pce', 'tetrachloroethene']),
  'vinyl-chloride': mass('Vinyl chloride'),
  trihalomethanes: mass('Trihalomethanes', ['tthm', 'total trihalomethanes']),
  'haloacetic-acids': mass('Haloacetic acids', ['haa5', 'haa']),
  chlorine: {
    name: 'Chlorine',
    measure: 'mass',
    also: ['free chlorine', 'total chlorine', 'cl2'],
    forms: ['Cl2'],
  },
  chloramine: { name: 'Chloramine', measure: 'mass', also: ['chloramines'], forms: ['Cl2'] },
  'chlorine-dioxide': mass('Chlorine dioxide', ['clo2']),
  turbidity: { name: 'Turbidity', measure: 'turbidity' },
  iron: mass('Iron', ['fe']),
  manganese: mass('Manganese', ['mn']),
  sulfate: mass('Sulfate', ['sulphate', 'so4']),
  chloride: mass('Chloride', ['cl']),
  tds: mass('Total dissolved solids', ['tds', 'dissolved solids']),
  ph: { name: 'pH', measure: 'ph' },
  zinc: mass('Zinc', ['zn']),
  silver: mass('Silver', ['ag']),
  aluminium: mass('Aluminium', ['aluminum', 'al']),
  'foaming-agents': mass('Foaming agents', ['mbas', 'surfactants']),
  colour: { name: 'Colour', measure: 'colour', also: ['color', 'apparent color', 'true color'] },
  odour: { name: 'Odour', measure: 'odour', also: ['odor', 'threshold odor number'] },
  sodium: mass('Sodium', ['na']),
  pfoa: mass('PFOA', ['perfluorooctanoic acid']),
  pfos: mass('PFOS', ['perfluorooctanesulfonic acid', 'perfluorooctane sulfonic acid']),
  hardness: {
    name: 'Hardness',
    measure: 'mass',
    also: ['total hardness', 'hardness as caco3'],
    forms: ['CaCO3'],
  },
  alkalinity: { name: 'Alkalinity', measure: 'mass', also: ['total alkalinity'], forms: ['CaCO3'] },
  calcium: mass('Calcium', ['ca']),
  magnesium: mass('Magnesium', ['mg']),
  potassium: mass('Potassium', ['k']),
  conductivity: {
    name: 'Conductivity',
    measure: 'conductivity',
    also: ['specific conductance', 'electrical conductivity', 'conductance'],
  },
} as const satisfies Record<string, Entry>;

export type AnalyteKey = keyof typeof ANALYTES;
export const ANALYTE_KEYS = Object.keys(ANALYTES) as AnalyteKey[];

export function analyte(key: AnalyteKey): Entry {
  return ANALYTES[key];
}

/** The analyte that a report's name means; undefined for one that is not in the table. A form in the name is read apart. */
export function analyteNamed(text: string): { key: AnalyteKey; form?: Form } | undefined {
  const plain = plainName(text);
  const key = ANALYTE_KEYS.find(
    (one) =>
      one === plain || plainName(ANALYTES[one].name) === plain || (analyte(one).also ?? []).includes(plain),
  );
  if (key === undefined) return namedWithMore(plain);
  const form = formInName(plain);
  return form === undefined ? { key } : { key, form };
}

/**
 * A known name with what laboratories put around it: "Nitrate as Nitrogen", "Nitrate (NO3-N)", "Nitrogen, Nitrate", "Lead (Pb)", "Lead,
 * total", "Total lead". A bare sign in brackets says of what the result is, and not as what it is counted.
 */
function namedWithMore(plain: string): { key: AnalyteKey; form?: Form } | undefined {
  const as = /^(.+?),? \(?as ([a-z0-9-]+)\)?$/.exec(plain);
  const form = as?.[2] === undefined ? undefined : FORM_WORDS[as[2]];
  if (as?.[1] !== undefined && form !== undefined) return withForm(analyteNamed(as[1]), form);
  const nitrogen = /^nitrogen, (nitrate|nitrite|nitrate ?[+/] ?nitrite)$/.exec(plain)?.[1];
  if (nitrogen !== undefined) return withForm(analyteNamed(nitrogen), 'N');
  const bracket = /^(.+?) ?\(([^()]+)\)$/.exec(plain);
  if (bracket?.[1] !== undefined)
    return withForm(analyteNamed(bracket[1]), /^no[23]-n$/.test(bracket[2] ?? '') ? 'N' : undefined);
  const bare =
    /^(.+), (?:total|dissolved|total recoverable)$/.exec(plain)?.[1] ?? /^total (.+)$/.exec(plain)?.[1];
  return bare === undefined ? undefined : analyteNamed(bare);
}

function withForm(
  named: { key: AnalyteKey; form?: Form } | undefined,
  form: Form | undefined,
): { key: AnalyteKey; form?: Form } | undefined {
  return named && form !== undefined ? { ...named, form } : named;
}

/** "Nitrate-N" and "nitrate as NO3" say as what; a bare "NO3" does not: many reports head both so. */
function formInName(plain: string): Form | undefined {
  if (/(-n|nitrogen| as n)$/.test(plain)) return 'N';
  const as = / as (no3|no2|caco3)$/.exec(plain)?.[1];
  return as === undefined ? undefined : FORM_WORDS[as];
}

function plainName(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replaceAll(/[.]/g, '')
    .replaceAll(/\s+/g, ' ')
    .replace(/^2,4-d$/, '2-4-d');
}

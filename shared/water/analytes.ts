/**
 * What laboratories look for in well water, as far as limits are kept here (./limits.ts), with the
 * other names that reports use. An analyte that is not in this table is kept as it was written and
 * compared with nothing.
 */
import { analyteName } from '../text/en/logbook/analyte-names.ts';
import { FORMS_BY_TEXT, type Form } from './forms.ts';

/** What is measured of it; each has one unit inside (./water-units.ts). */
export type MeasureKind =
  'mass' | 'activity' | 'count' | 'plate' | 'ph' | 'turbidity' | 'colour' | 'odour' | 'conductivity';

interface Analyte {
  measure: MeasureKind;
  aliases?: readonly string[];
  /** Forms in which reports give it; the first is the one kept. Absent: as itself. */
  forms?: readonly Form[];
  /** A result without its form is refused, because the forms lie far apart. */
  formRequired?: true;
}

const massAnalyte = (aliases: readonly string[] = []): Analyte => ({
  measure: 'mass',
  aliases,
});

export const ANALYTES = {
  'total-coliform': {
    measure: 'count',
    aliases: ['total coliform', 'total coliforms', 'coliform', 'coliforms', 'coliform bacteria', 'tc'],
  },
  'e-coli': {
    measure: 'count',
    aliases: ['ecoli', 'escherichia coli', 'ec'],
  },
  'fecal-coliform': {
    measure: 'count',
    aliases: ['fecal coliform', 'fecal coliforms', 'faecal coliform', 'faecal coliforms'],
  },
  nitrate: {
    measure: 'mass',
    aliases: [
      'no3',
      'nitrate nitrogen',
      'nitrate-nitrogen',
      'nitrate-n',
      'no3-n',
      'nitrate as n',
      'nitrate as no3',
    ],
    forms: ['N', 'NO3'],
    formRequired: true,
  },
  nitrite: {
    measure: 'mass',
    aliases: [
      'no2',
      'nitrite nitrogen',
      'nitrite-nitrogen',
      'nitrite-n',
      'no2-n',
      'nitrite as n',
      'nitrite as no2',
    ],
    forms: ['N', 'NO2'],
    formRequired: true,
  },
  'nitrate-nitrite': {
    measure: 'mass',
    aliases: [
      'nitrate + nitrite',
      'nitrate+nitrite',
      'nitrate/nitrite',
      'nitrate plus nitrite',
      'no3+no2',
      'nox',
    ],
    forms: ['N'],
    formRequired: true,
  },
  enterococci: {
    measure: 'count',
    aliases: ['enterococcus', 'intestinal enterococci', 'fecal streptococci'],
  },
  'iron-bacteria': { measure: 'count', aliases: ['iron related bacteria', 'irb'] },
  'plate-count': {
    measure: 'plate',
    aliases: ['hpc', 'plate count', 'total plate count', 'standard plate count'],
  },
  arsenic: massAnalyte(['as']),
  fluoride: massAnalyte(['f']),
  uranium: massAnalyte(['u']),
  'gross-alpha': {
    measure: 'activity',
    aliases: ['gross alpha activity', 'adjusted gross alpha'],
  },
  radium: {
    measure: 'activity',
    aliases: ['radium 226+228', 'combined radium', 'ra-226+ra-228', 'radium 226 + 228'],
  },
  radon: { measure: 'activity', aliases: ['radon 222', 'rn-222'] },
  barium: massAnalyte(['ba']),
  cadmium: massAnalyte(['cd']),
  chromium: massAnalyte(['cr', 'total chromium']),
  mercury: massAnalyte(['hg']),
  selenium: massAnalyte(['se']),
  antimony: massAnalyte(['sb']),
  beryllium: massAnalyte(['be']),
  thallium: massAnalyte(['tl']),
  cyanide: massAnalyte(['cn', 'free cyanide']),
  lead: massAnalyte(['pb']),
  copper: massAnalyte(['cu']),
  atrazine: massAnalyte(),
  alachlor: massAnalyte(),
  simazine: massAnalyte(),
  '2-4-d': massAnalyte(['2 4 d', '24d']),
  glyphosate: massAnalyte(),
  carbofuran: massAnalyte(),
  benzene: massAnalyte(),
  trichloroethylene: massAnalyte(['tce', 'trichloroethene']),
  tetrachloroethylene: massAnalyte(['pce', 'tetrachloroethene']),
  'vinyl-chloride': massAnalyte(),
  trihalomethanes: massAnalyte(['tthm', 'total trihalomethanes']),
  'haloacetic-acids': massAnalyte(['haa5', 'haa']),
  chlorine: {
    measure: 'mass',
    aliases: ['free chlorine', 'total chlorine', 'cl2'],
    forms: ['Cl2'],
  },
  chloramine: { measure: 'mass', aliases: ['chloramines'], forms: ['Cl2'] },
  'chlorine-dioxide': massAnalyte(['clo2']),
  turbidity: { measure: 'turbidity' },
  iron: massAnalyte(['fe']),
  manganese: massAnalyte(['mn']),
  sulfate: massAnalyte(['sulphate', 'so4']),
  chloride: massAnalyte(['cl']),
  tds: massAnalyte(['tds', 'dissolved solids']),
  ph: { measure: 'ph' },
  zinc: massAnalyte(['zn']),
  silver: massAnalyte(['ag']),
  aluminium: massAnalyte(['aluminium', 'al']),
  'foaming-agents': massAnalyte(['mbas', 'surfactants']),
  colour: { measure: 'colour', aliases: ['colour', 'apparent color', 'true color'] },
  odour: { measure: 'odour', aliases: ['odour', 'threshold odor number'] },
  sodium: massAnalyte(['na']),
  pfoa: massAnalyte(['perfluorooctanoic acid']),
  pfos: massAnalyte(['perfluorooctanesulfonic acid', 'perfluorooctane sulfonic acid']),
  pfhxs: massAnalyte(['perfluorohexanesulfonic acid', 'perfluorohexane sulfonic acid']),
  pfna: massAnalyte(['perfluorononanoic acid']),
  'hfpo-da': massAnalyte(['hexafluoropropylene oxide dimer acid']),
  'pfas-sum': massAnalyte(['sum of pfas', 'pfas sum', 'pfas']),
  '1-4-dioxane': massAnalyte(['1,4 dioxane', 'dioxane']),
  boron: massAnalyte(['b']),
  lithium: massAnalyte(['li']),
  molybdenum: massAnalyte(['mo']),
  nickel: massAnalyte(['ni']),
  strontium: massAnalyte(['sr']),
  sulfide: massAnalyte(['sulfide', 'sulphide', 'h2s', 'hydrogen sulphide']),
  sand: massAnalyte(['sand']),
  hardness: {
    measure: 'mass',
    aliases: ['total hardness', 'hardness as caco3'],
    forms: ['CaCO3'],
  },
  alkalinity: { measure: 'mass', aliases: ['total alkalinity'], forms: ['CaCO3'] },
  calcium: massAnalyte(['ca']),
  magnesium: massAnalyte(['mg']),
  potassium: massAnalyte(['k']),
  conductivity: {
    measure: 'conductivity',
    aliases: ['specific conductance', 'electrical conductivity', 'conductance'],
  },
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
      one === plain ||
      normalizeName(analyteName(one)) === plain ||
      (analyte(one).aliases ?? []).includes(plain),
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

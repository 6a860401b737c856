/** Texts of the page of a well’s water tests. */
import { formatCount } from '../format.ts';

interface ReadAmount {
  is: string;
  amount: string;
  hasLimits: boolean;
  remark: string | undefined;
}

export const waterTexts = {
  recordEvent: 'Record an event: flood, repair, change in taste, illness',
  save: 'Save',
  eventSaved: 'Saved: a test is due.',
  event: 'Event',
  date: 'Date',
  remark: 'Note',
  recordTest: 'Record a water test',
  waterTest: 'Water test',
  saveResults: 'Save results',
  sampleDate: 'Sample date',
  laboratory: 'Laboratory',
  samplePoint: 'Sample point',
  reason: 'Reason',
  yearly: 'yearly',
  formHelp:
    'Enter values as in the report: 2.1, < 0.5, absent, present, not detected. Lines without a value are left out. Nitrate and nitrite need “as N”, “as NO3” or “as NO2”, as in the report.',
  addLine: 'Add a line',
  reportPhoto: 'Photo of the report',
  result: (number: number) => `Result ${number}`,
  analyte: 'Analyte',
  value: 'Value',
  unit: 'Unit',
  resultRequired: 'Enter at least one result',
  sampleOf: (date: string) => `Sample of ${date}`,
  asReported: 'As reported',
  inOurUnits: 'Converted',
  limits: 'Compared with published limits',
  recordedBy: (by: string) => `Recorded by ${by}.`,
  nextSample: (date: string) => `Next sample: ${date}.`,
  noLimit: 'No published limit here.',
  limitAtSampling: (limit: string, verdict: string) => `Limit at sampling ${limit}: ${verdict}.`,
  limitSources: 'Sources of the limits',
  moreTests: 'When to test for more',
  moreTestsSource:
    'EPA, questions and answers on private wells. Test more often with small children, pregnant or nursing women, or elderly people in the house. The health department knows the local geology.',
  trends: 'Trends',
  trendsHelp:
    'A hollow dot is not a measured value: the result was below the detection limit or above the counting range.',
  subject: 'the water tests',
  nextTest: 'Next test',
  missingYearly: (analytes: string) => `Not tested within a year: ${analytes}.`,
  allChecks: 'All checks',
  record: 'Record',
  latestTest: 'Latest test',
  none: 'No water test recorded.',
  earlierTests: 'Earlier tests',
  notDetected: 'not detected',
  readAs: (analyte: string, result: string) => `Read as: ${analyte}, ${result}`,
  readAmount: ({ is, amount, hasLimits, remark }: ReadAmount) =>
    `${is === 'below' ? 'under ' : is === 'above' ? 'over ' : ''}${amount}${hasLimits ? '' : ' (no published limit here)'}${remark === undefined ? '' : `; ${remark}`}`,
  results: (count: number) => formatCount(count, 'result'),
  // Known occasions to ask a laboratory for more (EPA, questions and answers on private wells).
  testsByCondition: [
    ['Somebody in the house has repeated stomach trouble', 'coliform bacteria'],
    ['Lead in pipes, solder or fittings', 'pH, lead, copper'],
    ['Pipes corrode, or the water stains', 'corrosion, pH, lead, iron, manganese'],
    ['Crops, orchards or livestock nearby', 'nitrate, pesticides, coliform bacteria'],
    ['Mining close by', 'metals, pH, corrosion'],
    ['Gas drilling close by', 'chloride, sodium, barium, strontium'],
    ['Radon is known in the area', 'radon'],
  ],
};

/** Texts of the components that pages and files share. */
import { formatCount } from '../format.ts';
import { partName } from './parts-of-work.ts';

interface VisitTimes {
  opened: string;
  openedBy: string | undefined;
  closed: string | undefined;
  closedBy: string | undefined;
}

interface WorkFacts {
  affected: readonly string[];
  doneBy: string | undefined;
  recordedBy: string | undefined;
}

export const viewTexts = {
  noName: 'No name given',
  firstCard: ': first version',
  removed: 'removed',
  changedTo: 'changed to',
  toScale: 'Depths below ground are to scale; widths and parts at the surface are not.',
  notToScale: 'This drawing is not to scale: no depth is known.',
  unknown: (facts: string) => `Not known, and shown with broken lines or left out: ${facts}.`,
  newBaseline: 'Normal values are being learned again.',
  pump: (pump: string) => `Pump ${pump}`,
  sides: (before: string, after: string) => `Before: ${before}. After: ${after}.`,
  normalBefore: (value: string) => `Normal before: ${value}.`,
  basedOn: (note: string) => `From ${note}.`,
  sampleOf: (date: string) => `Sample of ${date}`,
  analyte: 'Analyte',
  asReported: 'As reported',
  inOurUnits: 'Converted',
  limits: 'Compared with published limits',
  recordedBy: (by: string) => `Recorded by ${by}.`,
  nextSample: (date: string) => `Next sample: ${date}.`,
  noLimit: 'No published limit here.',
  limitAtSampling: (limit: string, verdict: string) => `Limit at sampling ${limit}: ${verdict}.`,
  limitSources: 'Sources of the limits',
  limitsElsewhere: 'Limits of the WHO and the EU',
  noWork: 'No work recorded.',
  partsUsed: (parts: string) => `Parts: ${parts}`,
  otherFields: 'Other fields',
  sideNames: { before: 'before', after: 'after' },
  visitOf: ({ opened, openedBy, closed, closedBy }: VisitTimes) =>
    `Visit of ${opened}${byWhom(', opened', openedBy)}; ${closed === undefined ? 'still open' : `closed ${closed}${byWhom('', closedBy)}`}.`,
  workBy: ({ affected, doneBy, recordedBy }: WorkFacts) =>
    [
      ...(affected.length === 0 ? [] : [`Affected: ${affected.map(partName).join(', ')}.`]),
      ...(doneBy === undefined || doneBy === '' ? [] : [`Done by ${doneBy}.`]),
      ...(recordedBy === undefined ? [] : [`Recorded by ${recordedBy}.`]),
    ].join(' '),
  fields: (count: number) => formatCount(count, 'field'),
  chartOf: (measure: string) => `${measure}: runs or days before and after on one scale`,
};

function byWhom(lead: string, name: string | undefined): string {
  return name === undefined ? '' : `${lead} by ${name}`;
}

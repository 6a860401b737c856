/** The pages of a well's logbook, one for each word of the address (../page-of.ts). */
import type { ComponentType } from 'preact';
import type { LogbookPage } from '../page-of.ts';
import { lazyPage } from '../parts/later.tsx';

export const LOGBOOK_PAGES: Record<LogbookPage, ComponentType<{ name: string }>> = {
  card: lazyPage(async () => (await import('./card.tsx')).CardPage),
  visit: lazyPage(async () => (await import('./visit.tsx')).VisitPage),
  readings: lazyPage(async () => (await import('./readings.tsx')).ReadingsPage),
  checks: lazyPage(async () => (await import('./checks.tsx')).ChecksPage),
  water: lazyPage(async () => (await import('./water.tsx')).WaterPage),
  labels: lazyPage(async () => (await import('./labels.tsx')).LabelsPage),
  documents: lazyPage(async () => (await import('./papers.tsx')).DocumentsPage),
  export: lazyPage(async () => (await import('./packet.tsx')).ExportPage),
};

/** The pages of a well's logbook, one for each word of the address (../../page-url.ts). */
import type { ComponentType } from 'preact';
import type { LogbookPage } from '../../page-url.ts';
import { lazyPage } from '../../ui/lazy-page.tsx';

export const LOGBOOK_PAGES: Record<LogbookPage, ComponentType<{ name: string }>> = {
  card: lazyPage(async () => (await import('../card/card.tsx')).CardPage),
  visit: lazyPage(async () => (await import('../visit/visit.tsx')).VisitPage),
  readings: lazyPage(async () => (await import('../readings/readings.tsx')).ReadingsPage),
  checks: lazyPage(async () => (await import('../checks/checks.tsx')).ChecksPage),
  water: lazyPage(async () => (await import('../water/water.tsx')).WaterPage),
  figures: lazyPage(async () => (await import('../figures/figures.tsx')).FiguresPage),
  yield: lazyPage(async () => (await import('../yield/yield.tsx')).YieldPage),
  labels: lazyPage(async () => (await import('../labels/labels.tsx')).LabelsPage),
  documents: lazyPage(async () => (await import('../documents/documents.tsx')).DocumentsPage),
  export: lazyPage(async () => (await import('../export/export.tsx')).ExportPage),
};

/** The pages of a well's book, one for each word of the address (../page-of.ts). */
import type { ComponentType } from 'preact';
import type { BookWhat } from '../page-of.ts';
import { later } from '../parts/later.tsx';

export const BOOK_PAGES: Record<BookWhat, ComponentType<{ name: string }>> = {
  card: later(async () => (await import('./card.tsx')).CardPage),
  visit: later(async () => (await import('./visit.tsx')).VisitPage),
  readings: later(async () => (await import('./readings.tsx')).ReadingsPage),
  checks: later(async () => (await import('./checks.tsx')).ChecksPage),
  water: later(async () => (await import('./water.tsx')).WaterPage),
  labels: later(async () => (await import('./labels.tsx')).LabelsPage),
  papers: later(async () => (await import('./papers.tsx')).PapersPage),
  packet: later(async () => (await import('./packet.tsx')).PacketPage),
};

/** The pages of a well's book, one for each word of the address (../page-of.ts). */
import type { ComponentType } from 'preact';
import type { BookWhat } from '../page-of.ts';
import { CardPage } from './card.tsx';
import { ChecksPage } from './checks.tsx';
import { LabelsPage } from './labels.tsx';
import { ReadingsPage } from './readings.tsx';
import { VisitPage } from './visit.tsx';
import { WaterPage } from './water.tsx';

export const BOOK_PAGES: Record<BookWhat, ComponentType<{ name: string }>> = {
  card: CardPage,
  visit: VisitPage,
  readings: ReadingsPage,
  checks: ChecksPage,
  water: WaterPage,
  labels: LabelsPage,
};

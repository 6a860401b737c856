/** Visits of a well. */
import { BookHead } from '../parts/book-head.tsx';

export function VisitPage({ name }: { name: string }) {
  return <BookHead well={name} what="visit" />;
}

/** Readings of a well. */
import { BookHead } from '../parts/book-head.tsx';

export function ReadingsPage({ name }: { name: string }) {
  return <BookHead well={name} what="readings" />;
}

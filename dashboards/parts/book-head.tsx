/** The top of each page of a well's book: the way back to the well, and whose page it is. */
import { BOOK_TITLES, wellAddress, type BookWhat } from '../page-of.ts';
import { nameWords } from '../../shared/words/names.ts';

export function BookHead({ well, what }: { well: string; what: BookWhat }) {
  return (
    <>
      <p class="back">
        <a href={wellAddress(well)}>{nameWords(well)}</a>
      </p>
      <h1>
        {BOOK_TITLES[what]}, {nameWords(well)}
      </h1>
    </>
  );
}

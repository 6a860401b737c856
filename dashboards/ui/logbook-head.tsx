/** The top of each page of a well's logbook: the way back to the well, and whose page it is. */
import { wellUrl, type LogbookPage } from '../page-url.ts';
import { nameText } from '../../shared/text/en/names.ts';
import { texts } from '../texts.ts';

export function LogbookHead({ well, page }: { well: string; page: LogbookPage }) {
  return (
    <>
      <p class="back">
        <a href={wellUrl(well)}>{nameText(well)}</a>
      </p>
      <h1>{texts().ofWell(texts().titles[page], nameText(well))}</h1>
    </>
  );
}

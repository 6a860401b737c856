/** What an entry may hold at most. */

/** A page of handwriting. */
export const MAX_NOTE_LENGTH = 2_000;
/** One line on a phone. */
export const MAX_NAME_LENGTH = 120;
/** Papers that one entry points to. */
export const MAX_DOCUMENTS = 20;
/** Parts that one work puts in. */
export const MAX_PARTS = 50;
/** The longest manual as PDF, a photo of any phone: 25 MiB. */
export const MAX_DOCUMENT_BYTES = 25 * 2 ** 20;
/** Two pages of a laboratory's full scan. */
export const MAX_RESULTS = 200;
/** A check that comes round less often than each ten years is none. */
export const MAX_INTERVAL_DAYS = 3_650;
/**
 * A well's packet with all its papers: a lifetime's photos. What is larger does not fit into a
 * small computer's memory when it is read in.
 */
export const MAX_EXPORT_BYTES = 512 * 2 ** 20;
/** Its record: 110,000 cycles of ten usual years are about 100 MiB. */
export const MAX_RECORD_BYTES = 256 * 2 ** 20;
/** A line each few minutes of a day's test. */
export const MAX_TEST_LINES = 100;

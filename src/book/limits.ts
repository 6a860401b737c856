/** What an entry may hold at most. */

/** A page of handwriting. */
export const LONGEST_NOTE = 2_000;
/** One line on a phone. */
export const LONGEST_NAME = 120;
/** Papers that one entry points to. */
export const MOST_PAPERS = 20;
/** The longest manual as PDF, a photo of any phone: 25 MiB. */
export const MOST_PAPER_BYTES = 25 * 2 ** 20;
/** Two pages of a laboratory's full scan. */
export const MOST_RESULTS = 200;
/** A check that comes round less often than each ten years is none. */
export const LONGEST_EVERY_DAYS = 3_650;
/** A well's packet with all its papers: a lifetime's photos. What is larger does not fit into a small computer's memory when it is read in. */
export const MOST_PACKET_BYTES = 512 * 2 ** 20;
/** Its record: 110,000 cycles of ten usual years are about 100 MiB. */
export const MOST_RECORD_BYTES = 256 * 2 ** 20;

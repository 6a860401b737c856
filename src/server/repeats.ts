/**
 * Sentences about strangers, a few of each address and the rest counted ("And 411 more from
 * 192.168.1.9"): whoever reaches a port can cause one with each try, and must not fill the log or
 * the memory with them.
 */
import { MINUTE_MS } from '../../shared/units/duration.ts';
import { texts } from './texts.ts';

export interface Repeats {
  /** Writes the sentence, or counts it where this address caused enough of them. */
  tell(sentence: string, from: string): void;
  /** Writes counts whose time is over. To be called now and then. */
  due(): void;
  /** Writes all counts now. */
  end(): void;
}

export interface RepeatsOptions {
  write: (sentence: string) => void;
  now: () => number;
}

/** Enough to see what an address is at. Own choice: no source. */
export const MAX_LINES_EACH = 5;
/** A count is written once a minute. */
export const COUNT_MS = MINUTE_MS;
/**
 * 100 addresses of 5 sentences and a count are at most 600 lines a minute, some 60 KiB; what comes
 * from further ones is counted together.
 */
export const MAX_ADDRESSES = 100;

interface Count {
  sinceMs: number;
  written: number;
  more: number;
}

export function newRepeats({ write, now }: RepeatsOptions): Repeats {
  const counts = new Map<string, Count>();
  let others: Count | undefined;

  const writeCount = ({ more }: Count, from: string): void => {
    if (more > 0) write(texts().andMore({ more, from }));
  };
  const writeIf = (isOver: (count: Count) => boolean): void => {
    for (const [from, count] of counts) {
      if (!isOver(count)) continue;
      counts.delete(from);
      writeCount(count, from === '' ? texts().unknownAddress : from);
    }
    if (!others || !isOver(others)) return;
    writeCount(others, texts().otherAddresses);
    others = undefined;
  };
  /** Also where the clock was set back: a count must not wait for it to come round again. */
  const due = (): void => {
    const nowMs = now();
    writeIf(({ sinceMs }) => nowMs < sinceMs || nowMs >= sinceMs + COUNT_MS);
  };
  const countOf = (from: string): Count => {
    const known = counts.get(from);
    if (known) return known;
    if (counts.size >= MAX_ADDRESSES)
      return (others ??= { sinceMs: now(), written: MAX_LINES_EACH, more: 0 });
    const count = { sinceMs: now(), written: 0, more: 0 };
    counts.set(from, count);
    return count;
  };

  return {
    tell(sentence, from) {
      due();
      const count = countOf(from);
      if (count.written < MAX_LINES_EACH) {
        count.written += 1;
        write(sentence);
      } else {
        count.more += 1;
      }
    },
    due,
    end: () => writeIf(() => true),
  };
}

/**
 * The secret parts of the addresses at which phones read the calendar: one of all wells, one of
 * each well that somebody gives away by itself, made when it is asked for. Each is 28 letters of 5
 * random bits, 140 in all: at a thousand guesses a second nobody meets one in the age of the earth.
 *
 * It is kept in the store as it is and not as a hash: the page has to show it again for the next
 * phone, and whoever can read the store reads there all that the address gives, and more. It is no
 * setting, for no person chooses it, and no file of its own: it is backed up and restored with the
 * rest, and phones go on. It stands in no log, no recording and no packet, since nothing but this
 * file asks for it.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import type { Store } from '../store/store.ts';
import type { CalendarAccess } from '../http/deps.ts';
import { newMutex } from '../mutex.ts';

/**
 * Base32 (RFC 4648), small: nothing that looks like anything else when it is typed off a screen.
 */
const BASE32_ALPHABET = 'abcdefghijklmnopqrstuvwxyz234567';
const SECRET_LENGTH = 28;

type Secret = NonNullable<Awaited<ReturnType<CalendarAccess['secret']>>>;

/** `now` is our clock. */
export function phoneSecrets(
  store: Pick<Store, 'getValue' | 'commit'>,
  now: () => number,
): Omit<CalendarAccess, 'serverState'> {
  const secret = async (well: string | undefined): Promise<Secret | undefined> => {
    const stored = await store.getValue(keyOf(well));
    if (stored === undefined) return undefined;
    // `madeMs` is how an earlier version saved it.
    const { text, createdMs, madeMs = 0 } = JSON.parse(stored) as Secret & { madeMs?: number };
    return { text, createdMs: createdMs ?? madeMs };
  };
  const mutex = newMutex();
  const renew = (well: string | undefined): Promise<void> =>
    save(well, JSON.stringify({ text: newSecret(), createdMs: now() } satisfies Secret));
  const save = (well: string | undefined, value: string | null): Promise<void> =>
    store.commit([{ change: 'setting', key: keyOf(well), value }]);
  return {
    secret,
    isValidSecret: async (text, well) => {
      const expected = (await secret(well))?.text;
      // Compared also where there is none, so that an answer tells by its time nothing of which
      // wells have an address.
      const same = timingSafeEqual(digest(text), digest(expected ?? ''));
      return expected !== undefined && same;
    },
    ensure: (well) => mutex.run(async () => ((await secret(well)) ? undefined : renew(well))),
    renew: (well) => mutex.run(() => renew(well)),
    revoke: (well) => mutex.run(() => save(well, null)),
  };
}

/** No name of a well holds a slash. */
function keyOf(well: string | undefined): string {
  return well === undefined ? 'phone-calendar' : `phone-calendar/${well}`;
}

/** Of one length whatever came, as the comparison wants it. */
function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}

function newSecret(): string {
  return Array.from(randomBytes(SECRET_LENGTH), (byte) => BASE32_ALPHABET[byte & 31]).join('');
}

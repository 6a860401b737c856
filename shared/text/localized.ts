/**
 * Texts by language. A page, a command or a sender asks its accessor at the moment of showing and
 * never holds a sentence for later; the accessor answers in the language of the moment. A language
 * is a row in each table: the type of the English texts is what it has to fill.
 */
export type Locale = 'en';

const DEFAULT_LOCALE: Locale = 'en';

/** The accessor of one chapter of the catalogue. */
export function localized<T>(byLocale: Readonly<Record<Locale, T>>): (locale?: Locale) => T {
  return (locale = DEFAULT_LOCALE) => byLocale[locale];
}

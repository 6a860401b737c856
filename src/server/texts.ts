/** Texts of the server: its log, its answers to what people ask of it, an import. */
import { serverTexts } from '../../shared/text/en/cli/server.ts';
import { localized } from '../../shared/text/localized.ts';

export const texts = localized({ en: serverTexts });

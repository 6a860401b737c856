/** The rules of cards and acts. */
import { fieldRules } from '../../../shared/text/en/refusals/field-rules.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: fieldRules });

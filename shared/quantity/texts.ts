/** The rules of quantities. */
import { quantityRules } from '../text/en/refusals/quantity-rules.ts';
import { localized } from '../text/localized.ts';

export const texts = localized({ en: quantityRules });

/** The texts of this page. */
import { nodesTexts } from '../../../shared/text/en/pages/nodes.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: nodesTexts });

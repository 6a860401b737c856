/** Texts of the command line and of commands that have no folder of their own. */
import { commandTexts } from '../../shared/text/en/cli/commands.ts';
import { localized } from '../../shared/text/localized.ts';

export const texts = localized({ en: commandTexts });

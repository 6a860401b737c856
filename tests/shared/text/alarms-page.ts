/**
 * What every alarm says, needs, asks for first, and when it can be wrong, as one page for people:
 * made of the same words as notices and pages, so that the written page cannot say something else.
 * Priorities are read from the contract's table.
 */
import { ALARM_WORDS } from '../../../shared/text/en/alarms/alarm-words.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { FORM_EVIDENCE } from '../../../shared/alarms/form-evidence.ts';
import { formWords } from '../../../shared/text/en/alarms/forms.ts';
import {
  ALARM_FORMS,
  CAUSES,
  type AlarmForm,
  type AlarmKind,
  type Cause,
} from '../../../shared/text/en/alarms/kinds.ts';
import { budgetOpening, budgetPart } from './false-alarm-tables.ts';
import type { BudgetResults } from '../../../src/lab/sensitivity/try-budgets.ts';
import { LOOK_ALIKES } from '../../../shared/text/en/causes/look-alikes.ts';
import { FORM_LEVELS, nowLevel, URGENCY_WORDS } from '../../../shared/text/en/alarms/urgency.ts';

const OPENING = `# Alarms

Every alarm that Stillwell can raise: what it says, what must be measured for it, what to do first, and when it can be wrong. Every
cause it can name, with what speaks for it and against it. The words are those of the pages and the notices; a test keeps this page
the same as they are.

Stillwell watches. It switches nothing and is no safety device. Local code, the equipment's own instructions and licensed people
always come first.
`;

/**
 * Markdown. `contract` is the text of firmware-contract/contract.md; `measured` what other numbers
 * of false alarms came to.
 */
export function alarmsPage(contract: string, measured: BudgetResults): string {
  const priorities = prioritiesOf(contract);
  return [
    OPENING,
    budgetOpening(),
    ...[...priorities].map(([kind, priority]) => alarmPart(kind, priority) + budgetPart(kind, measured)),
    '## Causes\n\nFindings are weighed into likely causes. Some look alike from current and pressure alone; they are named together.\n',
    ...CAUSES.map(causePart),
    '## What looks alike\n',
    LOOK_ALIKES.map(
      ({ causes, distinguishedBy }) =>
        `- ${causes.map(nameOf).join(', ')}. To tell which: ${distinguishedBy}.`,
    ).join('\n'),
    '\n## Cautions\n',
    Object.entries(CAUTIONS)
      .map(([name, text]) => `- **${name}:** ${text}`)
      .join('\n'),
  ].join('\n');
}

/**
 * Rows of the contract's table, in its order: `| \`dry-run\` | now | it runs … |`; one row may name
 * two kinds.
 */
export function prioritiesOf(contract: string): Map<AlarmKind, string> {
  const found = new Map<AlarmKind, string>();
  for (const [, kinds, priority] of contract.matchAll(
    /^\| ((?:`[a-z-]+`(?:, )?)+)\s*\| ((?:now|soon|note)[^|]*)\|/gm,
  ))
    for (const kind of kinds!.matchAll(/`([a-z-]+)`/g)) found.set(kind[1] as AlarmKind, priority!.trim());
  return found;
}

function alarmPart(kind: AlarmKind, priority: string): string {
  const { title, means, needs, firstStep, canBeWrong, cautions } = ALARM_WORDS[kind];
  return `## ${title}

\`${kind}\`, ${priority}. ${means}

${/\bnow\b/.test(priority) ? `- **When now:** ${URGENCY_WORDS[nowLevel(kind)].means}\n` : ''}- **Needs:** ${needs}
- **First:** ${firstStep}
- **Can be wrong:** ${canBeWrong}
${cautions.length === 0 ? '' : `- **Cautions:** ${cautions.join(', ')}\n`}${ALARM_FORMS.map((form) => formPart(kind, form)).join('')}`;
}

const FORM_NAMES: Record<AlarmForm, string> = {
  'past-cut-out': 'past cut-out',
  'over-plate': 'far over the plate',
  'on-two-phases': 'perhaps on two phases',
  'voltage-far-off': 'a fifth off and more',
  'ended-by-protector': 'a protector ends the run',
};

/** What is said instead in one form of the alarm. */
function formPart(kind: AlarmKind, form: AlarmForm): string {
  const words = formWords(kind, form);
  if (!words) return '';
  return `
### ${ALARM_WORDS[kind].title}: ${FORM_NAMES[form]}

Its evidence holds ${Object.entries(FORM_EVIDENCE[form])
    .map(([figure, value]) => `\`${figure}\`: "${value}"`)
    .join(', ')}. ${words.means}

- **When now:** ${URGENCY_WORDS[FORM_LEVELS[form]].means}
- **First:** ${words.firstStep}
- **Can be wrong:** ${words.canBeWrong}
- **Cautions:** ${words.cautions.join(', ')}
`;
}

function causePart(cause: Cause): string {
  const { name, what, evidenceFor, evidenceAgainst, firstStep } = CAUSE_WORDS[cause];
  return `### ${name}

\`${cause}\`. ${what}

- **For it:** ${evidenceFor}
- **Against it:** ${evidenceAgainst}
- **First:** ${firstStep}
`;
}

function nameOf(cause: Cause): string {
  return CAUSE_WORDS[cause].name;
}

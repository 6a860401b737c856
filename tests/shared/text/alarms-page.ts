/**
 * What every alarm says, needs, asks for first, and when it can be wrong, as one page for people:
 * made of the same words as notices and pages, so that the written page cannot say something else.
 * Priorities are read from the contract's table.
 */
import { ALARM_WORDS } from '../../../shared/text/en/alarms/alarm-words.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import { CAUTIONS, type Caution } from '../../../shared/text/en/cautions.ts';
import { FORM_EVIDENCE } from '../../../shared/alarms/form-evidence.ts';
import { formWords } from '../../../shared/text/en/alarms/forms.ts';
import {
  ALARM_FORMS,
  CAUSES,
  type AlarmForm,
  type AlarmKind,
  type Cause,
} from '../../../shared/text/en/alarms/kinds.ts';
import { DISTINGUISHING_CHECKS } from '../../../shared/text/en/causes/distinguishing-checks.ts';
import { wellTexts } from '../../../shared/text/en/pages/well.ts';
import { LOOK_ALIKES } from '../../../shared/text/en/causes/look-alikes.ts';
import {
  FORM_LEVELS,
  nowLevel,
  URGENCY_WORDS,
  type Urgency,
} from '../../../shared/text/en/alarms/urgency.ts';

const OPENING = `# Alarms

Every alarm that Stillwell can raise: what it says, what must be measured for it, what to do first, and when it can be wrong. Every
cause it can name, with what speaks for it and against it. The words are those of the pages and the notices; a test keeps this page
the same as they are.

Stillwell watches. It switches nothing and is no safety device. Local code, the equipment's own instructions and licensed people
always come first. Read the cautions of an alarm and of its cause before you touch anything: the section [Cautions](#cautions) has them
in full.

- **Now** is of two levels, and each alarm names its own: "${meaning('minutes')}" and "${meaning('today')}"
- **Soon:** ${meaning('soon')} Whom the step names is called within the week.
- **Note:** ${meaning('note')} Speak of it at the next visit.
- **The card** is what Stillwell knows of the well: pump, switch, tank, whom to call, the breaker. Its page is "Card".
- **The box** or node is the device at the well that measures and sends.
- **The screen** is the well's page, with its amps and pressure of now.
- **Enter it as expected, enter a visit, enter that a well is laid up:** on the well's page, under "${wellTexts.tellStillwell}" and "${wellTexts.startVisit}".
`;

function meaning(urgency: Urgency): string {
  return URGENCY_WORDS[urgency].means;
}

/** Markdown. `contract` is the text of firmware-contract/contract.md. */
export function alarmsPage(contract: string): string {
  const priorities = prioritiesOf(contract);
  return [
    OPENING,
    ...[...priorities].map(([kind, priority]) => alarmPart(kind, priority)),
    '## Causes\n\nFindings are weighed into likely causes. Some look alike from current and pressure alone; they are named together.\n',
    ...CAUSES.map(causePart),
    '## What looks alike\n',
    LOOK_ALIKES.map(
      ({ causes, distinguishedBy, cautions = [] }) =>
        `- ${namesOf(causes)}. To tell which: ${distinguishedBy}.${inBrackets(cautions)}`,
    ).join('\n'),
    '\n## How to tell apart\n\nThe causes before the dash from those after it.\n',
    DISTINGUISHING_CHECKS.map(
      ({ sideA, sideB, how, cautions = [] }) =>
        `- ${namesOf(sideA)} – ${namesOf(sideB)}. ${how}${inBrackets(cautions)}`,
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

\`${kind}\`, ${priorityOf(kind, priority)}. ${means}

${/\bnow\b/.test(priorityOf(kind, priority)) ? `- **When now:** ${URGENCY_WORDS[nowLevel(kind)].means}\n` : ''}- **Needs:** ${needs}
- **First:** ${firstStep}
- **Can be wrong:** ${canBeWrong}
${cautionsItem(cautions)}${ALARM_FORMS.map((form) => formPart(kind, form)).join('')}`;
}

/**
 * The contract has one row for both kinds of amps: a current under its normal is never over the
 * nameplate.
 */
function priorityOf(kind: AlarmKind, priority: string): string {
  return (kind === 'amps-low' ? priority.split(';')[0]! : priority)
    .replace('over 1.15 of the plate', 'over 1.15 of the service-factor amps')
    .replace('now running, soon resting', 'now while the pump runs, soon while it rests');
}

const FORM_NAMES: Record<AlarmForm, string> = {
  'past-cut-out': 'past cut-out',
  'over-plate': 'far over the nameplate',
  'on-two-phases': 'perhaps on two phases',
  'voltage-far-off': 'a fifth off and more',
  'ended-by-protector': 'a protector ends the run',
};

/** What is said instead in one form of the alarm. */
function formPart(kind: AlarmKind, form: AlarmForm): string {
  const words = formWords(kind, form);
  if (!words) return '';
  const level = FORM_LEVELS[form];
  return `
### ${ALARM_WORDS[kind].title}: ${FORM_NAMES[form]}

${words.means}

${level === undefined ? '' : `- **When now:** ${URGENCY_WORDS[level].means}\n`}- **First:** ${words.firstStep}
- **Can be wrong:** ${words.canBeWrong}
${cautionsItem(words.cautions)}- **In its evidence:** ${Object.entries(FORM_EVIDENCE[form])
    .map(([figure, value]) => `\`${figure}\`: "${value}"`)
    .join(', ')}
`;
}

function causePart(cause: Cause): string {
  const { name, what, evidenceFor, evidenceAgainst, firstStep, cautions } = CAUSE_WORDS[cause];
  return `### ${name}

\`${cause}\`. ${what}

- **For it:** ${evidenceFor}
- **Against it:** ${evidenceAgainst}
- **First:** ${firstStep}
${cautionsItem(cautions)}`;
}

function cautionsItem(cautions: readonly Caution[]): string {
  return cautions.length === 0 ? '' : `- **Cautions:** ${cautions.join(', ')}\n`;
}

function inBrackets(cautions: readonly Caution[]): string {
  return cautions.length === 0 ? '' : ` (Cautions: ${cautions.join(', ')}.)`;
}

function namesOf(causes: readonly Cause[]): string {
  return causes.map((cause) => CAUSE_WORDS[cause].name).join(', ');
}

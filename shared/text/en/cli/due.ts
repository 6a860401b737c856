/** Texts of the commands for due checks. */
import { formatCount } from '../format.ts';

type Word = string | number;

export const dueCommandTexts = {
  checksOf: ({ check, well, checks }: Record<'check' | 'well' | 'checks', Word>) =>
    `Cannot record ${check}: it must be one of the checks of ${well}: ${checks}`,
  recordedIsNextDue: ({ title, date }: Record<'title' | 'date', Word>) =>
    `Recorded. ${title} is next due on ${date}.`,
  recordedNotDueAgain: (title: Word) => `Recorded. ${title} is not due again.`,
  dueByOnOverdue: ({
    dueCount,
    until,
    wells,
    late,
  }: Record<'dueCount' | 'wells' | 'late', number> & { until: string }) =>
    `${dueCount} due by ${until} on ${formatCount(wells, 'well')}; ${late} overdue`,
  neverRecorded: ({
    checks,
    wells,
    hasDates,
  }: Record<'checks' | 'wells', number> & { hasDates: boolean }) => {
    const text = `\nNever recorded: ${formatCount(checks, 'check')} on ${formatCount(wells, 'well')}.`;
    return hasDates ? `${text} Proposed dates:` : text;
  },
  proposedAfterToSetOther: ({ checks, until }: { checks: number; until: string }) =>
    `${formatCount(checks, 'check')} proposed after ${until}. To set other dates: stillwell due plan`,
  onHold: '\nOn hold:',
  laidUp: 'laid up',
  outOfService: 'out of service',
  since: ({ what, sinceDate }: Record<'what' | 'sinceDate', Word>) => `${what} since ${sinceDate}`,
  until: ({ what, untilDate }: Record<'what' | 'untilDate', Word>) => `${what} until ${untilDate}`,
  today: 'today',
  inDays: (days: Word) => `in ${days} d`,
  target: ({ us, metric }: Record<'us' | 'metric', Word>) => `: target ${us} (${metric})`,
  dLate: (lateDays: Word) => `${lateDays} d late`,
  fromMustNot: (from: Word) => `Cannot plan: --from must not be in the past: ${from}`,
  nothingToPlanEveryCheck: 'Nothing to plan: every check has a date.',
  onUp: ({ checks, wells, on }: Record<'checks' | 'wells', number> & { on: string }) =>
    `${formatCount(checks, 'check')} on ${formatCount(wells, 'well')}, up to ${on}`,
  planSaved: (all: Word) => `Saved: ${all}.`,
  planOfNothingWasSaved: (all: Word) =>
    `A plan of ${all}. Nothing was saved. To save these dates, add --write.`,
  removeAddressRemovesTheAddress:
    'Cannot do both: --remove-address removes the address that --subscribe prints',
  addressWasRemovedItNo: 'The address was removed. It no longer works.',
  noPhoneCanReach: ({ hosts, commandOptions }: Record<'hosts' | 'commandOptions', Word>) =>
    `No phone can reach the calendar: the server answers only this computer. Start it with: stillwell serve --listen ${hosts}${commandOptions}`,
  oldAddressNoLongerWorks:
    'The old address no longer works. Anyone on this network with the new address can read the calendar.',
  everyoneOnThisNetworkWho:
    'Anyone on this network with this address can read the calendar. It shows the names of the wells, their due checks and reasons, and locations.',
  nothingWasRecordedOfLines: ({ badCount, rowsCount }: Record<'badCount' | 'rowsCount', number>) =>
    `Nothing was recorded: ${badCount} of ${formatCount(rowsCount, 'line')} cannot be read.`,
  rows: { one: (at: number) => `line ${at}`, many: (count: number) => formatCount(count, 'line') },
  columnProblem: ({ column, problem, value }: Record<'column' | 'problem' | 'value', Word>) =>
    `column ${column}: ${problem}: ${value}`,
  wereRecordedBefore: (count: number) => `already recorded: ${count}`,
  checksWouldBeRecordedNothing: ({ freshCount, same }: { freshCount: number; same: string }) =>
    `${formatCount(freshCount, 'check')} would be recorded, ${same}. Nothing was changed.`,
  checksRecorded: ({ freshCount, same }: { freshCount: number; same: string }) =>
    `${formatCount(freshCount, 'check')} recorded, ${same}.`,
  lineOfChecksWereRecorded: ({
    line,
    well,
    message,
    n,
    rowsCount,
  }: Record<'line' | 'n' | 'rowsCount', number> & Record<'well' | 'message', string>) =>
    `line ${line}, ${well}: ${message}\nRecorded before that: ${n} of ${formatCount(rowsCount, 'check')}. Run the command again to continue.`,
  columnWellThereIsNo: (well: Word) => `column well: unknown well ${well}`,
  columnCheckHasAndNo: ({ well, checks, check }: Record<'well' | 'checks' | 'check', Word>) =>
    `column check: must be one of the checks of ${well}: ${checks}: ${check}`,
  columnOn: ({ reason, on }: Record<'reason' | 'on', Word>) => `column on: ${reason}: ${on}`,
  columnResultMustBeOne: ({ checkOutcomes, result }: Record<'checkOutcomes' | 'result', Word>) =>
    `column result: must be one of ${checkOutcomes}: ${result}`,
  listTheChecksAndWater:
    'List the checks and water tests that are due within a month. Checks that were never recorded follow, each with a proposed date. Checks of a well that is laid up or out of service are on hold. The server must be running.',
  nameOfAWellDefault: 'Name of a well. Default: all wells.',
  listWhatIsDueUp: 'List what is due up to this date, such as 2027-03-31.',
  listWhatIsDueWithin: 'List what is due within this number of days.',
  listTheWellsOfOne: 'List the wells of one site.',
  printTheAddress: 'Print the address of the calendar for phones on the farm network.',
  makeANewAddress: 'Create a new address. The old one stops working.',
  removeTheAddress: 'Remove the address.',
  examplesOfDue:
    '\nExamples:\n  stillwell due --days 30\n  stillwell due mill --until 2027-03-31\n  stillwell due done mill precharge --value "36 psi" --left "38 psi" --result put-right',
  recordACheck: 'Record one check that was done, or many with --table.',
  nameOfTheWell: 'Name of the well.',
  nameOfTheCheck: 'Name of the check, as "stillwell due" prints it: precharge, relief-valve …',
  oneOfDefaultRight: (checkOutcomes: Word) => `One of ${checkOutcomes}. Default: right.`,
  valueAsFound: 'Value as found, with its unit.',
  valueAsLeft: 'Value as left, with its unit.',
  recordManyChecks:
    'Record many checks from a table (.csv). Its columns are well, check, on; result, value, left, note and by are optional.',
  withTablePrintWhatWould: 'With --table: print what would be recorded, and record nothing.',
  examplesOfDueDone:
    '\nExamples:\n  stillwell due done mill precharge --value "36 psi" --left "38 psi" --result put-right\n  stillwell due done --table alder-bench-checks.csv --dry-run',
  eitherAWell:
    'Cannot record a check: give a well and a check, or --table. Usage: stillwell due done WELL CHECK',
  proposeDatesForChecks:
    'Propose dates for checks that were never recorded, and save them with --write. Wells at one site come one after another. Saturdays and Sundays are left out.',
  firstDateDefaultTomorrow: 'First date. Default: tomorrow.',
  wellsADayDefault: (defaultWellsADay: Word) => `Wells per day. Default: ${defaultWellsADay}.`,
  planTheWellsOfOne: 'Plan the wells of one site.',
  saveTheDates: 'Save the dates.',
  examplesOfDuePlan: '\nExample:\n  stillwell due plan --site alder-bench --wells-a-day 2 --write',
  untilAndDaysExcludeEach: 'Cannot list: --until and --days exclude each other. Give one of them',
};

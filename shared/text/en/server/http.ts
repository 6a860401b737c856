/** Texts of the API: what it answers when it cannot do what was asked, and why it cannot start. */
import { formatCount } from '../format.ts';

type Word = string | number;

export const httpTexts = {
  /** Titles of problems by status. */
  titles: {
    400: 'The request is not valid',
    403: 'Not allowed from here',
    404: 'Not found',
    405: 'Not possible in this way',
    409: 'Not possible now',
    413: 'Too large',
    415: 'JSON is expected',
    500: 'Stillwell failed',
    503: 'Not available now',
  } satisfies Record<number, string>,
  otherTitle: 'Something is wrong',
  /** The description of the API, and of an answer that is no problem. */
  apiDescription:
    'What is known of the wells. Everything is SI with the unit in the name. Nothing here can start, stop or set a pump.',
  answer: 'The answer',
  isMissing: 'is missing',
  toMustBeLater: 'query.to must be later than query.from',
  windowTooLong: (days: number) => `The window must be at most ${formatCount(days, 'day')}`,
  sendJson: 'Send the body as application/json.',
  bodyIsNotJson: 'The body is not JSON.',
  bodyIsIncomplete: 'The body did not arrive whole.',
  bodyTooLarge: (limit: Word) => `The body may have ${limit} at most.`,
  cannotAnswer: 'The request could not be answered. The log of the server says why.',
  notFound: (what: Word) => `Not found: ${what}`,
  noSuchDocument: 'There is no such document.',
  onlyGetAndHead: 'Only GET and HEAD are answered here.',
  nothingHere: 'Nothing is here.',
  cannotAnswerCalendar: 'The request could not be answered.',
  openAsLocalhost: 'These pages are for this computer alone. Open them as localhost.',
  otherSite: 'A page of another site sent this request. Nothing was done.',
  mustStayLocal: (host: Word) =>
    `Cannot open the pages on ${host}: they must stay on this computer (127.0.0.1, ::1 or localhost), because nobody has to sign in to see them yet`,
  noIndexPage: (folder: Word) =>
    `Cannot serve the pages: ${folder} must hold index.html: run "npm run build" first`,
  cannotReadPages: (folder: Word) =>
    `Cannot serve the pages: ${folder} can’t be read: run "npm run build" first`,
  /** What `cannotOpen` says could not be opened. */
  pages: 'the pages',
  calendar: 'the calendar for phones',
  cannotOpen: ({ what, address, reason }: Record<'what' | 'address' | 'reason', Word>) =>
    `Cannot open ${what} on ${address}: ${reason}`,
  portInUse: 'another program has this port: end it, or choose another port in the settings',
  portNotAllowed: 'this user may not open ports under 1024: choose a higher one',
  noSuchAddress: 'this computer has no such address: give one of its own',
  tooManyViewers: (max: number) =>
    `${formatCount(max, 'page')} follow the live stream already. Close one of them.`,
  missedEventsAreGone: 'The events that were missed are no longer held.',
  noSuchAlarm: (id: Word) => `There is no alarm ${id}.`,
  alarmIsOver: 'This alarm is over already.',
  siteAlarmCannotBeShelved: 'An alarm of a whole site can be acknowledged, but not shelved.',
  shelveWithinDays: (days: number) => `body.untilMs must be in the next ${formatCount(days, 'day')}`,
  noSuchNode: (node: Word) => `There is no node ${node}.`,
  noAddressForPhones: 'Cannot make an address for phones: the server answers only this computer.',
  calendarOfWells: 'Wells',
  calendarOfWell: (well: Word) => `Well ${well}`,
  cardOfAnotherWell: ({ well, found }: Record<'well' | 'found', Word>) =>
    `Cannot read card: well must be ${well}: ${found}`,
  photoIsMissing: (hash: Word) =>
    `must be documents that are kept here. There is none with this hash: ${hash}`,
  cannotReadCard: ({ field, rule }: Record<'field' | 'rule', Word>) => `Cannot read card: ${field} ${rule}`,
  cardChangedBy: (by: Word) =>
    `${by} changed this card after you opened it. See what changed, then make your change again.`,
  cardChanged:
    'Somebody changed this card after you opened it. See what changed, then make your change again.',
  noWellAtSite: (site: Word) => `There is no well at a site ${site}.`,
  conditionIsPresent: 'The condition is present.',
  conditionIsNotPresent: 'The condition is not present.',
  cannotTell: (because: Word) => `Cannot tell: ${because}.`,
  noSuchChannel: (channel: Word) => `There is no channel ${channel}.`,
  noSuchPump: ({ well, pump }: Record<'well' | 'pump', Word>) => `${well} has no pump ${pump}.`,
  sinceWithinDay: 'query.since must lie within the last day',
  queryProblem: ({ key, problem, value }: Record<'key' | 'problem' | 'value', Word>) =>
    `query.${key} ${problem}: ${value}`,
  noSuchVisit: ({ well, visit }: Record<'well' | 'visit', Word>) => `${well} has no visit ${visit}.`,
  unknownWell: (well: Word) => `Unknown well: ${well}`,
};

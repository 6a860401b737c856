/**
 * Rules of what people write on a card, in an act or an entry, each to stand after the name of its
 * field: "switch.cutIn must be …". Names of fields, words to choose from and examples are typed as
 * they stand, whatever the language.
 */

/** What a refusal is of, as it says first. */
const READ_OF = { card: 'card', act: 'act', entry: 'entry' } as const;
export type ReadOf = keyof typeof READ_OF;

/** "a, b, c", as the words to choose from are written. */
type Options = readonly (string | number)[];

const ofValues = {
  mustBeAnObject: 'must be an object in braces',
  mustBeGiven: 'must be given',
  isNotKnown: (known: Options) => `is unknown; known names: ${known.join(', ')}`,
  isNotKnownHere: (known: Options) => `is unknown here; known names: ${known.join(', ')}`,
  mustBeInRange: (range: string) => `must be ${range}`,
  mustBeOneOf: (options: Options) => `must be one of ${options.join(', ')}`,
  mustBeOneOrSome: (options: Options) => `must be one of ${options.join(', ')}, or a list of them`,
  mustBeAListOf: (options: Options) => `must be a list of ${options.join(', ')}`,
  mustBeText: (max: number) => `must be text of 1 to ${max} characters in one line`,
  mustBeLines: (max: number) => `must be a list of at most ${max} lines`,
  mustEachBeText: (max: number) => `must each be text of 1 to ${max} characters in one line`,
  mustBeADate: 'must be a date such as "2019-05-14", "2019-05" or "2019"',
  mustBeATime: 'must be a time such as "2026-03-12T10:00:00Z"',
  mustBeAName: 'must be 1 to 40 characters from a-z, 0-9 and -',
  mustBeAFlag: 'must be true or false',
  mustBeAPump: 'must be a pump such as p1',
  mustBeAChannel: 'must be a channel of the node (such as current or p2/current)',
  mustBePairsOfNumbers: 'must be two pairs of numbers, [[read, true], [read, true]]',
  mustBeATimeZone: 'must be a time zone from the IANA list (such as "America/Denver")',
  mustBeDocuments: (max: number) => `must be a list of at most ${max} documents, each by its hash`,
  mustBeADocument: 'must be the SHA-256 of the bytes in hex',
};

/** Between fields of a card. */
const ofCards = {
  mustNotStandBesidePoints: 'must not be given together with points, which give both',
  mustBeBelow: (other: string) => `must be below ${other}`,
  mustBeADepthOrPlace: (range: string) => `must each be a depth ${range}, or a place in words`,
  mustNotStandBesidePumps: 'must not be given together with pumps: it belongs in each of them',
  mustHoldAPump: 'must hold at least one pump',
  mustBeCalledInOrder: (max: number) => `must be named p1, p2 … p${max} without a gap`,
  mustSayOnce: (channel: string) =>
    `must give each start time for ${channel} only once: two rules start at the same time`,
  mustBeAListOfAtMost: (max: number) => `must be a list of at most ${max}`,
  isNoChannel: 'is not a channel of a well (such as current, p2/current, pressure)',
  mustBeOfAPumpOfTheCard: (pumps: number) => `must belong to a pump of this card, and it has ${pumps}`,
  mustBeANodeAndChannel: 'must be a node and its channel (such as "panel-a:p2/current")',
  mustBeOfTheSameUnit: (channel: string) =>
    `must be fed by a channel with the same unit, and ${channel} has another`,
};

/** Between fields of an act. */
const ofActs = {
  mustPinSomething: 'must be given, or cutIn, or cutOut',
  mustRise: 'must rise: two different readings, the higher one with the higher true value',
  mustBePumpOfWell: ({ well, pumps }: { well: string; pumps: Options }) =>
    `must be a pump of the card of ${well}, which has ${pumps.join(', ')}`,
  mustBeChannelOfContract: 'must be of a channel of the contract',
  mustBeTwoPairs: 'must be two pairs, [[read, true], [read, true]]',
  mustHaveGain: ({ min, max }: { min: number; max: number }) =>
    `must make a line with a gain from ${min} to ${max} (true = gain x read + offset)`,
  mustHaveOffset: (max: number) =>
    `must make a line with an offset from -${max} to ${max} (true = gain x read + offset)`,
};

export const fieldRules = {
  ...ofValues,
  ...ofCards,
  ...ofActs,
  cannotRead: ({ what, key, rule, value }: { what: ReadOf; key: string; rule: string; value: string }) =>
    `Cannot read ${READ_OF[what]}: ${key} ${rule}: ${value}`,
  cannotReadWithoutKind: (what: ReadOf) => `Cannot read ${READ_OF[what]}: kind must be given: nothing`,
  nothing: 'nothing',
  farTooDeep: 'something nested too deeply',
};

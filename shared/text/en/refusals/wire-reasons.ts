/**
 * Why a message was refused, for whoever builds or repairs a node: the rule and the value that
 * broke it. The names of fields and words are the contract's and the same in every language. The
 * short names of refusals (`wrong-unit`) are on the wire; here is what each of them is called.
 */
import { ceilingText, type CeilingReached } from './ceiling.ts';
import { writtenValue, type WrittenValue } from './written-value.ts';

/** A field of a record, its place from 1, and what stands there. */
interface OfRecord {
  field: string;
  place: number;
  value: WrittenValue;
}

/** Rules of any message. */
const ofMessages = {
  topics: ({ root, topic }: { root: string; topic: WrittenValue }) =>
    `Topics are ${root}/{node}/{what}: ${writtenValue(topic)}.`,
  'payload-too-large': ({ max, bytes }: { max: number; bytes: number }) =>
    `A payload has ${max} bytes at most, not ${bytes}.`,
  'pack-retained': 'Packs are not retained: this one would come again at each reconnect.',
  'hello-empty': 'A hello is a JSON object: this payload has no bytes.',
  'hello-field': ({ path, rule }: { path: string; rule: string }) => `${path}: ${rule}.`,
  'hello-whole': ({ rule }: { rule: string }) => `The message: ${rule}.`,
  'presence-empty': 'A presence is here, gone or no-power: this payload has no bytes.',
  presence: ({ value }: { value: WrittenValue }) =>
    `A presence is here, gone or no-power, not ${writtenValue(value)}.`,
  'not-taken': ({ node, ceiling }: { node: string; ceiling: CeilingReached }) =>
    `Node ${node} is not accepted: ${ceilingText(ceiling)}.`,
  'pending-approval': ({ node }: { node: string }) =>
    `Node ${node} is pending approval; it was told to hold its packs.`,
};

/** Rules of bytes. */
const ofBytes = {
  utf8: 'JSON is UTF-8 text; these bytes are not.',
  'json-depth': ({ max, depth }: { max: number; depth: number }) =>
    `A message nests ${max} deep at most, not ${depth}.`,
  json: ({ bytes }: { bytes: number }) => `These ${bytes} bytes are not a complete JSON text.`,
  'cbor-depth': ({ max }: { max: number }) => `A message nests ${max} deep at most.`,
  // The decoder's own words follow, as those of any library.
  cbor: ({ bytes, error }: { bytes: number; error: string }) =>
    `These ${bytes} bytes are not a complete CBOR item (${error}).`,
  'cbor-unreadable': ({ bytes }: { bytes: number }) =>
    `These ${bytes} bytes are not a complete CBOR item (unreadable).`,
  'cbor-label': ({ bytes, label }: { bytes: number; label: WrittenValue }) =>
    `These ${bytes} bytes are not a complete CBOR item (label ${writtenValue(label)} is neither an integer nor text, or appears twice).`,
  'coarse-time': 'A base time in half or single precision is refused: send an integer or a double.',
};

/** Rules of RFC 8428. */
const ofSenml = {
  'pack-no-bytes': ({ max }: { max: number }) => `A pack has 1 to ${max} records: this payload has no bytes.`,
  'pack-no-records': ({ max }: { max: number }) => `A pack has 1 to ${max} records: this one has none.`,
  'pack-records': ({ max, records }: { max: number; records: number }) =>
    `A pack has ${max} records at most, not ${records}.`,
  'pack-list': ({ value }: { value: WrittenValue }) =>
    `A pack is a list of records, not ${writtenValue(value)}.`,
  'record-object': ({ place, value }: Omit<OfRecord, 'field'>) =>
    `A record is an object: record ${place} is ${writtenValue(value)}.`,
  'record-name': ({ place, value }: Omit<OfRecord, 'field'>) =>
    `A name has A-Z a-z 0-9 - : . / _ and starts with a letter or digit: record ${place} has ${writtenValue(value)}.`,
  'record-time': ({ place, timeS }: { place: number; timeS: number }) =>
    `A time is a finite number: record ${place} has ${timeS}.`,
  version: ({ max, place, value }: Omit<OfRecord, 'field'> & { max: number }) =>
    `This reader knows SenML up to version ${max}: record ${place} has bver ${writtenValue(value)}.`,
  'mixed-versions': ({ place, version, before }: { place: number; version: number; before: number }) =>
    `A pack has one version: record ${place} has bver ${version} after ${before}.`,
  'must-understand': ({ place, field }: { place: number; field: WrittenValue }) =>
    `A field whose name ends in _ must be understood, and ${writtenValue(field)} in record ${place} is not.`,
  'field-text': ({ field, place, value }: OfRecord) =>
    `${field} is text: record ${place} has ${writtenValue(value)}.`,
  'field-number': ({ field, place, value }: OfRecord) =>
    `${field} is a finite number: record ${place} has ${writtenValue(value)}.`,
  'field-seconds': ({ field, place, value }: OfRecord) =>
    `${field} is a finite number of seconds: record ${place} has ${writtenValue(value)}.`,
  'field-flag': ({ field, place, value }: OfRecord) =>
    `${field} is true or false: record ${place} has ${writtenValue(value)}.`,
  'one-value': ({ place, count }: { place: number; count: number }) =>
    `A record has one of v, vs and vb: record ${place} has ${count}.`,
};

/** Rules of the contract for packs. */
const ofPacks = {
  boot: ({ value }: { value: WrittenValue }) =>
    `boot is an integer from 1 to 2^53-1 and is sent together with seq: ${writtenValue(value)}.`,
  seq: ({ value }: { value: WrittenValue }) =>
    `seq is an integer from 1 and is sent together with boot: ${writtenValue(value)}.`,
  first: ({ seq, value }: { seq: number; value: WrittenValue }) =>
    `first is an integer from 1 to the pack's own seq ${seq}: ${writtenValue(value)}.`,
  up: ({ value }: { value: WrittenValue }) =>
    `up is the node's uptime in seconds, 0 or more: ${writtenValue(value)}.`,
  'mixed-times': ({ firstS, timeS }: { firstS: number; timeS: number }) =>
    `Times of one pack are all Unix seconds or all relative: ${firstS} and ${timeS}.`,
  'no-calendar': ({ timeS }: { timeS: number }) => `A time of ${timeS} s is not a valid date.`,
  'later-than-up': ({ timeS }: { timeS: number }) =>
    `In a pack with up, times are zero or negative, relative to the pack: ${timeS}.`,
  'node-name': ({ node, place, value }: Omit<OfRecord, 'field'> & { node: string }) =>
    `Names under the topic of ${node} start with "${node}:": record ${place} has ${writtenValue(value)}.`,
  channels: ({ pack, channels }: { pack: string; channels: WrittenValue }) =>
    `No record has a channel that a ${pack} pack can carry: ${writtenValue(channels)}.`,
  unit: ({ channel, unit, place, value }: Omit<OfRecord, 'field'> & { channel: string; unit: string }) =>
    `${channel} is in ${unit}: record ${place} has ${writtenValue(value)}.`,
  'fault-word': ({ place, value }: Omit<OfRecord, 'field'>) =>
    `vs is low, high or bad: record ${place} has ${writtenValue(value)}.`,
  'no-contact': ({ channel, place }: { channel: string; place: number }) =>
    `${channel} is vb, true or false: record ${place} has none.`,
  'no-number': ({ channel, place }: { channel: string; place: number }) =>
    `${channel} is a number in v: record ${place} has none.`,
  bounds: (figures: {
    channel: string;
    low: number;
    high: number;
    unit: string;
    place: number;
    value: number;
  }) =>
    `${figures.channel} lies between ${figures.low} and ${figures.high} ${figures.unit}: record ${figures.place} has ${figures.value}.`,
};

export const wireReasons = { ...ofMessages, ...ofBytes, ...ofSenml, ...ofPacks };

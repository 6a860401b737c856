/**
 * What people do to a well, kind by kind with its fields (contract, section 6): the one table. The
 * type of an act, its reader (src/core/domain/read-act.ts), the API's schema and the contract's
 * table follow from it. `card-changed` stands apart: its one field is a whole card.
 */
import { MOTOR_AMPS, SWITCH_PRESSURE } from '../card/limits.ts';
import {
  channel,
  choice,
  flag,
  moment,
  name,
  pointPairs,
  pumpName,
  quantity,
  required,
  text,
  type Fields,
  type Values,
  type Written,
} from '../schema/field.ts';
import { ALARM_KINDS } from '../text/en/alarms/kinds.ts';

/** A few sentences. */
const MAX_REMARK_CHARACTERS = 500;

const well = required(name);
// Alarms are kept by their names: rows of an earlier version may have one that this one does not
// know.
const alarm = required(choice<string>(...ALARM_KINDS));
const until = required(moment('untilMs'));

/** On any act: a remark. */
export const REMARK = { text: text(MAX_REMARK_CHARACTERS) } as const satisfies Fields;

/** In the contract's order. */
export const ACT_FIELDS = {
  'visit-opened': { well },
  'visit-closed': { well, newBaseline: flag },
  pinned: {
    well,
    pump: pumpName,
    amps: quantity('current', MOTOR_AMPS, 'amps'),
    cutIn: quantity('pressure', SWITCH_PRESSURE, 'cutInKpa'),
    cutOut: quantity('pressure', SWITCH_PRESSURE, 'cutOutKpa'),
  },
  calibrated: { node: required(name), channel: required(channel), points: required(pointPairs) },
  acknowledged: { well, pump: pumpName, alarm },
  shelved: { well, pump: pumpName, alarm, until },
  'out-of-service': { well },
  'back-in-service': { well },
  'laid-up': { well, until: moment('untilMs') },
  expected: { well, text: required(REMARK.text), until },
  'server-away': { from: required(moment('fromMs')) },
  tick: {},
} as const satisfies Record<string, Fields>;

type FieldKind = keyof typeof ACT_FIELDS;

/** An act as it is read, in SI. */
export type ActValues = { [K in FieldKind]: { kind: K } & Values<(typeof ACT_FIELDS)[K]> }[FieldKind];

/** The server's own: it writes them into recordings, and nobody sends them. */
export const SERVER_ACTS = ['server-away', 'tick'] as const satisfies readonly FieldKind[];

type SentKind = Exclude<FieldKind, (typeof SERVER_ACTS)[number]>;

/** An act as it is sent, without its time. */
export type WrittenAct =
  | { kind: 'card-changed'; card: Record<string, unknown>; text?: string }
  | { [K in SentKind]: { kind: K; text?: string } & Written<(typeof ACT_FIELDS)[K]> }[SentKind];

/**
 * SenML as RFC 8428 has it: base fields apply until replaced, names and times are put together,
 * every record has one value. Nothing of our contract is known here (channels, units, nodes:
 * ./pack.ts), so the RFC's own examples can be run through it.
 */
import type { Refusal } from '../messages.ts';
import { SENML_VERSION } from '../limits.ts';
import { refuse, formatValue } from '../refuse.ts';

/**
 * One record with nothing left to look up. `timeS` is Unix seconds from 2^28 up, else seconds
 * relative to now.
 */
export interface ResolvedRecord {
  name: string;
  unit?: string;
  timeS: number;
  v?: number;
  vs?: string;
  vb?: boolean;
  vd?: unknown;
  /** Sum, with its base. */
  s?: number;
}

/** Base fields as they stand at a record. */
interface BaseFields {
  name: string;
  timeS: number;
  unit: string | undefined;
  value: number;
  sum: number;
  version: number | undefined;
}

export type JsonObject = Record<string, unknown>;

/** Section 4.5.1: starts with a letter or digit. */
const NAME = /^[A-Za-z0-9][A-Za-z0-9\-:./_]*$/;

export function isJsonObject(value: unknown): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/**
 * Resolves a pack's records in order, or says at the first record that breaks a rule which rule it
 * is.
 */
export function resolveSenml(records: readonly unknown[]): ResolvedRecord[] | Refusal {
  const base: BaseFields = { name: '', timeS: 0, unit: undefined, value: 0, sum: 0, version: undefined };
  const resolved: ResolvedRecord[] = [];
  for (const [at, record] of records.entries()) {
    if (!isJsonObject(record)) {
      return refuse('not-a-pack', 'record-object', { place: at + 1, value: formatValue(record) });
    }
    const one = resolveRecord(record, base, at + 1);
    if ('refused' in one) return one;
    resolved.push(one);
  }
  return resolved;
}

function resolveRecord(record: JsonObject, base: BaseFields, place: number): ResolvedRecord | Refusal {
  const refusal =
    applyVersion(record, base, place) ?? applyBaseFields(record, base, place) ?? checkFields(record, place);
  if (refusal !== undefined) return refusal;
  const { n, t, u } = record;
  const name = typeof n === 'string' ? base.name + n : base.name;
  if (!NAME.test(name)) {
    return refuse('bad-name', 'record-name', { place, value: formatValue(name) });
  }
  // A sum of zero is added so that a sender's -0 reads as 0.
  const timeS = base.timeS + (typeof t === 'number' ? t : 0) + 0;
  if (!Number.isFinite(timeS)) return refuse('bad-time', 'record-time', { place, timeS });
  const unit = typeof u === 'string' ? u : base.unit;
  const resolved: ResolvedRecord = { name, timeS };
  if (unit !== undefined) resolved.unit = unit;
  return setValue(resolved, record, base, place);
}

/**
 * Section 4.4: a version that is newer, or not the same throughout, and fields whose name ends in
 * `_`, are not to be guessed at.
 */
function applyVersion(record: JsonObject, base: BaseFields, place: number): Refusal | undefined {
  const { bver } = record;
  if (bver !== undefined) {
    if (typeof bver !== 'number' || !Number.isInteger(bver) || bver < 1 || bver > SENML_VERSION) {
      return refuse('unknown-version', 'version', { max: SENML_VERSION, place, value: formatValue(bver) });
    }
    if (base.version !== undefined && base.version !== bver) {
      return refuse('unknown-version', 'mixed-versions', { place, version: bver, before: base.version });
    }
    base.version = bver;
  }
  for (const key in record) {
    if (key.endsWith('_')) {
      return refuse('unknown-version', 'must-understand', { place, field: formatValue(key) });
    }
  }
  return undefined;
}

function applyBaseFields(record: JsonObject, base: BaseFields, place: number): Refusal | undefined {
  const { bn, bt, bu, bv, bs } = record;
  if (bn !== undefined) {
    if (typeof bn !== 'string')
      return refuse('bad-name', 'field-text', { field: 'bn', place, value: formatValue(bn) });
    base.name = bn;
  }
  if (bt !== undefined) {
    if (!isFiniteNumber(bt))
      return refuse('bad-time', 'field-seconds', { field: 'bt', place, value: formatValue(bt) });
    base.timeS = bt;
  }
  if (bu !== undefined) {
    if (typeof bu !== 'string')
      return refuse('wrong-unit', 'field-text', { field: 'bu', place, value: formatValue(bu) });
    base.unit = bu;
  }
  if (bv !== undefined) {
    if (!isFiniteNumber(bv))
      return refuse('not-a-number', 'field-number', { field: 'bv', place, value: formatValue(bv) });
    base.value = bv;
  }
  if (bs !== undefined) {
    if (!isFiniteNumber(bs))
      return refuse('not-a-number', 'field-number', { field: 'bs', place, value: formatValue(bs) });
    base.sum = bs;
  }
  return undefined;
}

function checkFields({ n, t, u }: JsonObject, place: number): Refusal | undefined {
  if (n !== undefined && typeof n !== 'string')
    return refuse('bad-name', 'field-text', { field: 'n', place, value: formatValue(n) });
  if (t !== undefined && !isFiniteNumber(t)) {
    return refuse('bad-time', 'field-seconds', { field: 't', place, value: formatValue(t) });
  }
  if (u !== undefined && typeof u !== 'string')
    return refuse('wrong-unit', 'field-text', { field: 'u', place, value: formatValue(u) });
  return undefined;
}

/** Section 4.2: exactly one of v, vs, vb, vd, or none beside a sum. */
function setValue(
  resolved: ResolvedRecord,
  record: JsonObject,
  base: BaseFields,
  place: number,
): ResolvedRecord | Refusal {
  const { v, vs, vb, vd, s } = record;
  const valueCount =
    Number(v !== undefined) + Number(vs !== undefined) + Number(vb !== undefined) + Number(vd !== undefined);
  if (valueCount > 1 || (valueCount === 0 && s === undefined)) {
    return refuse('no-value', 'one-value', { place, count: valueCount });
  }
  if (s !== undefined) {
    if (!isFiniteNumber(s))
      return refuse('not-a-number', 'field-number', { field: 's', place, value: formatValue(s) });
    resolved.s = base.sum + s;
  }
  if (v !== undefined) {
    const sum = isFiniteNumber(v) ? base.value + v : Number.NaN;
    if (!Number.isFinite(sum))
      return refuse('not-a-number', 'field-number', { field: 'v', place, value: formatValue(v) });
    resolved.v = sum;
  } else if (vs !== undefined) {
    if (typeof vs !== 'string')
      return refuse('not-a-number', 'field-text', { field: 'vs', place, value: formatValue(vs) });
    resolved.vs = vs;
  } else if (vb !== undefined) {
    if (typeof vb !== 'boolean')
      return refuse('no-value', 'field-flag', { field: 'vb', place, value: formatValue(vb) });
    resolved.vb = vb;
  } else if (vd !== undefined) resolved.vd = vd;
  return resolved;
}

function isFiniteNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}

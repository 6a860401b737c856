/**
 * What one message may be at most. The limits keep a broken or hostile sender from costing more
 * than a fixed amount of work. They stand in firmware-contract/contract.md; the bounds of values
 * are in src/core/domain/channel-bounds.ts.
 */

/** The contract's limit on a payload, 128 KiB: 2,000 records of 65 bytes. */
export const MAX_PAYLOAD_BYTES = 128 * 1024;

/** The contract's limit on a pack. A steady 10 Hz for 10 s on 15 channels is 1,500. */
export const MAX_RECORDS = 2000;

/** A pack nests 2 deep and a hello 4; twice that leaves room for fields that are not ours. */
export const MAX_DEPTH = 8;

/** RFC 8428, section 4.5.3: from here on a time is Unix seconds, below it is relative to now. */
export const ABSOLUTE_FROM_S = 2 ** 28;

/**
 * Farther from 1970 than this no calendar library can go (ECMA-262, time values): 100 million days.
 */
export const MAX_TIME_S = 8.64e12;

/** RFC 8428, section 4.4: the version of SenML that this reader understands. */
export const SENML_VERSION = 10;

/**
 * Reads only the fixed headers of an MQTT byte stream (MQTT 3.1.1, section 2.2: one type byte, then
 * a length of one to four bytes) and says when a packet is larger than allowed, before anybody has
 * gathered it in memory. The broker library has no limit of its own. State is three numbers; bytes
 * may be cut anywhere.
 */
export interface FrameMeter {
  /** Bytes of the running packet's body still to come. */
  remainingBytes: number;
  /** -1: a type byte comes next; 0 to 3: so many bytes of the length were read. */
  lengthByteIndex: number;
  partialLength: number;
}

export function newFrameMeter(): FrameMeter {
  return { remainingBytes: 0, lengthByteIndex: -1, partialLength: 0 };
}

/**
 * Takes the next bytes. Returns the size of a packet that is larger than `maxBytes` or has no valid
 * length, else 0.
 */
export function findOversizedPacket(meter: FrameMeter, bytes: Uint8Array, maxBytes: number): number {
  let at = 0;
  while (at < bytes.length) {
    if (meter.remainingBytes > 0) {
      const step = Math.min(meter.remainingBytes, bytes.length - at);
      meter.remainingBytes -= step;
      at += step;
    } else if (meter.lengthByteIndex < 0) {
      meter.lengthByteIndex = 0;
      meter.partialLength = 0;
      at += 1;
    } else {
      const byte = bytes[at]!;
      at += 1;
      meter.partialLength += (byte & 127) * 128 ** meter.lengthByteIndex;
      meter.lengthByteIndex += 1;
      if (byte < 128) {
        if (meter.partialLength > maxBytes) return meter.partialLength;
        meter.remainingBytes = meter.partialLength;
        meter.lengthByteIndex = -1;
      } else if (meter.lengthByteIndex === 4) {
        return Number.POSITIVE_INFINITY;
      }
    }
  }
  return 0;
}

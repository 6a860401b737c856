/**
 * The few MQTT 3.1.1 frames that the load needs, written out before the clock runs, so that the
 * sender costs as little as it can. Frame layouts: MQTT 3.1.1, sections 3.1 and 3.3.
 */
function text(value: string): Buffer {
  const bytes = Buffer.from(value);
  const head = Buffer.alloc(2);
  head.writeUInt16BE(bytes.length);
  return Buffer.concat([head, bytes]);
}

function remaining(length: number): Buffer {
  const out: number[] = [];
  let rest = length;
  do {
    const low = rest % 128;
    rest = Math.floor(rest / 128);
    out.push(rest > 0 ? low | 128 : low);
  } while (rest > 0);
  return Buffer.from(out);
}

export function connectFrame(clientId: string): Buffer {
  const body = Buffer.concat([text('MQTT'), Buffer.from([4, 2, 0, 0]), text(clientId)]);
  return Buffer.concat([Buffer.from([0x10]), remaining(body.length), body]);
}

/** PUBLISH with QoS 1; `id` is 1 to 65,535. */
export function publishFrame(topic: string, payload: Uint8Array, id: number): Buffer {
  const packet = Buffer.alloc(2);
  packet.writeUInt16BE(id);
  const body = Buffer.concat([text(topic), packet, payload]);
  return Buffer.concat([Buffer.from([0x32]), remaining(body.length), body]);
}

/**
 * CONNACK and PUBACK are 4 bytes each, and nothing else comes to a client that asked for nothing.
 */
export const ANSWER_BYTES = 4;

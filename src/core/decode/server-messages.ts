/**
 * The acknowledgement that a server sends (contract, section 4): `kept`, how far packs are safe.
 */
/** Of these boots nothing more is wanted up to `seq`, nor of the ranges in `also` above it. */
export interface PackAck {
  boot: number;
  /** 0: nothing of this boot is safe yet. */
  seq: number;
  also?: [number, number][];
  others?: { boot: number; seq: number }[];
}

export type Ack = PackAck | { wait: true };

/** JSON text of a `kept`; empty lists are left out. */
export function formatAck(ack: Ack): string {
  if ('wait' in ack) return '{"wait":true}';
  const { boot, seq, also, others } = ack;
  return JSON.stringify({ boot, seq, ...(also?.length && { also }), ...(others?.length && { others }) });
}

/**
 * One viewer of the live stream: what waits for it, and how much. Readings and states melt together
 * while it is slow, alarms queue up to a limit; a viewer that takes nothing for too long is let go,
 * comes back by itself and is told to ask anew.
 */
import type { LiveColumn, LiveMessage } from '../../shared/api/live.ts';

/** 10 minutes of a channel at one reading a second; older ones are dropped first. */
const MAX_POINTS = 600;
/**
 * More alarms than this in the few seconds that a viewer may be slow is a flood: it is better told
 * to ask anew.
 */
const MAX_ALARMS = 200;
/** Ticks (of a second) that a viewer may take nothing. */
const MAX_STALLED_TICKS = 30;
/** Bytes that may lie ready for the network. A state with a few alarms is about 2 KiB. */
const MAX_BUFFERED_BYTES = 256 * 1024;

export interface NumberedMessage {
  id: string;
  message: LiveMessage;
}

const utf8 = new TextEncoder();

export class LiveViewer {
  /** The only well it looks at; all wells where undefined. */
  readonly well: string | undefined;
  readonly stream: ReadableStream<Uint8Array>;
  /** Wells whose state is to be told again. */
  readonly dirty = new Set<string>();
  #columns = new Map<string, LiveColumn>();
  #alarms: NumberedMessage[] = [];
  #stalledTicks = 0;
  #controller: ReadableStreamDefaultController<Uint8Array> | undefined;
  #onClose: (viewer: LiveViewer) => void;

  constructor(well: string | undefined, onClose: (viewer: LiveViewer) => void) {
    this.well = well;
    this.#onClose = onClose;
    this.stream = new ReadableStream<Uint8Array>(
      {
        start: (controller) => {
          this.#controller = controller;
        },
        cancel: () => {
          this.#controller = undefined;
          onClose(this);
        },
      },
      new ByteLengthQueuingStrategy({ highWaterMark: MAX_BUFFERED_BYTES }),
    );
  }

  /** Adds readings of the one well it looks at. */
  addColumns(columns: readonly LiveColumn[]): void {
    for (const { channel, timesMs, values } of columns) {
      const held = this.#columns.get(channel);
      const all = held
        ? { times: [...held.timesMs, ...timesMs], values: [...held.values, ...values] }
        : { times: timesMs, values };
      this.#columns.set(channel, {
        channel,
        timesMs: all.times.slice(-MAX_POINTS),
        values: all.values.slice(-MAX_POINTS),
      });
    }
  }

  addAlarm(alarm: NumberedMessage): void {
    this.#alarms.push(alarm);
    if (this.#alarms.length > MAX_ALARMS) this.disconnect();
  }

  /**
   * Whether what was sent before has mostly been taken. Counts the ticks in which it has not, and
   * lets go after too many.
   */
  isReady(): boolean {
    const ready = this.#controller?.desiredSize ?? 0;
    this.#stalledTicks = ready > 0 ? 0 : this.#stalledTicks + 1;
    if (this.#stalledTicks > MAX_STALLED_TICKS) this.disconnect();
    return ready > 0;
  }

  /** Sends alarms, then readings, that wait. States are sent by the hub, which knows them. */
  flush(): void {
    for (const { id, message } of this.#alarms.splice(0)) this.send(message, id);
    if (this.well === undefined || this.#columns.size === 0) return;
    this.send({ event: 'readings', well: this.well, columns: [...this.#columns.values()] });
    this.#columns.clear();
  }

  send(message: LiveMessage, id?: string): void {
    const head = id === undefined ? '' : `id: ${id}\n`;
    this.#write(`${head}event: ${message.event}\ndata: ${JSON.stringify(message)}\n\n`);
  }

  /** A comment line: keeps what lies between from cutting a silent line. */
  heartbeat(): void {
    this.#write(': still here\n\n');
  }

  disconnect(): void {
    this.#controller?.close();
    this.#controller = undefined;
    this.#onClose(this);
  }

  #write(text: string): void {
    this.#controller?.enqueue(utf8.encode(text));
  }
}

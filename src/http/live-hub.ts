/**
 * Hands what happens to those who look: readings of a well to who looks at that well, at most once
 * a second; states, at most once a second to who looks at that well and once in five to who looks
 * at all; alarm changes to everybody, numbered, the last ones held for viewers that come back.
 * Listens to the run loop only while somebody looks, and a minute longer.
 */
import { channelUnit } from '../../shared/api/channel-units.ts';
import type { LiveColumn } from '../../shared/api/live.ts';
import type { WellSummary } from '../../shared/api/wells.ts';
import { alarmAnswer, activeByWell } from './answers/alarm-answers.ts';
import type { LiveChange, LiveReadings, WebDeps } from './deps.ts';
import { LiveViewer } from './live-viewer.ts';
import type { NumberedMessage } from './live-viewer.ts';
import { ProblemError } from './problem.ts';
import { wellSummary } from './answers/well-answers.ts';
import { texts } from './texts.ts';

const TICK_MS = 1_000;
const LIST_EVERY_TICKS = 5;
const HEARTBEAT_EVERY_TICKS = 15;
/** A browser comes back after about 3 s; a telephone that slept, within a minute. */
const LINGER_TICKS = 60;
/** A dashboard on each screen of a large farm, many times over. */
const MAX_VIEWERS = 200;
/** Alarm changes held for viewers that come back. */
const MAX_RECENT_ALARMS = 500;

export class LiveHub {
  #deps: WebDeps;
  #viewers = new Set<LiveViewer>();
  #recentAlarms: NumberedMessage[] = [];
  #count = 0;
  #ticks = 0;
  #emptyTicks = 0;
  #isTicking = false;
  #unsubscribe: (() => void) | undefined;
  #timer: NodeJS.Timeout | undefined;

  constructor(deps: WebDeps) {
    this.#deps = deps;
  }

  get viewers(): number {
    return this.#viewers.size;
  }

  /** Opens a stream. @throws ProblemError 503 where too many look already. */
  open(well?: string, lastEventId?: string): ReadableStream<Uint8Array> {
    if (this.#viewers.size >= MAX_VIEWERS) throw new ProblemError(503, texts().tooManyViewers(MAX_VIEWERS));
    const missed = this.#missedSince(lastEventId);
    const viewer = new LiveViewer(well, (gone) => this.#viewers.delete(gone));
    this.#viewers.add(viewer);
    this.#start();
    viewer.send({ event: 'connected', version: this.#deps.version, nowMs: this.#deps.now() }, this.#lastId());
    if (missed) for (const one of missed) viewer.send(one.message, one.id);
    else viewer.send({ event: 'resync', why: texts().missedEventsAreGone });
    return viewer.stream;
  }

  close(): void {
    for (const viewer of this.#viewers) viewer.disconnect();
    this.#stop();
  }

  /**
   * One second: sends what waits. Called by the timer, and by tests. Resolves when the states were
   * sent, which are read first.
   */
  async tick(): Promise<void> {
    this.#ticks += 1;
    this.#emptyTicks = this.#viewers.size > 0 ? 0 : this.#emptyTicks + 1;
    if (this.#emptyTicks > LINGER_TICKS) {
      this.#stop();
      return;
    }
    const ready = [...this.#viewers].filter((viewer) => viewer.isReady());
    for (const viewer of ready) viewer.flush();
    const due = ready.filter((viewer) => viewer.well !== undefined || this.#ticks % LIST_EVERY_TICKS === 0);
    if (this.#ticks % HEARTBEAT_EVERY_TICKS === 0) for (const viewer of ready) viewer.heartbeat();
    await this.#sendStates(due.filter((viewer) => viewer.dirty.size > 0));
  }

  /**
   * Sends each well's state anew to the viewers for whom it has changed. One query of alarms for
   * all of them.
   */
  async #sendStates(viewers: readonly LiveViewer[]): Promise<void> {
    if (viewers.length === 0) return;
    // What changes from here on is marked anew, and sent the next time.
    const due = viewers.map((viewer) => ({ viewer, names: [...viewer.dirty] }));
    for (const { viewer } of due) viewer.dirty.clear();
    const names = [...new Set(due.flatMap((one) => one.names))];
    const wells = await Promise.all(names.map((name) => this.#deps.live.well(name)));
    const active = await activeByWell(this.#deps);
    const nowMs = this.#deps.now();
    const states = new Map(
      wells.flatMap((well): [string, WellSummary][] =>
        well ? [[well.status.well, wellSummary(well.status, active.get(well.status.well) ?? [], nowMs)]] : [],
      ),
    );
    for (const { viewer, names: own } of due) {
      for (const well of own.flatMap((name) => states.get(name) ?? [])) viewer.send({ event: 'well', well });
    }
  }

  #handleChange(change: LiveChange): void {
    switch (change.is) {
      case 'readings': {
        const columns = this.#hasViewerOf(change.well) ? change.columns.map(liveColumn) : [];
        for (const viewer of this.#viewersOf(change.well)) {
          viewer.dirty.add(change.well);
          if (viewer.well !== undefined) viewer.addColumns(columns);
        }
        return;
      }
      case 'well':
        for (const viewer of this.#viewersOf(change.well)) viewer.dirty.add(change.well);
        return;
      case 'alarm':
        this.#handleAlarm(change.alarm);
        return;
      default:
        change satisfies never;
    }
  }

  #handleAlarm(row: Extract<LiveChange, { is: 'alarm' }>['alarm']): void {
    this.#count += 1;
    const numbered: NumberedMessage = {
      id: this.#lastId(),
      message: { event: 'alarm', alarm: alarmAnswer(row) },
    };
    this.#recentAlarms.push(numbered);
    if (this.#recentAlarms.length > MAX_RECENT_ALARMS) this.#recentAlarms.shift();
    for (const viewer of this.#viewersOf(row.well)) {
      viewer.dirty.add(row.well);
      viewer.addAlarm(numbered);
    }
  }

  #hasViewerOf(well: string): boolean {
    return [...this.#viewers].some((viewer) => viewer.well === well);
  }

  #viewersOf(well: string): LiveViewer[] {
    return [...this.#viewers].filter((viewer) => viewer.well === undefined || viewer.well === well);
  }

  /**
   * Alarm changes after that id; all is well without one; undefined where they are no longer held.
   */
  #missedSince(lastEventId: string | undefined): NumberedMessage[] | undefined {
    if (lastEventId === undefined || lastEventId === '') return [];
    if (!this.#unsubscribe) return undefined;
    if (lastEventId === this.#lastId()) return [];
    const at = this.#recentAlarms.findIndex((one) => one.id === lastEventId);
    return at < 0 ? undefined : this.#recentAlarms.slice(at + 1);
  }

  /** Ids of an earlier start of the server are none of ours: they carry its start. */
  #lastId(): string {
    return `${this.#deps.startedMs}-${this.#count}`;
  }

  #start(): void {
    this.#emptyTicks = 0;
    this.#unsubscribe ??= this.#deps.live.subscribe((change) => this.#handleChange(change));
    this.#timer ??= setInterval(() => void this.#tickUnlessBusy(), TICK_MS).unref();
  }

  /**
   * States go out in the order in which they were read: where that takes longer than a second, the
   * next second is left out.
   */
  async #tickUnlessBusy(): Promise<void> {
    if (this.#isTicking) return;
    this.#isTicking = true;
    try {
      await this.tick();
    } catch (error) {
      this.#deps.onError(error);
    } finally {
      this.#isTicking = false;
    }
  }

  /** What is held is of no use once changes go by unheard. */
  #stop(): void {
    this.#unsubscribe?.();
    this.#unsubscribe = undefined;
    clearInterval(this.#timer);
    this.#timer = undefined;
    this.#recentAlarms = [];
    this.#count += 1;
  }
}

function liveColumn({ channel, timesMs, values }: LiveReadings): LiveColumn {
  const factor = channelUnit(channel)?.factor ?? 1;
  return {
    channel,
    timesMs: Array.from(timesMs),
    values: Array.from(values, (value) => (Number.isNaN(value) ? null : value * factor)),
  };
}

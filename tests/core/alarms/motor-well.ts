/**
 * A small well that is played through the whole engine, for what only shows from reading to alarm:
 * a motor on a wandering supply, a hole that gives out, sensors that show what is not so. Its
 * physics are a tank that moves so many litres a kPa, a pump whose flow falls evenly with pressure,
 * and a current that follows flow and supply; all chance comes from a seed.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { channelCode } from '../../../src/core/domain/channels.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';
import { advance, newWell, applyInput, type Emitted, type WellState } from '../../../src/core/well/engine.ts';
import type { Segment } from '../../../src/core/readings/segment.ts';

const T0 = Date.UTC(2026, 2, 2);
const DAY_S = 86_400;
const PSI = 6.894757293168;

export interface Play {
  days: number;
  /** As people write it; over the house's own. */
  card?: Record<string, unknown>;
  everyS?: number;
  /**
   * Is voltage measured, how far does it wander (share), and how does current follow it (exponent)?
   */
  volts?: boolean;
  wander?: number;
  slope?: number;
  /** What the motor draws and the pump lifts, as shares, by day. */
  amps?: (day: number) => number;
  flow?: (day: number) => number;
  /**
   * Litres that the hole gives before the pump stands dry, and what comes back, L/s; without, it
   * never does.
   */
  holeL?: number;
  refillLPerS?: number;
  /** Water drawn beside the house's, L/s. */
  draw?: (day: number) => number;
  /** What the sensors make of the truth. */
  showAmps?: (amps: number, day: number, running: boolean) => number;
  showKpa?: (kpa: number, day: number) => number;
  /** Does the breaker let current through? */
  supply?: (day: number) => boolean;
  cutIn?: number;
  cutOut?: number;
  acts?: { day: number; card: Record<string, unknown> }[];
  seed?: number;
}

const HOUSE = {
  well: 'north-paddock',
  control: 'pressure-switch',
  use: 'house',
  altitude: '0 ft',
  pump: { motor: '1 hp', volts: '230 V', phase: 1, maxAmps: '9.8 A', rated: '10 gpm' },
  switch: { cutIn: '40 psi', cutOut: '60 psi' },
  tank: { volume: '44 gal', precharge: '38 psi' },
};

export interface Played {
  well: WellState;
  alarms: AlarmEvent[];
  /** `day 6.3 amps-high raised soon failing-motor`, one line an event. */
  said: string[];
  /** True runs that began from a day on and before an alarm. */
  runsSince: (day: number, alarm: AlarmEvent) => number;
  /** When the hole first ran empty under a running pump, ms. */
  brokeMs: () => number;
}

export function playMotor(play: Play): Played {
  const read = cardOf(play.card ?? {});
  const well = newWell(read);
  const alarms: AlarmEvent[] = [];
  const emit = ({ event }: Emitted): void => void (event.event === 'alarm' && alarms.push(event));
  const nature = begin(play);
  let acts = [...(play.acts ?? [])];
  for (let hour = 0; hour < play.days * 24; hour++) {
    while (acts[0] && acts[0].day * 24 <= hour) {
      applyInput(
        well,
        { atMs: T0 + hour * 3_600_000, act: { kind: 'card-changed', card: cardOf(acts[0].card) } },
        emit,
      );
      acts = acts.slice(1);
    }
    advance(well, anHour(play, nature, hour), emit);
  }
  return {
    well,
    alarms,
    said: alarms.map(inWords),
    runsSince: (day, alarm) =>
      nature.starts.filter((s) => s >= day * DAY_S && T0 + s * 1000 < Date.parse(alarm.at)).length,
    brokeMs: () => T0 + (nature.brokeS ?? NaN) * 1000,
  };
}

function cardOf(change: Record<string, unknown>): WellState['card'] {
  const read = readCard({ ...HOUSE, ...change });
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

function inWords(event: AlarmEvent): string {
  const day = (Date.parse(event.at) - T0) / 1000 / DAY_S;
  const what = event.state === 'cleared' ? '' : ` ${event.priority} ${event.causes?.[0]?.cause ?? '-'}`;
  return `day ${day.toFixed(1)} ${event.alarm} ${event.state}${what}`;
}

interface Nature {
  kpa: number;
  on: boolean;
  holeL: number;
  volts: number;
  /** Litres still to be drawn, and when the next draw begins, s. */
  drawL: number;
  nextS: number;
  chance: () => number;
  starts: number[];
  brokeS?: number;
}

function begin(play: Play): Nature {
  let state = play.seed ?? 11;
  const chance = (): number => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648;
  };
  return {
    kpa: 50 * PSI,
    on: false,
    holeL: play.holeL ?? Infinity,
    volts: 236,
    drawL: 0,
    nextS: 600,
    chance,
    starts: [],
  };
}

/** Litres a kPa that the tank moves, flow at no pressure and where it ends. */
const TANK_L_PER_KPA = 0.31;
const FLOW_L_PER_S = 1.2;
const SHUT_OFF_KPA = 780;
const DRAW_L_PER_S = 0.15;

function step(play: Play, nature: Nature, tS: number): number {
  const day = tS / DAY_S;
  if (tS >= nature.nextS) {
    nature.drawL = 20 + 60 * nature.chance();
    nature.nextS = tS + 1200 + 4800 * nature.chance();
  }
  const drawn = (nature.drawL > 0 ? DRAW_L_PER_S : 0) + (play.draw?.(day) ?? 0);
  nature.drawL = Math.max(0, nature.drawL - DRAW_L_PER_S);
  if (nature.kpa <= (play.cutIn ?? 40) * PSI) {
    if (!nature.on) nature.starts.push(tS);
    nature.on = true;
  }
  if (nature.kpa >= (play.cutOut ?? 60) * PSI) nature.on = false;
  const powered = play.supply?.(day) ?? true;
  const wet = nature.holeL > 0;
  if (nature.on && powered && !wet) nature.brokeS ??= tS;
  const flow =
    nature.on && powered && wet
      ? FLOW_L_PER_S * (play.flow?.(day) ?? 1) * (1 - nature.kpa / SHUT_OFF_KPA)
      : 0;
  nature.holeL = Math.min(play.holeL ?? Infinity, nature.holeL - flow + (play.refillLPerS ?? 0));
  nature.kpa = Math.max(0, nature.kpa + (flow - Math.min(drawn, nature.kpa)) / TANK_L_PER_KPA);
  if (!nature.on || !powered) return 0;
  const load = wet ? 7 + 2 * (flow / FLOW_L_PER_S) : 4.2;
  return load * (nature.volts / 236) ** (play.slope ?? -0.7) * (play.amps?.(day) ?? 1);
}

function anHour(play: Play, nature: Nature, hour: number): Segment {
  const everyS = play.everyS ?? 5;
  const rows: [number, number, number][] = [];
  const codes = ['current', 'pressure', 'voltage'].map((name) => channelCode(name)!);
  for (let s = 0; s < 3600; s++) {
    const tS = hour * 3600 + s;
    if (s % 300 === 0) {
      const to = 236 * (1 + (play.wander ?? 0) * (2 * nature.chance() - 1));
      nature.volts = 0.8 * nature.volts + 0.2 * to;
    }
    const amps = step(play, nature, tS);
    if (tS % everyS !== 0) continue;
    const day = tS / DAY_S;
    const noise = 0.04 * (nature.chance() - 0.5);
    rows.push([tS, codes[0]!, (play.showAmps ?? ((a) => a))(amps, day, amps > 0) + noise]);
    rows.push([tS, codes[1]!, 1000 * (play.showKpa ?? ((k) => k))(nature.kpa + nature.chance() - 0.5, day)]);
    if (play.volts) rows.push([tS, codes[2]!, nature.volts * (1 + 0.001 * (nature.chance() - 0.5))]);
  }
  return {
    n: rows.length,
    timeMs: Float64Array.from(rows, (row) => T0 + row[0] * 1000),
    channel: Uint8Array.from(rows, (row) => row[1]),
    value: Float64Array.from(rows, (row) => row[2]),
    fault: new Uint8Array(rows.length),
  };
}

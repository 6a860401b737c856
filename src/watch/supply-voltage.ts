/**
 * Measured voltage outside the motor's range: 10 % of its plate either way ("Electrical Fundamentals", Water Well Journal, 2024; NEMA MG 1).
 * Ten minutes of it, since the start of any large motor dips the supply, and a motor is cooked by hours.
 */
import { isFresh, standingSince, standsNot } from './facts.ts';
import { sayShare, sayVolts, tidy } from './say.ts';
import type { Finding, Memo, MinuteScene, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const OUTSIDE = 0.1;
const BACK_INSIDE = 0.09;
/** Under this it is no supply at all: `power-lost`. */
const GONE_SHARE = 0.5;
const MINUTES = 10;
/** A day and two hours without it: a supply that sags each evening is one alarm. */
const OFF_DELAY_S = 26 * 3600;

export const supplyVoltage: Watch = {
  alarm: 'supply-voltage',
  each: 'pump',
  on: ['minute'],
  onDelayS: 300,
  offDelayS: OFF_DELAY_S,
  look,
};

/** Of a minute in which the supply was gone for a while the mean says nothing of what the motor had. */
function voltsIn(minute: MinuteScene, index: number, nominal: number): number | undefined {
  const lines = minute.pumps[index]?.volts;
  if (lines?.every((line) => line.low < GONE_SHARE * nominal)) return undefined;
  return lines && lines.length > 0
    ? lines.reduce((sum, line) => sum + line.mean, 0) / lines.length
    : undefined;
}

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const nominal = scene.pump.card.volts;
  const { minutes } = scene.well;
  if (nominal === undefined) return undefined;
  let sum = 0;
  let n = 0;
  for (let at = Math.max(0, minutes.length - MINUTES); at < minutes.length; at++) {
    const minute = minutes[at]!;
    const volts = isFresh(scene, minute.atMs - 60_000)
      ? voltsIn(minute, scene.pump.index, nominal)
      : undefined;
    if (volts === undefined) continue;
    sum += volts;
    n++;
  }
  if (n < MINUTES) return undefined;
  const volts = sum / n;
  const off = volts / nominal - 1;
  if (Math.abs(off) < BACK_INSIDE || volts < GONE_SHARE * nominal) return standsNot(memo);
  if (Math.abs(off) < OUTSIDE) return undefined;
  const sinceMs = standingSince(memo, minutes[minutes.length - MINUTES]!.atMs - 60_000);
  const generator = off > 0 ? 0.3 : 0.2;
  return {
    sinceMs,
    why: `The supply shows ${sayVolts(volts)}, ${sayShare(off)} ${off > 0 ? 'over' : 'under'} the motor's ${sayVolts(nominal)}; it is made for 10 % either way.`,
    evidence: { volts: tidy(volts, 1), nominalVolts: nominal, share: tidy(off, 3) },
    causes: weigh({ 'supply-voltage': 0.7, generator, 'bad-card': Math.abs(off) > 0.3 ? 0.6 : 0.05 }),
  };
}

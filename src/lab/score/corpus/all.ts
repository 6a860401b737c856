/**
 * All cases of the proving ground: sound wells in all their nastiness, and every fault of the
 * contract in several sizes. The labels come from physics and from what the contract says an alarm
 * means, never from what the engine says.
 */
import type { CorpusCase } from '../case.ts';
import { badCards } from './bad-cards.ts';
import { habitFaults } from './fault-habit.ts';
import { leakFaults } from './fault-leak.ts';
import { motorFaults } from './fault-motor.ts';
import { nodeFaults } from './fault-node.ts';
import { pressureFaults } from './fault-pressure.ts';
import { pumpFaults } from './fault-pump.ts';
import { sensorFaults } from './fault-sensor.ts';
import { storeFaults } from './fault-store.ts';
import { supplyFaults } from './fault-supply.ts';
import { switchFaults } from './fault-switch.ts';
import { tankFaults } from './fault-tank.ts';
import { wellFaults } from './fault-well.ts';
import { healthyFarms } from './healthy-farms.ts';
import { healthyHouses } from './healthy-houses.ts';
import { healthyNodes } from './healthy-nodes.ts';
import { healthyOrdinary } from './healthy-ordinary.ts';
import { healthySites } from './healthy-sites.ts';

/** Households of each kind in the full corpus: five make a hundred well-years of sound wells. */
const FULL_VARIANTS = 5;

export function corpus(full: boolean): CorpusCase[] {
  const variants = Array.from({ length: full ? FULL_VARIANTS : 1 }, (_, variant) => variant);
  return [
    ...variants.flatMap((variant) => [
      ...healthyHouses(variant),
      ...healthyFarms(variant),
      ...healthyNodes(variant),
      ...healthySites(variant),
      ...healthyOrdinary(variant),
    ]),
    ...tankFaults(),
    ...leakFaults(),
    ...pumpFaults(),
    ...motorFaults(),
    ...supplyFaults(),
    ...switchFaults(),
    ...pressureFaults(),
    ...wellFaults(),
    ...storeFaults(),
    ...sensorFaults(),
    ...nodeFaults(),
    ...habitFaults(),
    ...badCards(),
  ];
}

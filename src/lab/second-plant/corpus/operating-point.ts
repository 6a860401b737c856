/**
 * Where a drawn pump works, so that a fault can be sized by what it does and not by its own unit.
 */
import { frictionSlope, headOfKpa, kpaOfHead } from '../pipe.ts';
import type { Condition, SecondPlan } from '../plan.ts';
import { HEALTHY } from '../plan.ts';
import { pumpFlows } from '../pump-curve.ts';

/** Between the switch points, or what the store's inlet asks for. */
function middleKpa({ control }: SecondPlan): number {
  switch (control.is) {
    case 'pressure-switch':
    case 'constant-pressure-valve':
      return (control.cutInKpa + control.cutOutKpa) / 2;
    case 'variable-speed':
      return control.setKpa;
    case 'float':
    case 'timer':
      return kpaOfHead(control.store.inletM);
    default:
      return control satisfies never;
  }
}

export function cutInKpa(plan: SecondPlan): number {
  const { control } = plan;
  return control.is === 'pressure-switch' ? control.cutInKpa : middleKpa(plan);
}

export function cutOutKpa(plan: SecondPlan): number {
  const { control } = plan;
  return control.is === 'pressure-switch' ? control.cutOutKpa : middleKpa(plan);
}

/** Delivered in the middle of a run, L/s. */
export function deliveredLPerS(plan: SecondPlan, condition: Partial<Condition> = {}): number {
  const { ringLeak, dropPipeHole, valveLoss } = { ...HEALTHY, ...condition };
  const [pump] = plan.pumps.pumps;
  const { aquifer } = plan;
  const levelM = aquifer.staticLevelM + pump!.bestLPerS / aquifer.screenLPerSPerM;
  return pumpFlows(pump!, {
    speed: 1,
    staticM: levelM + headOfKpa(middleKpa(plan)),
    lossM: frictionSlope(pump!.dropPipe, pump!.bestLPerS) + valveLoss,
    ringLeak,
    hole: dropPipeHole,
  }).delivered;
}

/** How much of a fault takes away this part of what is delivered; by halving. */
export function amountFor(
  plan: SecondPlan,
  lostRatio: number,
  condition: (amount: number) => Partial<Condition>,
): number {
  const wanted = deliveredLPerS(plan) * (1 - lostRatio);
  let low = 0;
  let high = 1;
  while (deliveredLPerS(plan, condition(high)) > wanted && high < 1e6) high *= 2;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (deliveredLPerS(plan, condition(middle)) > wanted) low = middle;
    else high = middle;
  }
  return high;
}

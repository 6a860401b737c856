/**
 * Card and sensor that cannot both be right, as the checks of the first hour find them (./first-check.ts): told once, of the card and not of
 * the well. What changes after a card was found to agree is news of the well; a new card is asked anew.
 */
import { firstCheck, type Check } from './first-check.ts';
import { isFresh } from './facts.ts';
import type { Finding, Memo, Scene } from './scene.ts';

export function cardFault(scene: Scene, memo: Memo): Finding | undefined {
  const asked = cardKey(scene);
  if (memo['card'] !== asked) {
    memo['card'] = asked;
    delete memo['cardAgreed'];
  }
  if (memo['cardAgreed'] === true) return undefined;
  const first = scene.pump.cycles[0];
  if (!first || !isFresh(scene, first.startedMs)) return undefined;
  const found = firstCheck(scene).flatMap(({ impossible }): NonNullable<Check['impossible']>[] =>
    impossible ? [impossible] : [],
  );
  const [worst, ...others] = found;
  if (!worst) {
    if (scene.pump.pinned) memo['cardAgreed'] = true;
    return undefined;
  }
  return {
    sinceMs: first.startedMs,
    ...worst,
    why: [worst, ...others].map(({ why }) => why).join(' '),
  };
}

/** What the checks ask of the card, in one line: another line is another card. */
function cardKey({ well, pump }: Scene): string {
  const { switch: points, tank } = well.card;
  const { maxAmps, volts, ratedLPerS, control, clamp } = pump.card;
  return [
    points.cutInKpa,
    points.cutOutKpa,
    tank?.volumeL,
    tank?.prechargeKpa,
    maxAmps,
    volts,
    ratedLPerS,
    control,
    clamp,
  ]
    .map((value) => value ?? '-')
    .join(' ');
}

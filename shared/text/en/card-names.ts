/**
 * What a text takes from the well's card: whom to call and where to switch off. Whoever stands at a
 * pump at night must not have to look for a number. A placeholder that the card cannot fill reads
 * as plain words.
 */
export interface CardNames {
  /** Firm, telephone, license, as on the card. */
  firm?: string;
  /** The breaker's number in the panel. */
  breaker?: string;
  /** Where the panel is. */
  panel?: string;
  /** Where the water is shut off. */
  shutOff?: string;
}

/** `{firm}` and `{breaker}`: "Switch the pump off at {breaker} and call {firm}." */
export function fillCardNames(text: string, { firm, breaker }: CardNames = {}): string {
  return text
    .replaceAll('{firm}', () => firm ?? 'your pump contractor')
    .replaceAll('{breaker}', () => (breaker === undefined ? 'its breaker' : `breaker ${breaker}`));
}

/** The lines that open a notice: whom to call, where to switch off, where to shut the water off. */
export function cardNameLines({ firm, breaker, panel, shutOff }: CardNames): string[] {
  const at = [breaker && `breaker ${breaker}`, panel && `panel: ${panel}`].filter(Boolean).join(', ');
  return [
    ...(firm ? [`Call: ${firm}.`] : []),
    ...(at || shutOff
      ? [[at && `Switch off: ${at}.`, shutOff && `Shut-off valve: ${shutOff}.`].filter(Boolean).join(' ')]
      : []),
  ];
}

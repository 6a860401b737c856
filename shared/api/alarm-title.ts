/** The short title of an alarm: its name in the contract, written as words. */

/** "Short cycling" for `short-cycling`. */
export function alarmTitle(kind: string): string {
  const text = kind.replaceAll('-', ' ');
  return text.charAt(0).toUpperCase() + text.slice(1);
}

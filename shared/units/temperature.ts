/** Temperature: degrees Fahrenheit and Celsius, exact by definition. */
export function cFromF(f: number): number {
  return ((f - 32) * 5) / 9;
}

export function fFromC(c: number): number {
  return (c * 9) / 5 + 32;
}

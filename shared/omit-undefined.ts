/** Absent keys: a value that nobody knows is left out, not kept as `undefined`. */

/** What can be undefined may be absent. */
type Known<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/** Without the keys of which nothing is said. */
export function omitUndefined<T extends object>(values: T): Known<T> {
  // The compiler does not follow a filter by value into the type of its keys.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Known<T>;
}

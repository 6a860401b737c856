/** Names made for topics, as people write them: "north-paddock" is "North paddock". */
export function nameWords(name: string): string {
  const text = name.replaceAll('-', ' ');
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function countWords(n: number, one: string, many: string): string {
  return `${n === 0 ? 'no' : n} ${n === 1 ? one : many}`;
}

/** Small pieces of English that the planners' sentences share. */

const WORDS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

export const counted = (count: number): string => WORDS[count] ?? String(count);

export const plural = (count: number, one: string, many = `${one}s`): string =>
  `${counted(count)} ${count === 1 ? one : many}`;

/** "a, b and c". */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

export const round = (value: number, decimals = 0): number => {
  const scale = 10 ** decimals;
  return Math.round((value + Number.EPSILON) * scale) / scale;
};

export const watts = (value: number): string => `${Math.round(value).toLocaleString("en-US")} W`;
export const amps = (value: number): string => `${round(value, 1)} A`;

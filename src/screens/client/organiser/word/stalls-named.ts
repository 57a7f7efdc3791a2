/** The stalls that an organiser names, by their names or the short names in their addresses. */

export type NamedStall = { readonly stall: string; readonly name: string };

const plain = (text: string): string => text.trim().toLowerCase();

/** Reads names with commas between them; `unknown` are those that no stall of the fair has. */
export function stallsNamed(
  typed: string,
  stalls: readonly NamedStall[],
): { readonly wanted: readonly string[]; readonly unknown: readonly string[] } {
  const parts = typed.split(",").filter((part) => part.trim() !== "");
  const found = parts.map((part) => ({
    part: part.trim(),
    stalls: stalls.filter(({ stall, name }) => stall === plain(part) || plain(name) === plain(part)),
  }));
  return {
    wanted: [...new Set(found.flatMap((one) => one.stalls.map(({ stall }) => stall)))],
    unknown: found.flatMap((one) => (one.stalls.length === 0 ? [one.part] : [])),
  };
}

/** The names of some stalls, with commas between them. */
export const namesOf = (some: readonly string[], stalls: readonly NamedStall[]): string =>
  some.map((one) => stalls.find(({ stall }) => stall === one)?.name ?? one).join(", ");

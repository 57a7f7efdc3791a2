/** Short names for web addresses and stock, made from the names people type, so that nobody has to think of one. */

/** "Long-tail Ténder" as "long-tail-tender"; null if no character of it can be in an address. */
export function slugOf(name: string): string | null {
  const plain = name
    .normalize("NFKD")
    .replaceAll(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, "-")
    .slice(0, 28)
    .replaceAll(/^-+|-+$/g, "");
  return plain === "" ? null : plain;
}

/** The first of `wanted`, `wanted-2`, `wanted-3` … that is not taken. */
export function unique(wanted: string, taken: readonly string[]): string {
  if (!taken.includes(wanted)) return wanted;
  let n = 2;
  while (taken.includes(`${wanted}-${n}`)) n += 1;
  return `${wanted}-${n}`;
}

/** A size as it is written in a sku: "2XL" stays as it is, "one size" becomes "one-size", at most 8 letters. */
export function sizeIdOf(name: string): string | null {
  const plain = name
    .normalize("NFKD")
    .replaceAll(/\p{M}/gu, "")
    .trim()
    .replaceAll(/[^A-Za-z0-9]+/g, "-")
    .replaceAll(/^-+|-+$/g, "")
    .slice(0, 8)
    .replace(/-+$/, "");
  return plain === "" ? null : plain;
}

/** The next press letter that no press has. */
export function pressIdAfter(taken: readonly string[]): string {
  const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
  return [...letters].find((letter) => !taken.includes(letter)) ?? unique("A1", taken);
}

/** The parts typed between commas or on separate lines. */
export const listed = (text: string): readonly string[] =>
  text
    .split(/[,;\n\t]/)
    .map((part) => part.trim())
    .filter((part) => part !== "");

/** Slips of the thumb: a letter wrong, missing, too many, or two the wrong way round. */

/** How many slips are forgiven in a word: one, in a long word two, in the shortest none. */
export const slipsForgiven = (word: string): 0 | 1 | 2 => (word.length >= 8 ? 2 : word.length >= 3 ? 1 : 0);

/**
 * The Damerau-Levenshtein distance of two words (optimal string alignment: no letter is touched twice),
 * or `most + 1` as soon as it is sure to be more than `most`.
 */
export function slipsBetween(one: string, other: string, most: number): number {
  if (Math.abs(one.length - other.length) > most) return most + 1;
  let earlier: number[] = [];
  let before = Array.from({ length: other.length + 1 }, (_, index) => index);
  for (let i = 1; i <= one.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= other.length; j++) {
      const same = one[i - 1] === other[j - 1];
      let slips = Math.min(at(before, j) + 1, at(row, j - 1) + 1, at(before, j - 1) + (same ? 0 : 1));
      if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) {
        slips = Math.min(slips, at(earlier, j - 2) + 1);
      }
      row.push(slips);
      least = Math.min(least, slips);
    }
    if (least > most) return most + 1;
    earlier = before;
    before = row;
  }
  return Math.min(at(before, other.length), most + 1);
}

const at = (row: readonly number[], index: number): number => row[index] ?? Number.POSITIVE_INFINITY;

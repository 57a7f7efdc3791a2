/** Slips of the thumb: a letter wrong, missing, too many, or two the wrong way round. */

/** The slips forgiven in a word: one, in a long word two, in the shortest none. */
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

/** A word that others are compared with, and which letters it has, as bits. */
export type Target = { readonly word: string; readonly letters: number };

const lettersOf = (word: string): number => {
  let letters = 0;
  for (let index = 0; index < word.length; index++) letters |= 1 << (word.charCodeAt(index) & 31);
  return letters;
};

export const targetsOf = (words: Iterable<string>): readonly Target[] =>
  Array.from(words, (word) => ({ word, letters: lettersOf(word) }));

/** The words at most this many slips from what was typed. */
export function near(typed: string, targets: readonly Target[], most: number): readonly string[] {
  const letters = lettersOf(typed);
  return targets.flatMap(({ word, letters: others }) => {
    // A slip changes two letters at most, so words that share too few need no closer look.
    if (Math.abs(word.length - typed.length) > most || bits(letters ^ others) > 2 * most) return [];
    return slipsBetween(typed, word, most) <= most ? [word] : [];
  });
}

function bits(mask: number): number {
  let count = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}

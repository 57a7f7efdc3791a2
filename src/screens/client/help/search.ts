/** Search through help. Pure. */

export type Entry = { readonly question: string; readonly text: string };

const plain = (text: string): string => text.normalize("NFKD").replaceAll(/\p{M}/gu, "").toLowerCase();

/** The entries that have every sought word, or its beginning; those whose question has them come first. */
export function found<E extends Entry>(entries: readonly E[], sought: string): readonly E[] {
  const words = plain(sought).match(/[\p{L}\p{N}]+/gu) ?? [];
  if (words.length === 0) return [];
  const has = (text: string): boolean => {
    const tokens = plain(text).match(/[\p{L}\p{N}]+/gu) ?? [];
    return words.every((word) => tokens.some((token) => token.startsWith(word)));
  };
  const asked = entries.filter(({ question }) => has(question));
  return [...asked, ...entries.filter((one) => !asked.includes(one) && has(`${one.question} ${one.text}`))];
}

/** What came of a search, in words; empty if nothing was sought. */
export function foundWords(sought: string, count: number): string {
  if (sought.trim() === "") return "";
  if (count === 0) return `Nothing about “${sought.trim()}”. Try another word, or look through the subjects.`;
  return count === 1 ? "One answer." : `${count} answers.`;
}

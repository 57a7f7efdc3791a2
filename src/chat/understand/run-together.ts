/** Words typed without the spaces between them: "redkite", "longtailtee", "xlnavy", "tallaL". */
import { isName, type Lexicon, type Meaning } from "./lexicon.ts";
import type { RawToken } from "./tokens.ts";

// Nobody runs more together than a whole garment; longer tokens are not looked into.
const LONGEST = 40;
const MOST_PARTS = 5;

type Part = { readonly phrase: string; readonly meaning: Meaning };

const known = new WeakMap<Lexicon, ReadonlyMap<string, Part>>();

/** Every name, number and word for sizes, colours and children, by its letters without the spaces. */
function partsOf(lexicon: Lexicon): ReadonlyMap<string, Part> {
  const before = known.get(lexicon);
  if (before !== undefined) return before;
  const parts = new Map<string, Part>();
  for (const [phrase, meaning] of lexicon.meanings) {
    const letters = phrase.replaceAll(" ", "");
    const words = letters === phrase ? undefined : lexicon.meanings.get(letters);
    if (words === undefined && isPart(meaning)) parts.set(letters, { phrase, meaning });
  }
  known.set(lexicon, parts);
  return parts;
}

const isPart = (meaning: Meaning): boolean =>
  isName(meaning) || meaning.number !== undefined || introduces(meaning) || meaning.role === "colour-word";

/** Words after which a single letter is a size: "tallal", "kidsm". */
const introduces = ({ role }: Meaning): boolean => role === "size-word" || role === "child";

/**
 * The tokens, with each unknown word split into known words if there is exactly one way. Slips are not forgiven inside
 * the parts, and parts must not contradict each other.
 */
export function spacedOut(lexicon: Lexicon, tokens: readonly RawToken[]): readonly RawToken[] {
  return tokens.flatMap((token): readonly RawToken[] => {
    if (token.type !== "word" || token.text.length > LONGEST || lexicon.meanings.has(token.text))
      return [token];
    const ways = new Set<string>();
    const parts = partsOf(lexicon);
    if (token.text.length > 2) part(parts, token.text, [], ways);
    const [only, ...others] = ways;
    if (only === undefined || others.length > 0) return [token];
    return only.split(" ").map((text) => ({ type: "word", text }));
  });
}

/** Collects every way to split the rest of a token. */
function part(
  parts: ReadonlyMap<string, Part>,
  rest: string,
  taken: readonly Part[],
  ways: Set<string>,
): void {
  if (rest === "") ways.add(taken.map(({ phrase }) => phrase).join(" "));
  if (rest === "" || taken.length === MOST_PARTS) return;
  for (let length = 1; length <= rest.length; length++) {
    const next = parts.get(rest.slice(0, length));
    if (next !== undefined && follows(taken, next)) part(parts, rest.slice(length), [...taken, next], ways);
  }
}

/** Whether a part can follow those before it: a number only first, one letter only as an announced size. */
function follows(taken: readonly Part[], { phrase, meaning }: Part): boolean {
  const last = taken.at(-1);
  if (phrase.length === 1) return last !== undefined && introduces(last.meaning);
  if (last !== undefined && !isName(meaning) && meaning.number !== undefined) return false;
  return taken.every((before) => agree(before.meaning, meaning));
}

function agree(one: Meaning, other: Meaning): boolean {
  if (one.offers !== undefined && other.offers !== undefined)
    return [...one.offers].some((offer) => other.offers?.has(offer));
  return shares(one.colours, other.colours) && shares(one.sizes, other.sizes);
}

/** Whether two words for colours, or for sizes, can be of one garment. */
function shares<Id>(
  one: ReadonlyMap<string, ReadonlySet<Id>> | undefined,
  other: ReadonlyMap<string, ReadonlySet<Id>> | undefined,
): boolean {
  if (one === undefined || other === undefined) return true;
  return [...one].some(([blank, ids]) => [...ids].some((id) => other.get(blank)?.has(id)));
}

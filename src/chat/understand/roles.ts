/** The roles that the words and numbers about one garment can be tried in. */
import type { Menu } from "../../model/menu/catalogue.ts";
import { type Draft, EMPTY_DRAFT } from "../talk/talk.ts";
import type { Claims, LineReading } from "./garment.ts";
import { tried } from "./garment.ts";
import type { Piece, Token } from "./interpretations.ts";
import type { Lexicon, Meaning } from "./lexicon.ts";
import type { Speaking } from "./split-items.ts";

type Role =
  | { readonly type: "offer" | "colour" | "size"; readonly meaning: Meaning }
  | { readonly type: "row" | "quantity"; readonly n: number }
  | { readonly type: "child" };

// Texts with more doubtful words than this are asked about, not puzzled out.
const MOST_TRIES = 32;

const isOffer = (said: Token | undefined): boolean =>
  said?.type === "name" && said.meaning.offers !== undefined;
const isDescription = (said: Token | undefined): boolean =>
  said?.type === "filler" ||
  said?.type === "child" ||
  said?.type === "unknown" ||
  (said?.type === "name" && said.meaning.offers === undefined);

/** Whether a number comes before an offer's word, with at most a colour, a size or fillers between. */
function countsWhatFollows(piece: Piece, index: number): boolean {
  let next = index + 1;
  while (isDescription(piece[next])) next += 1;
  return isOffer(piece[next]);
}

function comesAfterOffer(piece: Piece, index: number): boolean {
  let before = index - 1;
  while (piece[before]?.type === "filler") before -= 1;
  return isOffer(piece[before]);
}

/** The possible roles of one word or number, given its neighbours. */
function rolesOf(lexicon: Lexicon, piece: Piece, index: number, child: boolean): readonly Role[] {
  const said = piece[index];
  switch (said?.type) {
    case "name": {
      const { offers, colours, sizes, childSizes } = said.meaning;
      const roles: Role[] = [];
      if (offers !== undefined) roles.push({ type: "offer", meaning: said.meaning });
      if (colours !== undefined) roles.push({ type: "colour", meaning: said.meaning });
      const size = child && childSizes !== undefined ? childSizes : sizes;
      if (size !== undefined) roles.push({ type: "size", meaning: { sizes: size } });
      // A size that only children's garments have, without a word for children, is no size here.
      else if (childSizes !== undefined) roles.push({ type: "size", meaning: { sizes: new Map() } });
      return roles;
    }
    case "times": {
      const count: Role = { type: "quantity", n: said.n };
      const size = said.before ? lexicon.meanings.get(`${said.n}x`) : undefined;
      const sized = piece.some((other) => other.type === "name" && other.meaning.sizes !== undefined);
      return size?.sizes === undefined || sized ? [count] : [count, { type: "size", meaning: size }];
    }
    case "number": {
      const count: Role = { type: "quantity", n: said.n };
      const row: Role = { type: "row", n: said.n };
      if (countsWhatFollows(piece, index)) return [count];
      return comesAfterOffer(piece, index) || said.spelt ? [count, row] : [row];
    }
    case "child":
      return [{ type: "child" }];
    default:
      return [];
  }
}

function claimsOf(roles: readonly Role[]): Claims | null {
  const quantities = roles.flatMap((role) => (role.type === "quantity" ? [role.n] : []));
  if (quantities.length > 1) return null;
  const sizes = roles.flatMap((role) => (role.type === "size" ? [role.meaning.sizes ?? new Map()] : []));
  return {
    offers: roles.flatMap((role) =>
      role.type === "offer" && role.meaning.offers ? [role.meaning.offers] : [],
    ),
    colours: roles.flatMap((role) =>
      role.type === "colour" && role.meaning.colours ? [role.meaning.colours] : [],
    ),
    sizes,
    child: sizes.length === 0 && roles.some(({ type }) => type === "child"),
    row: roles.flatMap((role) => (role.type === "row" ? [role.n] : [])),
    quantity: quantities[0] ?? null,
  };
}

/** Every way to give each word one of its roles, up to a limit. */
function combinations(choices: readonly (readonly Role[])[]): readonly (readonly Role[])[] {
  let all: readonly (readonly Role[])[] = [[]];
  for (const roles of choices) {
    if (roles.length === 0) continue;
    all = all.flatMap((begun) => roles.map((role) => [...begun, role]));
    if (all.length > MOST_TRIES) return all.slice(0, MOST_TRIES);
  }
  return all;
}

const whole = ({ missing, ambiguous, impossible }: LineReading): boolean =>
  missing.length === 0 && ambiguous === null && impossible === null;

/**
 * What a piece says about a garment, on top of the garment spoken of before (certain or only likely); null if it makes
 * no sense.
 */
export function garmentOf(
  menu: Menu,
  lexicon: Lexicon,
  piece: Piece,
  base: Draft | null,
  goesOn: Speaking["goesOn"],
): LineReading | null {
  const child = piece.some(({ type }) => type === "child");
  const spellings = spellingsOf(piece).map((spelling) =>
    spelling.map((_, index) => rolesOf(lexicon, spelling, index, child)),
  );
  const bases =
    base === null
      ? [EMPTY_DRAFT]
      : goesOn !== "surely" && standsWithout(piece, goesOn)
        ? [base, EMPTY_DRAFT]
        : [base];
  const found = new Map<string, LineReading>();
  const doubtfulNumber = spellings
    .flat()
    .some((roles) => roles.length > 1 && roles.some(({ type }) => type === "quantity"));
  for (const from of bases) {
    for (const roles of spellings.flatMap(combinations)) {
      const claims = claimsOf(roles);
      const reading = claims === null ? null : tried(menu, claims, from);
      if (reading !== null && !found.has(keyOf(reading))) found.set(keyOf(reading), reading);
    }
  }
  return settled([...found.values()], spellings.length > 1 ? "size" : doubtfulNumber ? "number" : null);
}

/** A piece, before it the same with a number and a size that could be one size together: "2 xl" as 2XL. */
function spellingsOf(piece: Piece): readonly Piece[] {
  const at = piece.findIndex((said) => said.type === "number" && said.sized !== undefined);
  const said = piece[at];
  if (said?.type !== "number" || said.sized === undefined) return [piece];
  const size: Token = { type: "name", meaning: said.sized, doubtful: false };
  return [[...piece.slice(0, at), size, ...piece.slice(at + 2)], piece];
}

/** Whether a piece could be a whole row of its own, apart from the question. */
function standsWithout(piece: Piece, goesOn: Speaking["goesOn"]): boolean {
  const numbers = piece.filter(({ type }) => type === "number").length;
  const names = piece.filter(({ type }) => type === "name").length;
  return numbers > 0 && numbers + names >= (goesOn === "no" ? 3 : 2);
}

/** The identity of a reading: a number nobody said counts as one. */
const keyOf = ({ understood, ambiguous, impossible }: LineReading): string =>
  JSON.stringify([{ ...understood, quantity: understood.quantity ?? 1 }, ambiguous, impossible]);

/** One reading out of several: the only possible one, the only whole one, or a question. */
function settled(readings: readonly LineReading[], doubtful: "number" | "size" | null): LineReading | null {
  const possible = readings.filter(({ impossible }) => impossible === null);
  const left = possible.length > 0 ? possible : readings;
  const [first] = left;
  if (first === undefined) return null;
  if (left.length === 1) return first;
  const wholes = left.filter(whole);
  if (wholes.length === 1 && doubtful === null) return wholes[0] ?? first;
  if (wholes.length === 0 && (doubtful === "number" || possible.length === 0)) return first;
  const drafts = (wholes.length > 1 && doubtful !== "size" ? wholes : left)
    .map(({ understood }) => understood)
    .slice(0, 4);
  return {
    understood: shared(drafts),
    missing: [],
    ambiguous: { about: "reading", drafts },
    impossible: null,
    stated: Math.max(...left.map(({ stated }) => stated)),
  };
}

/** The parts that all drafts agree on. */
function shared(drafts: readonly Draft[]): Draft {
  const [first = EMPTY_DRAFT, ...others] = drafts;
  const agree = <Key extends keyof Draft>(key: Key): Draft[Key] | null =>
    others.every((other) => other[key] === first[key]) ? first[key] : null;
  return { offer: agree("offer"), colour: agree("colour"), size: agree("size"), quantity: agree("quantity") };
}

/** Every word a customer may use of one menu, with all that it may mean. */

import type { BlankId, ColourId, OfferId, SizeId } from "../../model/basics/ids.ts";
import type { Menu, Size } from "../../model/menu/catalogue.ts";
import type { GarmentWish } from "../../model/menu/wishes.ts";
import { rangesOf } from "../talk/range.ts";
import { LANGUAGES, WORDINGS } from "../wording/languages.ts";
import type { CommandWord } from "../wording/shape.ts";
import { type Target, targetsOf } from "./slips.ts";
import { plain, wordsOf } from "./tokens.ts";

/** A label's letters, or the child's size of the same letters. */
type Scale = string;

/** All that a word or phrase may mean. */
export type Meaning = {
  offers?: Set<OfferId>;
  /** By blank, since two blanks may call different colours the same. */
  colours?: Map<BlankId, Set<ColourId>>;
  sizes?: Map<BlankId, Set<SizeId>>;
  /** The sizes it means after a word for children. */
  childSizes?: Map<BlankId, Set<SizeId>>;
  number?: number;
  command?: CommandWord;
  role?:
    | "filler"
    | "joiner"
    | "child"
    | "adult"
    | "size-word"
    | "colour-word"
    | "amount"
    | "negation"
    | "removal";
};

export type Lexicon = {
  readonly meanings: ReadonlyMap<string, Meaning>;
  /** The most words of a phrase that begins with a word. */
  readonly reach: ReadonlyMap<string, number>;
  /** The words a slip of the thumb may have spoilt: those that name something. */
  readonly names: readonly Target[];
  /** The first words of names of several words, "extra large". */
  readonly starts: readonly Target[];
  /** The phrases that mean a wish which the stall's counter takes. */
  readonly wishes: ReadonlyMap<string, GarmentWish>;
};

// "mid" and "bag" are one slip from too many other words; the menu's own words may be shorter.
const SHORTEST_GUESSED = 5;
const SHORTEST_START = 4;

/** Whether a word names something on the menu. */
export const isName = ({ offers, colours, sizes, childSizes }: Meaning): boolean =>
  (offers ?? colours ?? sizes ?? childSizes) !== undefined;

const known = new WeakMap<Menu, Lexicon>();

/** The lexicon of a menu, worked out once. */
export function lexiconOf(menu: Menu): Lexicon {
  const before = known.get(menu);
  if (before !== undefined) return before;
  const lexicon = build(menu);
  known.set(menu, lexicon);
  return lexicon;
}

type Named = {
  readonly name: string;
  readonly translations?: Readonly<Record<string, string | undefined>> | undefined;
};

/** The words of a name in each language it is given in. */
function namesOf(named: Named): readonly (readonly string[])[] {
  const translated = Object.values(named.translations ?? {}).filter((name) => name !== undefined);
  return [named.name, ...translated].map(wordsOf);
}

class Builder {
  readonly meanings = new Map<string, Meaning>();
  /** The words that the menu itself uses. */
  readonly own = new Set<string>();
  readonly #fillers = new Set(LANGUAGES.flatMap((language) => WORDINGS[language].words.fillers));

  at(phrase: string): Meaning {
    const meaning = this.meanings.get(phrase) ?? {};
    this.meanings.set(phrase, meaning);
    return meaning;
  }

  /** Every run of words of a name: one word may name many things, a run of them fewer. */
  runs(words: readonly string[], note: (meaning: Meaning) => void): void {
    const telling = words.filter(
      (word) => !this.#fillers.has(word) && (words.length === 1 || !/^\d+$/.test(word)),
    );
    for (const word of telling.length > 0 ? telling : words) {
      this.own.add(word);
      for (const like of likes(word)) note(this.at(like));
    }
    for (let from = 0; from < words.length; from++) {
      for (let to = from + 2; to <= Math.min(words.length, from + 4); to++) {
        for (const run of variants(words.slice(from, to))) note(this.at(run));
      }
    }
  }
}

/** The words of every language with the same meaning as a word. */
const ALIKE: ReadonlyMap<string, readonly string[]> = (() => {
  const alike = new Map<string, string[]>();
  for (const words of LANGUAGES.flatMap((language) => WORDINGS[language].words.alike)) {
    for (const word of words) alike.set(word, [...(alike.get(word) ?? []), ...words]);
  }
  return alike;
})();

/** The words with the same meaning as a word, itself first. */
function likes(word: string): readonly string[] {
  if (word.length === 1) return [word];
  return [...new Set([word, `${word}s`, word.replace(/s$/, ""), ...(ALIKE.get(word) ?? [])])];
}

/** A phrase, and the same with its last word in the plural. */
const variants = (words: readonly string[]): readonly string[] => [words.join(" "), `${words.join(" ")}s`];

function noteIn<Key, Value>(map: Map<Key, Set<Value>>, key: Key, value: Value): void {
  const values = map.get(key) ?? new Set<Value>();
  values.add(value);
  map.set(key, values);
}

function build(menu: Menu): Lexicon {
  const builder = new Builder();
  for (const { offer, blank } of rangesOf(menu).values()) {
    const note = (meaning: Meaning): void => {
      meaning.offers ??= new Set();
      meaning.offers.add(offer.id);
    };
    for (const words of namesOf(offer)) builder.runs(words, note);
    // "tee" or "shirt" is not always in an offer's own name. A design's is what the stall calls it for itself.
    for (const words of namesOf(blank)) builder.runs(words, note);
  }
  for (const blank of menu.blanks) {
    for (const colour of blank.colours) {
      for (const words of [...namesOf(colour), wordsOf(colour.id)]) {
        builder.runs(words, (meaning) => {
          meaning.colours ??= new Map();
          noteIn(meaning.colours, blank.id, colour.id);
        });
      }
    }
    for (const size of blank.sizes) noteSize(builder, blank.id, size);
  }
  // A size that nothing here comes in is still understood as a size.
  for (const phrase of SCALES.keys()) builder.at(phrase).sizes ??= new Map();
  for (const language of LANGUAGES) noteWords(builder, language);
  return { ...finish(builder), wishes: wishPhrases(menu) };
}

/** The stall's own words for what its counter takes beyond the menu, and the names of that. */
function wishPhrases({ wishes = [] }: Menu): ReadonlyMap<string, GarmentWish> {
  const phrases = new Map<string, GarmentWish>();
  for (const wish of wishes)
    for (const words of [...namesOf(wish), ...(wish.asked ?? []).map(wordsOf)])
      if (wish.offered && !phrases.has(words.join(" "))) phrases.set(words.join(" "), wish);
  return phrases;
}

/** The label letters of each word for a size, in every language. */
const SCALES: ReadonlyMap<string, readonly Scale[]> = (() => {
  const scales = new Map<string, Scale[]>();
  for (const language of LANGUAGES) {
    const { sizes, oneSize } = WORDINGS[language].words;
    for (const [scale, phrases] of [...Object.entries(sizes), ["one", oneSize] as const]) {
      for (const phrase of phrases) scales.set(phrase, [...(scales.get(phrase) ?? []), scale]);
    }
  }
  return scales;
})();

const NUMBER_WORDS = new Set(LANGUAGES.flatMap((language) => Object.keys(WORDINGS[language].words.numbers)));
const CHILD_WORDS = new Set(LANGUAGES.flatMap((language) => WORDINGS[language].words.child));

/** The label letters of a size, read off its id and name; a child's "YM" or "Youth M" reads M. */
function scaleOf(size: Size): Scale | undefined {
  for (const text of [...namesOf(size).map((words) => words.join(" ")), plain(size.id)]) {
    const bare = size.child
      ? text
          .split(" ")
          .filter((word) => !CHILD_WORDS.has(word))
          .join(" ")
          .replace(/^[yk](?=x*[sml]$)/, "")
      : text;
    const scale = SCALES.get(bare)?.[0];
    if (scale !== undefined) return scale;
  }
  return undefined;
}

function noteSize(builder: Builder, blank: BlankId, size: Size): void {
  const own = (meaning: Meaning): void => {
    meaning.sizes ??= new Map();
    noteIn(meaning.sizes, blank, size.id);
  };
  const scale = scaleOf(size);
  for (const words of [...namesOf(size), [plain(size.id)]]) {
    const phrase = words.join(" ");
    // A bare M is never a child's, whatever the stall called that size; a bare number is a place in a list.
    if (/^\d*$/.test(phrase) || NUMBER_WORDS.has(phrase) || (size.child && SCALES.has(phrase))) continue;
    own(builder.at(phrase));
  }
  if (scale === undefined) return;
  for (const [phrase, scales] of SCALES) {
    if (!scales.includes(scale)) continue;
    const meaning = builder.at(phrase);
    if (!size.child) own(meaning);
    else {
      meaning.childSizes ??= new Map();
      noteIn(meaning.childSizes, blank, size.id);
    }
  }
}

function noteWords(builder: Builder, language: (typeof LANGUAGES)[number]): void {
  const { words } = WORDINGS[language];
  const roles = [
    [words.fillers, "filler"],
    [words.joiners, "joiner"],
    [words.child, "child"],
    [words.adult, "adult"],
    [words.sizeWords, "size-word"],
    [words.colourWords, "colour-word"],
    [words.amount, "amount"],
    [words.negations, "negation"],
    [words.removals, "removal"],
  ] as const;
  for (const [list, role] of roles) for (const word of list) builder.at(word).role = role;
  for (const [word, number] of Object.entries(words.numbers)) builder.at(word).number ??= number;
  for (const name of words.names) builder.at(name).command ??= "hello";
  for (const [command, list] of Object.entries(words.commands)) {
    for (const word of list) builder.at(word).command ??= command as CommandWord; // the keys of commands
  }
}

function finish({ meanings, own }: Builder): Omit<Lexicon, "wishes"> {
  const reach = new Map<string, number>();
  const names: string[] = [];
  const starts = new Set<string>();
  for (const [phrase, meaning] of meanings) {
    const words = phrase.split(" ");
    const first = words[0] ?? phrase;
    if (words.length > 1) reach.set(first, Math.max(reach.get(first) ?? 1, words.length));
    if (words.length > 1 && first.length >= SHORTEST_START && isName(meaning)) starts.add(first);
    if (words.length === 1 && isName(meaning) && phrase.length >= (own.has(phrase) ? 3 : SHORTEST_GUESSED))
      names.push(phrase);
  }
  return { meanings, reach, names: targetsOf(names), starts: targetsOf(starts) };
}

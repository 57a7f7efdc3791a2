/** Makes a reply fit: takes shorter wordings until it needs one message, two at most. */
import type { Menu } from "../../model/menu/catalogue.ts";
import { inTextAlphabet } from "./alphabet.ts";
import { segments } from "./segments.ts";

/**
 * How short a sentence must be, in the order in which phrases are left out: 1 greetings and courtesies; 2 hints; 3
 * prices in lists, which then say only how choices differ; 4 a full repeat of what the customer just said; 5 everything
 * but the question or the news. No phrase is ever cut: a name is said whole or not at all.
 */
export type Brevity = 0 | 1 | 2 | 3 | 4 | 5;
const BREVITIES: readonly Brevity[] = [0, 1, 2, 3, 4, 5];

/** A sentence that can be said at more than one length. */
export type Say = (brevity: Brevity) => string;

/** The shortest wording of a reply to a larger menu: the list of choices is worth a second message. */
const LONG_ENOUGH: Brevity = 3;
const SMALL = { offers: 6, letters: 14 } as const;

/** Whether every reply about a menu goes into one message: few offers, with short names. */
export function isSmall({ offers }: Pick<Menu, "offers">): boolean {
  return (
    offers.length <= SMALL.offers &&
    offers.every(({ name, translations }) =>
      [name, ...Object.values(translations ?? {})].every((text) => [...text].length <= SMALL.letters),
    )
  );
}

/**
 * The reply as it is texted: in the default alphabet, in the fullest wording that fits one message, else two. A small
 * menu always fits one; other menus never leave out the choices for it.
 */
export function fitted(say: Say, small: boolean): string {
  let two: string | undefined;
  for (const brevity of BREVITIES) {
    const text = inTextAlphabet(say(brevity));
    const { parts } = segments(text);
    if (parts === 1 && (small || brevity <= LONG_ENOUGH || two === undefined)) return text;
    if (parts === 2) two ??= text;
  }
  return two ?? inTextAlphabet(say(5));
}

/** Choices that one text lists at most; those above go to a further page. */
const PAGE = 9;
/** Septets of two messages that a list may take, beside the question and the stall's name. */
const ROOM_FOR_LIST = 240;
/** Septets beside a choice's name: its number, that it is sold out, the end of its line. */
const BESIDE_NAME = 11;

/** The choices that one text lists: nine, or fewer if their names are too long for two messages. */
export function pageSize(names: readonly string[]): number {
  const longest = names
    .map((name) => segments(inTextAlphabet(name)).units)
    .sort((one, other) => other - one)
    .slice(0, PAGE);
  let room = ROOM_FOR_LIST;
  const fitting = longest.findIndex((units) => {
    room -= units + BESIDE_NAME;
    return room < 0;
  });
  return fitting < 0 ? PAGE : Math.max(1, fitting);
}

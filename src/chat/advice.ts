/** Advice to the crew when it saves a menu: how its names will work in texts. */

import { type Fault, pointer } from "../model/basics/faults.ts";
import { ok, refused } from "../model/basics/result.ts";
import type { Language } from "../model/basics/words.ts";
import type { AnswerSubject } from "../model/menu/answers.ts";
import type { Menu } from "../model/menu/catalogue.ts";
import { priceOf } from "../model/menu/prices.ts";
import { suggested } from "./answers/answer.ts";
import { inTextAlphabet, outsideTextAlphabet } from "./fitting/alphabet.ts";
import { fitted, isSmall, pageSize } from "./fitting/fit.ts";
import { segments } from "./fitting/segments.ts";
import { ask } from "./steps/question.ts";
import type { OrderingPort } from "./talk/ordering-port.ts";
import { nameIn, priceIn, rangesOf } from "./talk/range.ts";
import { EMPTY_DRAFT, newTalk, type Step } from "./talk/talk.ts";
import { LANGUAGES } from "./wording/languages.ts";

/**
 * Advice that does not stop a menu from being used: replies that need a second message, with the count; letters that
 * texts lack; lists that need another page. Each with the JSON Pointer of its cause.
 */
export function menuAdvice(menu: Menu): readonly Fault[] {
  return [...longReplies(menu), ...longLists(menu), ...foreignLetters(menu)];
}

/** The answer to a subject on which the stall wrote nothing, if menu and rules say it all. */
export const unwrittenAnswer = (
  menu: Menu,
  subject: Exclude<AnswerSubject, "hours" | "place">,
  language: Language,
): string => suggested(standIn(menu), newTalk(language), subject)(0);

/** An ordering port with all of the menu left. */
function standIn(menu: Menu): OrderingPort {
  return {
    stallName: "",
    fairName: "",
    timeZone: "UTC",
    menu,
    now: 0,
    opening: { open: true, closes: 0 },
    paused: false,
    takesOrders: true,
    free: () => menu.rules.garmentsPerLine,
    waitMinutes: () => 120,
    bill: (lines) => ({
      total: lines.reduce(
        (sum, { quantity, ...garment }) => sum + quantity * (priceIn(menu, garment) ?? 0),
        0,
      ),
      tax: 0,
    }),
    holding: false,
    orders: () => [],
    lastEnded: () => null,
    attempt: () => ok(null),
    pickupWords: new Set(),
    confirmNumber: () => refused({ code: "does-not-fit" }),
  };
}

/** The most septets and parts that a question takes in any language while nothing is sold out. */
function longest(menu: Menu, step: Step, basket: Parameters<typeof ask>[1]["basket"] = []) {
  const small = isSmall(menu);
  const port = standIn(menu);
  const texts = LANGUAGES.map((language: Language) =>
    fitted(ask(port, { ...newTalk(language), step, basket }).say, small),
  );
  return texts.map(segments).reduce((most, other) => (other.units > most.units ? other : most));
}

/** Replies that a single message does not hold. */
function longReplies(menu: Menu): readonly Fault[] {
  const advice: Fault[] = [];
  const check = (
    at: readonly PropertyKey[],
    what: string,
    step: Step,
    basket: Parameters<typeof ask>[1]["basket"] = [],
  ) => {
    const { units, parts } = longest(menu, step, basket);
    if (parts === 1 || advice.some(({ pointer: known }) => known === pointer(at))) return;
    advice.push({
      pointer: pointer(at),
      detail: `${what} takes ${parts} messages in texts (${units} characters where one holds 160); shorter names make it one`,
    });
  };
  for (let page = 0; page * pageOf(menu.offers) < menu.offers.length; page++) {
    check(["offers"], "the list of offers", { at: "choosing", draft: EMPTY_DRAFT, page });
  }
  for (const { offer, number, blank, colours, sizes } of rangesOf(menu).values()) {
    const at = ["blanks", menu.blanks.indexOf(blank)];
    const draft = { ...EMPTY_DRAFT, offer: offer.id };
    const [colour] = [...colours].sort((one, other) => other.name.length - one.name.length);
    const [size] = sizes;
    if (colour === undefined || size === undefined) continue;
    check([...at, "colours"], "the list of colours", { at: "choosing", draft, page: 0 });
    check([...at, "sizes"], "the list of sizes", {
      at: "choosing",
      draft: { ...draft, colour: colour.id },
      page: 0,
    });
    const each = priceOf(offer, size);
    const line = { offer: offer.id, colour: colour.id, size: size.id, quantity: 1, each };
    check(["offers", number - 1, "name"], "asking to confirm it", { at: "confirm", shown: each }, [line]);
  }
  return advice;
}

const pageOf = (choices: readonly Named[]): number =>
  Math.min(...LANGUAGES.map((language) => pageSize(choices.map((choice) => nameIn(language, choice)))));

/** Lists longer than a page. */
function longLists({ offers, blanks }: Menu): readonly Fault[] {
  const lists = [
    { at: ["offers"], what: "offers", choices: offers as readonly Named[] },
    ...blanks.flatMap(({ colours, sizes }, index) => [
      { at: ["blanks", index, "colours"], what: "colours", choices: colours as readonly Named[] },
      { at: ["blanks", index, "sizes"], what: "sizes", choices: sizes as readonly Named[] },
    ]),
  ];
  return lists
    .map((list) => ({ ...list, count: list.choices.length, most: pageOf(list.choices) }))
    .filter(({ count, most }) => count > most)
    .map(({ at, what, count, most }) => ({
      pointer: pointer(at),
      detail: `${count} ${what}: a text lists ${most} at a time and the others only after MORE; fewer are chosen sooner`,
    }));
}

type Named = {
  readonly name: string;
  readonly translations?: Readonly<Record<string, string | undefined>> | undefined;
};

/** Names with letters that texts do not have. */
function foreignLetters({ offers, blanks, rules, answers = {} }: Menu): readonly Fault[] {
  const named = (at: readonly PropertyKey[], { name, translations }: Named): Fault[] => [
    ...letters([...at, "name"], name),
    ...Object.entries(translations ?? {}).flatMap(([language, text]) =>
      letters([...at, "translations", language], text ?? ""),
    ),
  ];
  return [
    ...offers.flatMap((offer, index) => named(["offers", index], offer)),
    ...blanks.flatMap(({ colours, sizes }, blank) => [
      ...colours.flatMap((colour, index) => named(["blanks", blank, "colours", index], colour)),
      ...sizes.flatMap((size, index) => named(["blanks", blank, "sizes", index], size)),
    ]),
    ...letters(["rules", "contact"], rules.contact ?? ""),
    ...Object.entries(answers).flatMap(([subject, said]) =>
      Object.entries(said).flatMap(([language, text]) => letters(["answers", subject, language], text)),
    ),
  ];
}

function letters(at: readonly PropertyKey[], name: string): Fault[] {
  const foreign = outsideTextAlphabet(name);
  if (foreign.length === 0) return [];
  const written = inTextAlphabet(name);
  const lost = written.includes("?") && !name.includes("?") ? "; give it a name in plain letters" : "";
  return [
    {
      pointer: pointer(at),
      detail: `"${name}" has ${foreign.join(" ")}, which the alphabet of texts lacks: texts will say "${written}", the web keeps it${lost}`,
    },
  ];
}

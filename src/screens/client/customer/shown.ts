/** What the customer's page shows of its state: the lines, and the tiles that answer the open question. */
import type { Look } from "../../../model/garment/look.ts";
import type { ShownGarment } from "../../../model/orders/chat.ts";
import { type Asked, askedIn, type Choice, gistOf } from "./choices.ts";
import type { Line, State } from "./state.ts";

type Picture = {
  readonly look: Look;
  readonly colour: string | undefined;
  readonly size: string | undefined;
};

export type ShownLine = {
  readonly id: string;
  readonly from: "customer" | "stall";
  /** The text; of a question the part that says which step it was, once it is answered. */
  readonly gist: string;
  /** The text before and after it. */
  readonly rest: readonly [before: string, after: string];
  /** The choices that a question offers, as text. */
  readonly list: string | null;
  readonly isOpen: boolean;
  /** The page asks for the menu itself. */
  readonly isOpening: boolean;
  readonly isUnsent: boolean;
};

export type Tile = Choice & {
  readonly picture: Picture | null;
  /** Whether its colour distinguishes it from the others. */
  readonly isSwatch: boolean;
  readonly isMain: boolean;
};

export type Tiles = {
  /** The line that they answer. */
  readonly line: string;
  readonly shape: "confirming" | "pictured" | "wide" | "short" | "numbers" | "plain";
  readonly basket: readonly Picture[];
  readonly tiles: readonly Tile[];
};

/** A label longer than this needs the whole width. */
const LONG = 12;
/** As short as a size. */
const SHORT = 4;

/**
 * The line whose list is open: the last one with choices, unless a later answer has none. News that the stall sends
 * unasked closes no list. While a message is being sent no list is open: a second tap would answer the next list.
 */
function openIn({ lines, unsent }: State): { readonly id: string; readonly asked: Asked } | null {
  if (unsent.length > 0) return null;
  for (const { id, from, text, isAnswer } of lines.toReversed()) {
    if (from !== "stall") continue;
    const asked = askedIn(text);
    if (asked.choices.length > 0) return { id, asked };
    if (isAnswer) return null;
  }
  return null;
}

/** A number that answers a list is shown as the choice it means. */
const spoken = (text: string, listed: readonly Choice[]): string =>
  listed.find(({ say }) => say === text)?.label || text;

const listOf = (choices: readonly Choice[]): string =>
  choices
    .map(({ say, label }) => (label === say ? say : `${say} ${label}`.trim()))
    .join(choices.every(({ label }) => label === "") ? "  " : "\n");

/** The lines, then the unsent messages. `menu` is the title of the step for which the stall gives its own name. */
export function linesOf(state: State, menu: string): readonly ShownLine[] {
  const open = openIn(state);
  let listed: readonly Choice[] = [];
  const plain = { rest: ["", ""], list: null, isOpen: false, isOpening: false, isUnsent: false } as const;
  const shown = state.lines.map(({ id, from, text }: Line, at): ShownLine => {
    if (from === "customer") return { ...plain, id, from, gist: spoken(text, listed), isOpening: at === 0 };
    const { lead, choices } = askedIn(text);
    listed = choices;
    if (choices.length === 0) return { ...plain, id, from, gist: lead };
    const isOpen = open?.id === id;
    const [before, gist, after] = gistOf(lead);
    const isMenu = !isOpen && gist === `${state.stall}.`;
    return {
      ...plain,
      id,
      from,
      gist: isMenu ? menu : gist,
      rest: [before, after],
      list: listOf(choices),
      isOpen,
    };
  });
  // Only the first of them surely answers the list that is seen.
  const unsent = state.unsent.map(
    ({ id, text }, at): ShownLine => ({
      ...plain,
      id,
      from: "customer",
      gist: spoken(text, at === 0 ? listed : []),
      isOpening: shown.length === 0 && at === 0,
      isUnsent: true,
    }),
  );
  return [...shown, ...unsent];
}

/** The same for garments that differ in size only. */
const looksAlike = (garment: ShownGarment | undefined): string =>
  garment === undefined ? "" : `${garment.offer} ${garment.colour ?? ""}`;

function shapeOf(choices: readonly Choice[], isConfirming: boolean, isPictured: boolean): Tiles["shape"] {
  if (isConfirming) return "confirming";
  if (isPictured) return "pictured";
  if (choices.every(({ label }) => label === "")) return "numbers";
  if (choices.some(({ label }) => label.length > LONG)) return "wide";
  return choices.every(({ label }) => label.length <= SHORT) ? "short" : "plain";
}

/** The choices to tap now; null if no question is open. */
export function tilesOf(state: State): Tiles | null {
  const open = openIn(state);
  if (open === null) return null;
  const { choices } = open.asked;
  const garments = new Map(state.shows?.choices.map((garment) => [String(garment.number), garment]));
  const pictureOf = ({ offer, colour, size }: ShownGarment): Picture | null => {
    const look = state.looks?.get(offer);
    return look === undefined ? null : { look, colour, size };
  };
  // Sizes look alike: only things chosen by their looks are drawn.
  const isBySight = new Set(choices.map(({ say }) => looksAlike(garments.get(say)))).size > 1;
  const isOneOffer = new Set([...garments.values()].map(({ offer }) => offer)).size === 1;
  // What is in the basket is to be confirmed: the first choice says yes to it.
  const basket = state.shows?.basket ?? [];
  const tiles = choices.map((choice, at): Tile => {
    const garment = isBySight ? garments.get(choice.say) : undefined;
    const picture = garment === undefined ? null : pictureOf(garment);
    return {
      ...choice,
      picture,
      isSwatch: isOneOffer && picture?.colour !== undefined,
      isMain: at === 0 && basket.length > 0,
    };
  });
  return {
    line: open.id,
    shape: shapeOf(
      choices,
      basket.length > 0,
      tiles.some(({ picture }) => picture !== null),
    ),
    basket: basket.flatMap((garment) => pictureOf(garment) ?? []),
    tiles,
  };
}

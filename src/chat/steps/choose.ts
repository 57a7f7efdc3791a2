/** Completes a garment: the next step once one more part of it is known. */
import type { Refusal } from "../../model/orders/refusal.ts";
import { counted, likeliest, newAsks, unmet } from "../talk/asks.ts";
import { isLeft, roomFor } from "../talk/free-stock.ts";
import { nearest } from "../talk/nearest.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";
import { priceIn, rangesOf } from "../talk/range.ts";
import {
  type BasketLine,
  type Choice,
  type Draft,
  EMPTY_DRAFT,
  IDLE,
  NO_LIST,
  type Talk,
} from "../talk/talk.ts";
import { sentencesOf } from "../wording/languages.ts";
import { applyChanges, changesTo } from "./apply-change.ts";
import { ask } from "./question.ts";
import { refused, stopped } from "./refused.ts";
import { after, type TurnAnswer } from "./turn.ts";

/** Goes on with a garment: asks for a missing part, says that it is sold out, or puts it in the basket. */
export function proceed(port: OrderingPort, talk: Talk, draft: Draft): TurnAnswer {
  const { menu } = port;
  const sentences = sentencesOf(port, talk);
  if (draft.quantity !== null && draft.quantity > menu.rules.garmentsPerLine) {
    const say = sentences.tooMany({ most: menu.rules.garmentsPerLine, of: "line" });
    return after(say, proceed(port, talk, { ...draft, quantity: null }));
  }
  if (draft.quantity !== null && draft.quantity < 1) return proceed(port, talk, { ...draft, quantity: null });
  const line = lineOf(port, draft);
  if (line !== null && talk.changing !== undefined) return changed(port, talk, talk.changing, line);
  if (line !== null) {
    const left = roomFor(port, talk.basket, line);
    if (left >= line.quantity) return settle(port, talk, line);
    const halted = stopped(port, talk);
    return halted === null ? instead(port, talk, draft, left) : hold(port, added(talk, line));
  }
  const halted = stopped(port, talk);
  if (halted !== null) return { talk: { ...talk, step: IDLE, list: NO_LIST, pending: [] }, say: halted };
  if (draft.offer !== null && !isLeft(port, talk, draft)) return instead(port, talk, draft, 0);
  return ask(port, { ...talk, step: { at: "choosing", draft, page: 0 } });
}

/** Replaces a garment of a placed order, or adds one; if it is sold out, offers the nearest. */
function changed(
  port: OrderingPort,
  talk: Talk,
  changing: NonNullable<Talk["changing"]>,
  line: BasketLine,
): TurnAnswer {
  const applied = applyChanges(port, talk, changing.number, changesTo(changing, line));
  if (!applied.ok) return instead(port, counted(port, talk, [line]), line, 0);
  const answer = applied.value;
  const [next, ...pending] = answer.talk.pending;
  if (next === undefined) return answer;
  const more: Talk = {
    ...answer.talk,
    pending,
    changing: { number: changing.number, wanted: null, quantity: 0 },
  };
  return after(answer.say, proceed(port, more, next));
}

/** The whole garments among some drafts put in the basket, and the drafts that are left. */
export function settledOf(
  port: OrderingPort,
  talk: Talk,
  drafts: readonly Draft[],
): { readonly talk: Talk; readonly open: readonly Draft[] } {
  let settled = talk;
  const open: Draft[] = [];
  for (const draft of drafts) {
    const line = lineOf(port, draft);
    const fits =
      line !== null &&
      line.quantity >= 1 &&
      line.quantity <= port.menu.rules.garmentsPerLine &&
      roomFor(port, settled.basket, line) >= line.quantity;
    if (fits) settled = added(settled, line);
    else open.push(draft);
  }
  return { talk: settled, open };
}

/** Goes on with the garments of one text: the whole ones first, then what the others lack. */
export function proceedAll(port: OrderingPort, talk: Talk, drafts: readonly Draft[]): TurnAnswer {
  const { talk: settled, open } = settledOf(port, talk, drafts);
  const [next, ...pending] = open;
  return next === undefined ? hold(port, settled) : proceed(port, { ...settled, pending }, next);
}

/** A draft as a line of the basket; null while something is missing. */
function lineOf({ menu }: OrderingPort, draft: Draft): BasketLine | null {
  const { offer, colour, size, quantity } = draft;
  if (offer === null || colour === null || size === null || quantity === null) return null;
  const each = priceIn(menu, { offer, size });
  return each === undefined ? null : { offer, colour, size, quantity, each };
}

/** The basket with one more line; the same garment twice is one line. */
function added(talk: Talk, line: BasketLine): Talk {
  const same = talk.basket.find(
    ({ offer, colour, size }) => offer === line.offer && colour === line.colour && size === line.size,
  );
  if (same === undefined) return { ...talk, basket: [...talk.basket, line] };
  const basket = talk.basket.map((other) =>
    other === same ? { ...other, quantity: other.quantity + line.quantity } : other,
  );
  return { ...talk, basket };
}

function settle(port: OrderingPort, talk: Talk, line: BasketLine): TurnAnswer {
  const full = added(talk, line);
  const [next, ...pending] = talk.pending;
  return next === undefined ? hold(port, full) : proceed(port, { ...full, pending }, next);
}

/** Sets the basket aside and asks to confirm it: the price shown now holds from here. */
export function hold(port: OrderingPort, before: Talk): TurnAnswer {
  const { rules } = port.menu;
  const talk = { ...before, pending: [] };
  const sentences = sentencesOf(port, talk);
  if (port.orders().length >= rules.openOrdersPerSender) {
    const say = sentences.tooMany({ most: rules.openOrdersPerSender, of: "open-orders" });
    return { talk: { ...talk, basket: [], step: IDLE, list: NO_LIST }, say };
  }
  if (talk.basket.length === 0)
    return ask(port, { ...talk, step: { at: "choosing", draft: EMPTY_DRAFT, page: 0 } });
  const lines = talk.basket.map(({ each: _, ...line }) => line);
  const over =
    lines.reduce((sum, { quantity }) => sum + quantity, 0) > rules.garmentsPerOrder
      ? ({ most: rules.garmentsPerOrder, of: "order" } as const)
      : lines.some(({ quantity }) => quantity > rules.garmentsPerLine)
        ? ({ most: rules.garmentsPerLine, of: "line" } as const)
        : null;
  if (over !== null) {
    const changed: Talk = {
      ...talk,
      step: { at: "change", line: talk.basket.length - 1, page: 0 },
    };
    return after(sentences.tooMany(over), ask(port, changed));
  }
  const asks = newAsks(port, talk, lines);
  const outcome = port.attempt({ type: "hold", lines, asks });
  if (!outcome.ok) return refusedAt(port, talk, outcome.refusal, asks);
  const noted = counted(port, talk, lines);
  return ask(port, { ...noted, step: { at: "confirm", shown: port.bill(lines).total } });
}

/** The next step if the stall would not hold or place the basket. */
export function refusedAt(
  port: OrderingPort,
  talk: Talk,
  refusal: Refusal,
  asks: readonly number[],
): TurnAnswer {
  if (refusal.code === "sold-out") {
    const line = talk.basket.find(
      ({ offer, colour, size }) =>
        offer === refusal.offer && colour === refusal.colour && size === refusal.size,
    );
    if (line !== undefined) {
      const basket = talk.basket.filter((other) => other !== line);
      const noted = asks.includes(talk.basket.indexOf(line)) ? counted(port, talk, [line]) : talk;
      const left = Math.min(roomFor(port, basket, line), line.quantity - 1);
      return instead(port, { ...noted, basket }, line, left);
    }
  }
  const closing =
    refusal.code === "not-open" ||
    refusal.code === "paused" ||
    refusal.code === "fair-stopped" ||
    refusal.code === "line-too-long";
  const noted = closing
    ? counted(
        port,
        talk,
        asks.flatMap((index) => talk.basket[index] ?? []),
      )
    : talk;
  return refused(port, noted, refusal);
}

/** Says that a choice is sold out, or that too few are left, and offers the nearest. */
function instead(port: OrderingPort, before: Talk, wanted: Draft, left: number): TurnAnswer {
  const talk = unmet(port, before, wanted, left);
  const draft: Draft = {
    offer: wanted.offer,
    colour: wanted.colour,
    size: wanted.size,
    quantity: wanted.quantity,
  };
  const picks = alternatives(port, talk, draft, left);
  if (picks.length > 0) return ask(port, { ...talk, step: { at: "instead", draft, left, picks } });
  const gone = ask(port, { ...talk, step: { at: "instead", draft, left, picks } }).say;
  const nothing: Talk = { ...talk, step: IDLE, list: NO_LIST };
  if (!isLeft(port, talk, EMPTY_DRAFT)) return { talk: nothing, say: sentencesOf(port, talk).allGone() };
  return after(gone, ask(port, { ...talk, step: { at: "choosing", draft: EMPTY_DRAFT, page: 0 } }));
}

function alternatives(port: OrderingPort, talk: Talk, draft: Draft, left: number): readonly Choice[] {
  const wish = likeliest(port, draft);
  if (wish === null) return [];
  const quantity = draft.quantity ?? 1;
  const fewer: Choice[] = left > 0 ? [{ take: "drafts", drafts: [{ ...draft, quantity: left }] }] : [];
  if (wish.assumed.length > 0) return [...fewer, ...partly(port, talk, draft)];
  const near = nearest(port, talk.basket, wish.garment, quantity);
  return [
    ...fewer,
    ...near.map((garment): Choice => ({ take: "drafts", drafts: [{ ...draft, ...garment }] })),
  ];
}

/** The nearest while colour or size is open: other colours or sizes of the offer, else other offers. */
function partly(port: OrderingPort, talk: Talk, draft: Draft): readonly Choice[] {
  const ranges = rangesOf(port.menu);
  const range = draft.offer === null ? undefined : ranges.get(draft.offer);
  if (range === undefined) return [];
  const left = (change: Partial<Draft>): readonly Draft[] => {
    const other = { ...draft, ...change };
    return isLeft(port, talk, other) ? [other] : [];
  };
  const colours = draft.colour === null ? [] : range.colours.flatMap(({ id }) => left({ colour: id }));
  const sizes = draft.size === null ? [] : range.sizes.flatMap(({ id }) => left({ size: id }));
  // What is left in children's sizes only is near nothing that a grown-up asks for.
  const others = [...ranges.values()]
    .filter((place) => place.blank === range.blank && place !== range)
    .filter(({ offer: { id: offer }, sizes: all }) =>
      all.some(({ id, child }) => !child && left({ offer, size: draft.size ?? id }).length > 0),
    )
    .flatMap(({ offer }) => left({ offer: offer.id }));
  const drafts = [...colours, ...sizes, ...others].slice(0, 5);
  return drafts.map((other): Choice => ({ take: "drafts", drafts: [other] }));
}

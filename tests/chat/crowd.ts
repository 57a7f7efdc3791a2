/** A scripted crowd: half of it follows the numbered steps, half types freely, some with slips of the thumb. */
import { converse } from "../../src/chat/converse.ts";
import { segments } from "../../src/chat/fitting/segments.ts";
import { type Draft, newTalk, type Talk } from "../../src/chat/talk/talk.ts";
import { type Random, seededRandom } from "../../src/maths/random.ts";
import type { OfferId } from "../../src/model/basics/ids.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import type { WantedLine } from "../../src/model/orders/order.ts";
import { exampleMenu } from "./example.ts";
import { customer, openShop, type Shop } from "./stall.ts";

export type Visit = {
  readonly steps: boolean;
  readonly textsIn: number;
  readonly textsOut: number;
  readonly segmentsOut: number;
  /** Whether the first text with the whole order led to the confirmation at once. */
  readonly atFirstTry: boolean;
  /** Null if nothing was ordered. */
  readonly asWished: boolean | null;
};

/** A customer's wish: mostly one garment, sometimes two. */
function wish(menu: Menu, random: Random): readonly WantedLine[] {
  const lines = Array.from({ length: random.chance(0.18) ? 2 : 1 }, (): WantedLine => {
    const offer = random.pick(menu.offers);
    const blank = menu.blanks.find(({ id }) => id === offer.blank);
    if (blank === undefined) throw new Error("every offer has its blank");
    const colour = random.pick(blank.colours).id;
    const size = random.pick(
      blank.sizes.filter(({ child, id }) => !child && (offer.sizes?.includes(id) ?? true)),
    ).id;
    return { offer: offer.id, colour, size, quantity: random.pick([1, 1, 1, 1, 2, 2, 3]) };
  });
  // Nobody asks for the same garment twice in one text.
  const [first, second] = lines;
  const same =
    first !== undefined &&
    second !== undefined &&
    first.offer === second.offer &&
    first.colour === second.colour &&
    first.size === second.size;
  return same ? [first] : lines;
}

const NAMES: Readonly<Record<string, readonly [en: string, es: string]>> = {
  "longtail-tee": ["longtail tee", "camiseta mito"],
  "red-kite-tee": ["red kite tee", "camiseta milano"],
  "otter-tee": ["otter shirt", "playera nutria"],
  "tern-cap": ["tern cap", "gorra charran"],
  "tern-tote": ["tern tote", "bolsa charran"],
  "heron-tote": ["heron bag", "bolsa garza"],
  navy: ["navy", "azul marino"],
  sand: ["sand", "arena"],
  forest: ["forest", "verde bosque"],
  black: ["black", "negra"],
  S: ["small", "chica"],
  M: ["medium", "mediana"],
  L: ["L", "L"],
  XL: ["xl", "extra grande"],
  "2XL": ["2XL", "2XL"],
};

/** One garment as somebody types it. */
function phrased(menu: Menu, random: Random, line: WantedLine, es: boolean): string {
  const say = (id: string): string => slipped(NAMES[id]?.[es ? 1 : 0] ?? "", random);
  const [offer, colour, size] = [say(line.offer), say(line.colour), say(line.size)];
  const number = menu.offers.findIndex(({ id }) => id === line.offer) + 1;
  const words = (...parts: readonly string[]): string => parts.filter((part) => part !== "").join(" ");
  const times = line.quantity === 1 ? "" : `x${line.quantity}`;
  const count = line.quantity === 1 ? (es ? "una" : "a") : String(line.quantity);
  const row = words(String(number), colour, size, times);
  return random.pick([
    row.includes(" ") ? row : words(String(number), "x1"),
    words(String(number), size, colour, times === "" ? "x1" : times),
    words(count, colour, size, offer),
    words(offer, colour, size, times),
    words(size, colour, offer, times),
    words(
      es ? "quiero" : "can i get",
      count,
      offer,
      es ? "" : "in",
      colour,
      size,
      es ? "por favor" : "please",
    ),
  ]);
}

/** Now and then one letter of a longer word is left out or typed before the one it follows. */
function slipped(text: string, random: Random): string {
  return text
    .split(" ")
    .map((word) => {
      if (word.length < 5 || !random.chance(0.06)) return word;
      const at = 1 + random.below(word.length - 2);
      return random.chance(0.5)
        ? word.slice(0, at) + word.slice(at + 1)
        : word.slice(0, at) + word.slice(at + 1, at + 2) + word.slice(at, at + 1) + word.slice(at + 2);
    })
    .join(" ");
}

/** The number that answers the question a customer was asked, for the garment wished for. */
function numbered(talk: Talk, wanted: readonly WantedLine[]): string {
  const { list, step } = talk;
  const draft: Partial<Draft> = "draft" in step ? step.draft : {};
  const settled = new Set(talk.basket.map(({ offer, colour, size }) => `${offer} ${colour} ${size}`));
  const open = wanted.filter(({ offer, colour, size }) => !settled.has(`${offer} ${colour} ${size}`));
  const line = open.find(({ offer }) => draft.offer == null || offer === draft.offer) ?? open[0] ?? wanted[0];
  if (line === undefined) return "menu";
  const place = (at: number): string => (at < 0 ? "menu" : String(at + 1));
  switch (list.of) {
    case "offers":
      return place(list.offers.indexOf(line.offer));
    case "colours":
      return place(list.colours.indexOf(line.colour));
    case "sizes":
      return place(list.sizes.indexOf(line.size));
    case "quantity":
      return String(line.quantity);
    case "picks": {
      if (step.at === "confirm") return wanted.length > talk.basket.length ? "2" : "1";
      return place(list.picks.findIndex((pick) => open.some((other) => fits(pick, other))));
    }
    case "nothing":
      return "menu";
    default:
      return list satisfies never;
  }
}

function fits(pick: { readonly take: string }, line: WantedLine): boolean {
  const named = pick as { offer?: OfferId; colour?: string; size?: string; drafts?: readonly Draft[] }; // any pick's own fields
  if (named.drafts !== undefined) {
    return named.drafts.every(
      ({ offer, colour, size }) =>
        offer === line.offer && colour === line.colour && (size === null || size === line.size),
    );
  }
  return named.offer === line.offer || named.colour === line.colour || named.size === line.size;
}

const MOST_TEXTS = 24;

function visit(shop: Shop, menu: Menu, random: Random, who: number, steps: boolean): Visit {
  const es = random.chance(0.25);
  const wanted = wish(menu, random);
  const looksFirst = !steps && random.chance(0.35);
  const id = customer(who);
  let talk = newTalk("en");
  const count = { textsIn: 0, textsOut: 0, segmentsOut: 0 };
  let first: boolean | undefined;
  let text = steps || looksFirst ? (es ? "hola" : random.pick(["menu", "hi"])) : "";
  const stated = wanted
    .map((line) => phrased(menu, random, line, es))
    .join(random.pick([" + ", es ? " y " : " and "]));
  if (text === "") text = stated;
  while (count.textsIn < MOST_TEXTS) {
    const turn = converse(shop.port(id), talk, { text, channel: "text" });
    talk = turn.talk;
    count.textsIn += 1;
    count.textsOut += turn.replies.length;
    count.segmentsOut += turn.replies.reduce((sum, reply) => sum + segments(reply).parts, 0);
    if (text === stated) first ??= talk.step.at === "confirm";
    if (shop.port(id).orders().length > 0) break;
    if (text !== stated && looksFirst && count.textsIn === 1) text = stated;
    else if (talk.step.at === "confirm" && !steps)
      text = random.pick(es ? ["si", "1", "sí"] : ["yes", "1", "y", "ok"]);
    else text = numbered(talk, wanted);
  }
  const order = shop.port(id).orders()[0];
  const key = (line: WantedLine): string => `${line.quantity} ${line.offer} ${line.colour} ${line.size}`;
  const asWished =
    order === undefined ? null : wanted.map(key).sort().join() === order.lines.map(key).sort().join();
  return { steps, ...count, atFirstTry: first ?? false, asWished };
}

/** Presses and hands over ready orders, so that the line stays as long as at a fair. */
function work(shop: Shop, menu: Menu): void {
  for (const { id } of menu.presses) {
    const pulled = shop.do({ type: "pull", press: id }).events.find((event) => event.type === "pulled");
    if (pulled !== undefined) shop.do({ type: "pressed", job: `${pulled.number}-${pulled.n}` as never }); // brand put on
  }
  for (const { number } of [...shop.state.orders.values()])
    shop.do({ type: "closed", number, as: "collected" });
}

/** So many customers, one after the other, over the example menu. */
export function crowd(customers: number, seed: number): readonly Visit[] {
  const menu = exampleMenu();
  const shop = openShop(menu, 400, seed);
  const random = seededRandom(seed);
  return Array.from({ length: customers }, (_, who) => {
    shop.now += 30_000;
    const came = visit(shop, menu, random, who, who % 2 === 0);
    work(shop, menu);
    work(shop, menu);
    return came;
  });
}

/**
 * A counter's stores while it has no signal: pickup numbers given in advance, orders kept until the stall answers, and
 * the stock last seen. Pure.
 */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import { BLOCK_SIZE } from "../../../model/orders/block-size.ts";
import type { Numbered, NumbersWanted } from "../../../model/orders/counter.ts";
import type { Tender } from "../../../model/orders/order.ts";
import type { StockView } from "../../../model/orders/stock.ts";
import { problemOf, type Reply } from "../kit/api.ts";
import { type KeptTaps, renumbered, type Tap, withFirst, withMessage, without } from "./taps.ts";

// ---- the block of pickup numbers

export type Block = {
  /** Made by the page, kept by the browser; empty until numbers are asked for. */
  readonly device: string;
  /** Those no order has, lowest first. */
  readonly numbers: readonly Numbered[];
  /** The highest number ever given: the stall's answers may overtake each other, and none is added twice. */
  readonly above: number;
};

export const NO_BLOCK: Block = { device: "", numbers: [], above: 0 };

const LOW = BLOCK_SIZE / 2;

/** The request for more numbers; null while there are enough. */
export const numbersWanted = ({ device, numbers, above }: Block): NumbersWanted | null =>
  numbers.length >= LOW
    ? null
    : { device: device as NumbersWanted["device"], have: numbers.length, after: above }; // made as the model wants it

/** The block once the stall has answered what this device asked. */
export function withNumbers(block: Block, device: string, given: readonly Numbered[]): Block {
  if (block.device !== device) return block;
  const fresh = given.filter(({ number }) => number > block.above);
  const numbers = [...block.numbers, ...fresh];
  return { device, numbers, above: Math.max(block.above, ...fresh.map(({ number }) => number)) };
}

/** The stall was restored to an earlier state and knows none of these numbers: start a new block. */
export const begunAgain = (device: string): Block => ({ ...NO_BLOCK, device });

/** Takes the lowest number; null if there is none. */
export function takeNumber(block: Block): { readonly block: Block; readonly taken: Numbered | null } {
  const [taken = null, ...numbers] = block.numbers;
  return { block: { ...block, numbers }, taken };
}

// ---- the orders that are kept

/** A garment line of an order as the slip has it. */
export type SlipLine = {
  readonly offer: string;
  readonly colour: string;
  readonly size: string;
  readonly quantity: number;
  readonly each: number;
  /** "Longtail tee, Navy, L". */
  readonly name: string;
  readonly wishes?: readonly string[];
  readonly note?: string;
  /** The garment of the rack that it is. */
  readonly rack?: string;
  /** It is a second: so much is off its price. */
  readonly asSecond?: number;
};

/** A kept order as the screen shows it. */
export type Taken = {
  readonly lines: readonly SlipLine[];
  readonly name: string | null;
  readonly total: number;
  readonly tax: number;
  readonly tender: Tender | null;
  readonly parts?: readonly { readonly tender: Tender; readonly amount: number }[];
  readonly tip?: number;
  readonly by: string | null;
};

export type PlaceAct = {
  readonly type: "place";
  readonly paper: number | null;
  /** Absent without a number of the block. */
  readonly numbered?: Numbered;
  /** Absent in orders that an earlier version of the page kept. */
  readonly taken?: Taken;
};

export type SavedOrder = { readonly act: PlaceAct; readonly at: number };

const isPlace = (act: unknown): act is PlaceAct =>
  typeof act === "object" && act !== null && "type" in act && act.type === "place";

const isOrder = ({ path }: Tap<unknown>): boolean => path === "/orders";

/** The orders that the stall has not answered yet, in the order they were taken. */
export const savedOrders = ({ taps }: KeptTaps<unknown>): readonly SavedOrder[] =>
  taps.flatMap(({ act, at }) => (isPlace(act) ? [{ act, at }] : []));

/** Taps other than orders, which the counter lists itself. */
export const otherTaps = <Act>({ taps }: KeptTaps<Act>): readonly Tap<Act>[] =>
  taps.filter((tap) => !isOrder(tap));

/** Whether nothing else may be tapped: a tap is being written to disk, or the next step depends on its answer. */
export const isBusy = (now: {
  readonly keeping: number;
  /** Taps whose answers are expected at once. */
  readonly awaited: readonly Pick<Tap<unknown>, "waits">[];
  readonly lost: boolean;
  readonly ended: boolean;
}): boolean =>
  now.keeping > 0 || (!now.lost && !now.ended && now.awaited.some(({ waits }) => waits === true));

type OrderBody = {
  readonly block?: Numbered;
  readonly late?: true;
};
type PlacedReply = Numbered & { readonly short?: number };

const garments = (short: number): string =>
  short === 1 ? "1 garment of it is" : `${short} garments of it are`;

/** The message about an order that the stall took late; null if the customer was told the same. */
function newsOf({ body, says }: Tap<unknown>, { number, word, short = 0 }: PlacedReply): string | null {
  const { block } = body as OrderBody; // as orders are written
  const parts: string[] = [];
  if (block === undefined)
    parts.push(`Done: ${says}. It is number ${number}, pickup word “${word}”. Write both on its tag.`);
  else if (block.number !== number)
    parts.push(
      `Order ${block.number} (${says}) is number ${number} now, pickup word “${word}”: another order has ${block.number}. Tell its customer.`,
    );
  if (short > 0)
    parts.push(
      `Order ${number}: ${garments(short)} sold out by now, and short. It gets the next stock. Tell its customer.`,
    );
  return parts.length === 0 ? null : parts.join(" ");
}

/**
 * The book once the stall has answered an order that its customer has left with; null for any other tap. Sold out: it is
 * sent again as a late order, which is not refused for that. Refused otherwise: it stays until somebody decides.
 */
export function afterLateOrder<Act>(
  book: KeptTaps<Act>,
  tap: Tap<Act>,
  reply: Reply,
  fresh: () => string,
  refused: string,
): KeptTaps<Act> | null {
  if (!isOrder(tap)) return null;
  const rest = without(book, tap.once);
  const { block, late } = tap.body as OrderBody; // as orders are written
  if (reply.status >= 400) {
    if (problemOf(reply) === "sold-out" && late !== true)
      return withFirst(rest, {
        ...tap,
        body: { ...(tap.body as OrderBody), late: true }, // as above
        once: fresh(),
        firstSent: null,
      });
    return withMessage(rest, { id: fresh(), text: refused, tap });
  }
  const placed = reply.body as PlacedReply; // as the route documents
  const text = newsOf(tap, placed);
  const told = text === null ? rest : withMessage(rest, { id: fresh(), text });
  const moved = block === undefined ? told : renumbered(told, block.number, placed.number);
  return { ...moved, confirmed: [...(moved.confirmed ?? []), placed.number] };
}

// ---- the stock as it was last seen

const keysOf = (menu: Menu, { offer, colour, size }: Pick<SlipLine, "offer" | "colour" | "size">) => {
  const found = menu.offers.find(({ id }) => id === offer);
  return found === undefined ? null : ([`${found.blank}.${colour}.${size}`, found.design] as const);
};

/** The menu with as many left of everything as there are once these orders are at the stall. */
export function leftAfter(
  view: MenuView,
  menu: Menu,
  stock: StockView | null,
  acts: readonly unknown[],
): MenuView {
  const taken = new Map<string, number>();
  const add = (piece: string, pieces: number): void =>
    void taken.set(piece, (taken.get(piece) ?? 0) + pieces);
  for (const act of acts)
    for (const line of (isPlace(act) ? act.taken?.lines : undefined) ?? []) {
      if (line.rack !== undefined) continue;
      const [sku, design] = keysOf(menu, line) ?? ["", ""];
      add(sku, line.quantity);
      add(design, line.quantity);
    }
  if (taken.size === 0) return view;
  const free = new Map<string, number>([
    ...(stock?.skus ?? []).map(({ sku, free }) => [sku as string, free] as const),
    ...(stock?.transfers ?? []).map(({ design, free }) => [design as string, free] as const),
  ]);
  const left = (piece: string, seen: number): number => (free.get(piece) ?? seen) - (taken.get(piece) ?? 0);
  const offers = view.offers.map((offer) => ({
    ...offer,
    left: offer.left.map((choice) => {
      const keys = keysOf(menu, { offer: offer.offer, colour: choice.colour, size: choice.size });
      // What is off the menu is gone whatever is there.
      if (keys === null || choice.free === 0) return choice;
      return { ...choice, free: Math.max(0, Math.min(...keys.map((key) => left(key, choice.free)))) };
    }),
  }));
  return { ...view, offers };
}

/** The open orders by what they still need, and how to find one. Pure. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { OpenOrder } from "../../../../model/orders/open-orders.ts";
import { choiceName } from "../../crew/words/names.ts";
import { isEnding } from "../acts.ts";

export const LISTS = ["to-fetch", "to-call-out", "to-pay", "not-here", "all", "rack"] as const;
export type List = (typeof LISTS)[number];

const UNTOLD: ReadonlySet<OpenOrder["told"]> = new Set(["failed", "opted-out", "call-out"]);

/** Says whether an order belongs on a list; the rack has garments and no orders. `tracked`: the stall notes payments. */
export function isOn(list: List, order: OpenOrder, tracked: boolean): boolean {
  const { stage, told, paid, unclaimed } = order;
  if (isEnding(stage)) return false;
  switch (list) {
    case "to-fetch":
      return stage === "ready";
    case "to-call-out":
      return stage === "ready" && UNTOLD.has(told);
    case "to-pay":
      return tracked && paid === null;
    case "not-here":
      return unclaimed;
    case "all":
      return true;
    case "rack":
      return false;
    default:
      return list satisfies never;
  }
}

/** "2 × Otter tee, Sand, M; 1 × Tern cap, Black, one size". */
export const garmentsIn = ({ lines }: Pick<OpenOrder, "lines">, menu: Menu | null): string =>
  lines
    .map(
      ({ quantity, name, blank, colour, size }) =>
        `${quantity} × ${name}, ${choiceName(menu, blank, colour, size)}`,
    )
    .join("; ");

const plain = (text: string): string => text.normalize("NFD").replaceAll(/\p{M}/gu, "").toLowerCase();
const wordsOf = (text: string): readonly string[] => plain(text).match(/[\p{L}\p{N}]+/gu) ?? [];

/** Says whether each word that was typed begins a word of the order: its number, pickup word, name, last digits or garments. */
export function fits(order: OpenOrder, garments: string, typed: string): boolean {
  const { number, word, name, phone } = order;
  const own = wordsOf([number, word, name ?? "", phone ?? "", garments].join(" "));
  return wordsOf(typed).every((wanted) => own.some((one) => one.startsWith(wanted)));
}

export type Found =
  | { readonly type: "one"; readonly number: number }
  | { readonly type: "several"; readonly count: number }
  | { readonly type: "none" };

/** No order has a number below this. */
const LOWEST = 100;

/**
 * The orders to open for a typed text. A whole number is a pickup number, open or not, unless it is the last four
 * digits of one customer's number and of no open order.
 */
export function toOpen(
  orders: readonly OpenOrder[],
  garments: (order: OpenOrder) => string,
  typed: string,
): Found {
  const text = typed.trim();
  const number = /^\d+$/.test(text) ? Number(text) : null;
  if (number !== null) {
    const exact = orders.some((order) => order.number === number);
    const byPhone = orders.filter(({ phone }) => phone === text);
    if (exact || (byPhone.length === 0 && number >= LOWEST)) return { type: "one", number };
    return countOf(byPhone);
  }
  const exact = orders.filter(({ word, name }) =>
    [word, name ?? ""].some((own) => plain(own) === plain(text)),
  );
  return countOf(exact.length > 0 ? exact : orders.filter((order) => fits(order, garments(order), text)));
}

function countOf(found: readonly OpenOrder[]): Found {
  const [first] = found;
  if (first === undefined) return { type: "none" };
  return found.length === 1
    ? { type: "one", number: first.number }
    : { type: "several", count: found.length };
}

/** Keeps every number in its place, those that have left the list too; new ones come at the end. */
export function inPlace(before: readonly number[], now: readonly number[]): readonly number[] {
  const there = new Set(before);
  return [...before, ...now.filter((number) => !there.has(number))];
}

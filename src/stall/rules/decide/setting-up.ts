/** Opening a stall, and setting its menu and pictures, without losing an open order. */

import { type Fault, pointer } from "../../../model/basics/faults.ts";
import { DesignId } from "../../../model/basics/ids.ts";
import { MOST_PICTURES, MOST_PICTURES_BYTES } from "../../../model/garment/picture.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import { menuFaults } from "../../../model/menu/menu-faults.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { Line } from "../../state/shapes/line.ts";
import type { StallState } from "../../state/state.ts";
import { coloursOf, offerParts, sizesOf } from "../../stock/offers.ts";
import { accept, type Decision, type Of, refuse } from "../commands.ts";

/** The orders named in a fault: the first few, and the number of others. */
const NAMED = 6;
function whose(orders: ReadonlySet<number>): string {
  const numbers = [...orders].sort((one, other) => one - other);
  if (numbers.length === 0) return "a customer about to order";
  const more = numbers.length - NAMED;
  const named = numbers.slice(0, NAMED).join(", ") + (more > 0 ? ` and ${more} more` : "");
  return numbers.length === 1 ? `order ${named}` : `orders ${named}`;
}

const RETIRE = "take it off sale (offered: false) instead of leaving it out";

type Missing = { readonly what: string; readonly mend: string };

/** The parts of an open line that a menu lacks; empty if it has all of them. */
export function missingOf(menu: Menu, line: Line): readonly Missing[] {
  const choice = offerParts(menu, line.offer);
  if (choice === undefined || choice.blank.id !== line.blank || choice.design.id !== line.design)
    return [{ what: `offer "${line.offer}" on this design and blank`, mend: RETIRE }];
  const missing: Missing[] = [];
  if (choice.blank.platen !== line.platen)
    missing.push({ what: `a ${line.platen} platen for blank "${line.blank}"`, mend: "press it first" });
  for (const design of line.second ?? [])
    if (!menu.designs.some(({ id }) => id === design))
      missing.push({ what: `design "${design}", a second transfer`, mend: RETIRE });
  if (!coloursOf(choice).some(({ id }) => id === line.colour))
    missing.push({ what: `"${line.offer}" in "${line.colour}"`, mend: RETIRE });
  if (!sizesOf(choice).some(({ id }) => id === line.size))
    missing.push({ what: `"${line.offer}" in size "${line.size}"`, mend: RETIRE });
  return missing;
}

/** What open orders and holds need and a new menu lacks. */
function inUse(state: StallState, menu: Menu): Fault[] {
  const found = new Map<string, { readonly orders: Set<number>; readonly mend: string }>();
  const check = (line: Line, number: number | null): void => {
    for (const { what, mend } of missingOf(menu, line)) {
      const { orders } = found.get(what) ?? { orders: new Set<number>() };
      if (number !== null) orders.add(number);
      found.set(what, { orders, mend });
    }
  };
  for (const order of state.orders.values()) for (const line of order.lines) check(line, order.number);
  for (const hold of state.holds.values()) for (const line of hold.lines) check(line, null);
  return [...found].map(([what, { orders, mend }]) => ({
    pointer: pointer(["offers"]),
    detail: `${what} is needed by ${whose(orders)}; ${mend}`,
  }));
}

/** The faults that keep a menu from being used now: it contradicts itself, or lacks what open orders need. */
export function menuObstacles(state: StallState, menu: Menu): readonly Fault[] {
  const faults = [...menuFaults(menu), ...inUse(state, menu)];
  const held = [...state.orderIndex.reserved].flatMap(([press, reserved]) =>
    [...reserved].map((placed) => [press, placed] as const),
  );
  for (const [press, { number, n }] of [...state.orderIndex.onPress, ...held]) {
    const before = state.menu?.presses.find(({ id }) => id === press);
    if (menu.presses.some(({ id, platen }) => id === press && platen === before?.platen)) continue;
    faults.push({
      pointer: pointer(["presses"]),
      detail: `garment ${number}-${n} is with press ${press}; finish or return it first`,
    });
  }
  if (state.menu !== null && state.menu.currency !== menu.currency && state.orders.size > 0) {
    faults.push({
      pointer: pointer(["currency"]),
      detail: "orders stand in the old currency; finish them first",
    });
  }
  return faults;
}

export function setMenu(state: StallState, { menu, basedOn }: Of<"set-menu">): Decision {
  if (basedOn !== undefined && basedOn !== state.menuVersion) return refuse({ code: "menu-changed" });
  const faults = menuObstacles(state, menu);
  return faults.length > 0 ? refuse({ code: "menu", faults }) : accept({ type: "menu-set", menu });
}

export function open({ identity }: Of<"open">): Decision {
  return accept({ type: "opened", identity });
}

/**
 * Gives a design a picture, or takes it away. A picture outlives its design, so that one that is put back on the menu has
 * it again; only when a picture is set do those of designs that are gone make room.
 */
export function setPicture(state: StallState, menu: Menu, { design, picture }: Of<"set-picture">): Decision {
  if (!menu.designs.some(({ id }) => id === design)) return refuse({ code: "no-such-design", design });
  if (state.pictures.get(design)?.hash === picture?.hash) return accept();
  if (picture === null) return accept({ type: "picture-set", design, picture });
  const kept = [...state.pictures.keys()].map((key) => DesignId.parse(key));
  const gone = kept.filter((key) => !menu.designs.some(({ id }) => id === key));
  const others = kept.filter((key) => key !== design && !gone.includes(key));
  const bytes = others.reduce((sum, key) => sum + (state.pictures.get(key)?.bytes ?? 0), picture.bytes);
  if (bytes > MOST_PICTURES_BYTES || others.length >= MOST_PICTURES)
    return refuse({ code: "no-picture-room", mostBytes: MOST_PICTURES_BYTES, most: MOST_PICTURES });
  const dropped = gone.map((key): StallEvent => ({ type: "picture-set", design: key, picture: null }));
  return accept(...dropped, { type: "picture-set", design, picture });
}

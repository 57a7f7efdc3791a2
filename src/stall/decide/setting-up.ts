/** Opening a stall and setting its menu, without losing an order that stands. */
import type { Menu } from "../../model/catalogue.ts";
import { type Fault, pointer } from "../../model/faults.ts";
import { menuFaults } from "../../model/menu-faults.ts";
import { accept, type Command, type Decision, refuse } from "../commands.ts";
import type { Line } from "../facts.ts";
import { choiceOf, coloursOf, sizesOf } from "../offers.ts";
import { OPEN_DESK, type StallState } from "../state.ts";
import { changeStock } from "./stocktaking.ts";

type Of<T extends Command["type"]> = Extract<Command, { readonly type: T }>;

/** What open orders and holds need that a new menu would no longer have. */
function inUse(state: StallState, menu: Menu): Fault[] {
  const missing = new Map<string, string>();
  const check = (line: Line, whose: string): void => {
    const choice = choiceOf(menu, line.offer);
    const retire = "take it off sale (offered: false) instead of leaving it out";
    if (choice === undefined || choice.blank.id !== line.blank || choice.design.id !== line.design) {
      missing.set(line.offer, `${whose} has offer "${line.offer}" on this design and blank; ${retire}`);
      return;
    }
    if (choice.blank.platen !== line.platen) {
      missing.set(
        line.blank,
        `${whose} has blank "${line.blank}" waiting for a ${line.platen} platen; press it first`,
      );
    }
    if (!coloursOf(choice).some(({ id }) => id === line.colour)) {
      missing.set(
        `${line.offer} ${line.colour}`,
        `${whose} has "${line.offer}" in "${line.colour}"; ${retire}`,
      );
    }
    if (!sizesOf(choice).some(({ id }) => id === line.size)) {
      missing.set(
        `${line.offer} ${line.size}`,
        `${whose} has "${line.offer}" in size "${line.size}"; ${retire}`,
      );
    }
  };
  for (const order of state.orders.values())
    for (const line of order.lines) check(line, `order ${order.number}`);
  for (const hold of state.holds.values())
    for (const line of hold.lines) check(line, "a customer about to order");
  return [...missing.values()].map((detail) => ({ pointer: pointer(["offers"]), detail }));
}

export function setMenu(state: StallState, { menu }: Of<"set-menu">): Decision {
  const faults = [...menuFaults(menu), ...inUse(state, menu)];
  const held = [...state.standing.aside].flatMap(([press, aside]) =>
    [...aside].map((placed) => [press, placed] as const),
  );
  for (const [press, { number, n }] of [...state.standing.onPress, ...held]) {
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
  return faults.length > 0 ? refuse({ code: "menu", faults }) : accept({ type: "menu-set", menu });
}

/** The planned menu and what was brought, both or neither; only before the first order: then counts are the crew's. */
export function acceptPlan(state: StallState, { menu, entries }: Of<"accept-plan">): Decision {
  if (state.desk.nextNumber !== OPEN_DESK.nextNumber) {
    const detail = "orders were taken already; change the menu with PUT …/menu and count with POST …/stock";
    return refuse({ code: "stock", faults: [{ pointer: pointer([]), detail }] });
  }
  const set = setMenu(state, { type: "set-menu", menu });
  if (!set.accepted) return set;
  const counted = changeStock(state, menu, { type: "change-stock", entries });
  return counted.accepted ? accept(...set.events, ...counted.events) : counted;
}

export function open({ identity }: Of<"open">): Decision {
  return accept({ type: "opened", identity });
}

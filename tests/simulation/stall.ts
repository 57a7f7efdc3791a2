/** A menu and a stall for simulated days: one tee in two designs that may need different temperatures. */

import type { CustomerId } from "../../src/model/basics/ids.ts";
import { Menu } from "../../src/model/menu/catalogue.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Command, Decision } from "../../src/stall/rules/commands.ts";
import { step } from "../../src/stall/rules/step.ts";
import { StallState } from "../../src/stall/state/state.ts";
import { ids } from "../ids.ts";

export const OPENS = Date.parse("2027-06-12T14:00:00Z");
export const PRESSES = ["A", "B", "C", "D", "E", "F"] as const;

export type MenuPlan = {
  readonly presses: number;
  readonly garmentSeconds: number;
  /** One temperature a design, in °F; the first design's is the first. */
  readonly fahrenheit: readonly number[];
  readonly rules?: Readonly<Record<string, unknown>>;
};

export function simulatedMenu({ presses, garmentSeconds, fahrenheit, rules = {} }: MenuPlan): Menu {
  return Menu.parse({
    currency: "USD",
    blanks: [
      {
        id: "tee",
        name: "Tee",
        platen: "flat",
        colours: [{ id: "navy", name: "Navy" }],
        sizes: [{ id: "L", name: "L" }],
      },
    ],
    designs: fahrenheit.map((temperatureFahrenheit, index) => ({
      id: `design-${index}`,
      name: `Design ${index}`,
      kind: index === 0 ? "screen-printed" : "film",
      widthInches: 10,
      heightInches: 10,
      settings: { temperatureFahrenheit, dwellSeconds: 10, pressure: "medium", peel: "warm" },
    })),
    offers: fahrenheit.map((_, index) => ({
      id: `offer-${index}`,
      name: `Offer ${index}`,
      blank: "tee",
      design: `design-${index}`,
      price: 2000,
    })),
    presses: PRESSES.slice(0, presses).map((id) => ({ id, platen: "flat", garmentSeconds })),
    rules,
  });
}

/** An open stall with more stock than any day needs. */
export function openStall(menu: Menu, closes: number): StallState {
  const state = new StallState();
  const identity = {
    fair: ids.fair("brackenfield"),
    stall: ids.stall("tern"),
    name: "Tern & Tide",
    fairName: "Brackenfield Summer Fair",
    timeZone: "America/New_York",
    openings: [{ opens: OPENS, closes }],
  };
  const entries = [
    { sku: "tee.navy.L", counted: 90_000 },
    ...menu.designs.map(({ id }) => ({ design: id, counted: 90_000 })),
  ].map((entry) => StockEntry.parse(entry));
  carryOut(state, { type: "open", identity }, OPENS);
  carryOut(state, { type: "set-menu", menu }, OPENS);
  carryOut(state, { type: "change-stock", entries }, OPENS);
  return state;
}

/** Carries out a command that the simulation knows to be allowed. */
export function carryOut(state: StallState, command: Command, now: number): Decision {
  const outcome = step(state, command, now);
  // What is still to be written keeps whole rows alive; nothing is written here.
  state.drain();
  if (outcome.refusal !== null) throw new Error(`${command.type}: ${JSON.stringify(outcome.refusal)}`);
  return outcome;
}

export const customerOf = (n: number): CustomerId => ids.customer(`customer-${String(n).padStart(10, "0")}`);

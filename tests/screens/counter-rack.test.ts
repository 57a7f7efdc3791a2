/** The rack at the counter: which garments are offered to a customer, and what the tablet knows without signal. */
import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import type { QueueView } from "../../src/model/orders/queue.ts";
import type { RackGarment } from "../../src/model/orders/rack.ts";
import { type Act, exchanging, placing, unracking } from "../../src/screens/client/counter/acts.ts";
import { forSale, rackLine, rackOf, withRack } from "../../src/screens/client/counter/rack/on-rack.ts";
import { Rack } from "../../src/screens/client/counter/rack/rack.tsx";
import { asOrder } from "../../src/screens/client/counter/saved.ts";
import { leftOf } from "../../src/screens/client/counter/shown.ts";
import { firstState, type State } from "../../src/screens/client/counter/state.ts";
import { padOf } from "../../src/screens/client/counter/take/pad.ts";
import { orderOf, sumsOf, withLine } from "../../src/screens/client/counter/take/slip.ts";
import { stockView } from "../../src/stall/calls/counter/stock-view.ts";
import { menuView } from "../../src/stall/calls/views.ts";
import { exampleMenu, OPENS, testStall } from "../stall/test-stall.ts";
import { controlsIn } from "./controls.ts";

const menu = exampleMenu();
const stall = testStall(menu, []);
const garment = (key: string, more: Partial<RackGarment> = {}): RackGarment =>
  ({
    key,
    offer: "longtail-tee",
    name: "Longtail tee",
    blank: "tee",
    design: "longtail",
    colour: "navy",
    colourName: "Navy",
    size: "L",
    sizeName: "L",
    why: "dropped",
    second: false,
    keptFor: null,
    since: new Date(OPENS).toISOString(),
    ...more,
  }) as RackGarment; // plain ids

/** A counter before a stall without stock and with these garments on its rack. */
const counter = (rack: readonly RackGarment[], acts: readonly Act[] = []): State => {
  const first = firstState("");
  return {
    ...first,
    taps: { ...first.taps, acts },
    seen: {
      queue: {} as QueueView, // not read here
      menu: menuView(stall.state, menu, OPENS),
      whole: menu,
      stock: { ...stockView(stall.state, menu), rack: [...rack] },
    },
  };
};
const withRules = (state: State, rules: typeof menu.rules): State =>
  state.seen === null ? state : { ...state, seen: { ...state.seen, whole: { ...menu, rules } } };
const NAVY_L = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };
const padOn = (state: State, choice: object) => {
  const left = leftOf(state);
  if (left === null) throw new Error("the counter has seen the menu");
  return padOf(left, { ...NAVY_L, ...choice }, forSale(state));
};

describe("the rack at the counter", () => {
  it("offers what is just that though no blank is left, and nothing else", () => {
    const rack = [
      garment("101-1"),
      garment("102-1", { second: true }),
      garment("103-1", { wishes: ["Back print"] }),
      garment("104-1", { keptFor: 104 }),
      garment("105-1", { size: "M", sizeName: "M" } as Partial<RackGarment>), // a plain id
    ];
    const pad = padOn(counter(rack), {});
    expect(pad.hanging.map(({ key }) => key)).toEqual(["101-1"]);
    expect(pad.free).toBe(0);
    const sizes = pad.sizes.filter(({ gone }) => !gone).map(({ label }) => label);
    expect(sizes).toEqual(["M (1 on the rack)", "L (1 on the rack)"]);
    expect(padOn(counter([]), {}).line).toBeNull();
  });

  it("puts each garment of the rack on a line of its own, and the rest to be pressed", () => {
    const state = counter([garment("101-1"), garment("102-1")]);
    const { line, hanging } = padOn(state, { quantity: 3 });
    if (line === null) throw new Error("there is such a garment");
    const lines = withRack(line, hanging);
    expect(lines.map(({ quantity, rack }) => [quantity, rack])).toEqual([
      [1, "101-1"],
      [1, "102-1"],
      [1, undefined],
    ]);
    const slip = lines.reduce(withLine, state.slip);
    expect(forSale({ ...state, slip })).toEqual([]);
    const asked = orderOf(slip, menu, { tender: "cash" }, null, new Date(OPENS));
    expect(asked).toMatchObject({ wanted: { lines: [{ rack: "101-1" }, { rack: "102-1" }, NAVY_L] } });
  });

  it("asks for the money first where garments are paid before they are pressed", () => {
    const first = { ...menu, rules: { ...menu.rules, payment: "before-pressing" as const } };
    const { line, hanging } = padOn(counter([garment("101-1")]), {});
    if (line === null) throw new Error("there is such a garment");
    const slip = withRack(line, hanging).reduce(withLine, firstState("").slip);
    expect(orderOf(slip, first, null, null, new Date(OPENS))).toMatch(/^Take the money first/);
    expect(orderOf(slip, first, { tender: "card" }, null, new Date(OPENS))).toMatchObject({
      taken: { tender: "card" },
    });
  });

  it("sells nothing twice without signal, and hands over at once what it sold", () => {
    const state = counter([garment("101-1")]);
    const { line, hanging } = padOn(state, {});
    if (line === null) throw new Error("there is such a garment");
    const slip = withRack(line, hanging).reduce(withLine, state.slip);
    const asked = orderOf(slip, menu, { tender: "cash" }, null, new Date(OPENS));
    if (typeof asked === "string") throw new Error(asked);
    const block = { number: 120, word: "heron", device: "tablet".padEnd(16, "_") };
    const { act } = placing(asked.wanted, { taken: asked.taken, block, takenAt: null, late: true });
    expect(rackOf(counter([garment("101-1")], [act]))).toEqual([]);
    if (act.type !== "place") throw new Error("it places an order");
    expect(asOrder({ act, at: OPENS }, menu)).toMatchObject({ stage: "ready", jobs: [{ stage: "pressed" }] });
  });

  it("is without what an exchange gave from it, though the stall has not heard of it yet", () => {
    const write = exchanging(120, "120-1", {
      offer: "longtail-tee",
      colour: "navy",
      size: "L",
      rack: "101-1",
    });
    expect(write).toMatchObject({
      path: "/orders/120/garments/exchanged",
      body: { job: "120-1", instead: { rack: "101-1" } },
    });
    const left = rackOf(counter([garment("101-1"), garment("102-1")], [write.act]));
    expect(left.map(({ key }) => key)).toEqual(["102-1"]);
  });

  it("charges a second what the stall will, and says so", () => {
    const rules = { ...menu.rules, secondsAmountOff: 700 };
    const misprint = garment("101-99", { why: "misprint", second: true });
    const state = counter([misprint]);
    const left = leftOf(state);
    const line = left === null ? null : rackLine(misprint, left, rules);
    if (line === null) throw new Error("the menu has it");
    const slip = withLine(state.slip, line);
    // $24.00 less $7.00, and 7.25 % on it.
    const sums = [
      ["Seconds", "$7.00 off"],
      ["Garments", "$17.00"],
      ["Sales tax 7.25 %", "$1.23"],
      ["Total", "$18.23"],
    ];
    expect(sumsOf(slip, { ...menu, rules })).toEqual(sums);
    expect(line.name).toBe("Longtail tee, Navy, L, second, from the rack");
    const [said] = controlsIn(h(Rack, { state: withRules(state, rules), actions: {} as never })); // nothing is tapped
    expect(said?.name).toBe("Sell it: $17.00");
  });

  it("lists why a garment hangs there, and sells or releases it by a tap", () => {
    const rack = [garment("101-1"), garment("104-1", { keptFor: 104, why: "uncollected" })];
    let state = counter(rack);
    const sent: Act[] = [];
    const actions = {
      change: (to: (before: State) => State) => {
        state = to(state);
      },
      send: ({ act }: { readonly act: Act }) => sent.push(act),
    } as unknown as Parameters<typeof Rack>[0]["actions"]; // what the rack's view calls
    const said = renderToString(h(Rack, { state, actions }));
    expect(said).toContain("Its order was cancelled");
    expect(said).toContain("Paid on order 104 and not fetched: kept until the day is closed");
    const controls = controlsIn(h(Rack, { state, actions }));
    const names = ["Sell it: $24.00", "Take it off…", "Let it be sold", "Take it off…"];
    expect(controls.map(({ name }) => name)).toEqual(names);
    controls[2]?.tap();
    expect(sent).toEqual([unracking("104-1", "released").act]);
    expect(rackOf(counter(rack, sent))[1]?.keptFor).toBeNull();
    controls[0]?.tap();
    expect(state).toMatchObject({ view: "take", slip: { lines: [{ rack: "101-1", quantity: 1 }] } });
  });
});

import { describe, expect, it } from "vitest";
import { GatewayRows } from "../../src/fair/gateway-rows.ts";
import type { Rows } from "../../src/fair/rows.ts";
import { TextRouting } from "../../src/fair/text-routing.ts";
import type { StallId } from "../../src/model/basics/ids.ts";
import { PLAIN } from "../../src/texting/mapping/mappings.ts";

// Brands are put on a test's own ids.
const [TERN, GANNET] = ["tern", "gannet"] as StallId[] as [StallId, StallId];
const STALLS = [
  { stall: TERN, name: "Tern & Tide" },
  { stall: GANNET, name: "Gannet Goods" },
];
const HOUR = 3_600_000;

/** Rows that are only a map. */
function memory(): { readonly rows: Map<string, unknown>; readonly kv: Rows } {
  const rows = new Map<string, unknown>();
  const kv: Rows = {
    get: <T>(key: string) => rows.get(key) as T | undefined, // as put below
    put: (key, value) => void rows.set(key, value),
    delete: (key) => rows.delete(key),
    list: <T>({ prefix, limit }: { readonly prefix: string; readonly limit?: number }) =>
      [...rows].filter(([key]) => key.startsWith(prefix)).slice(0, limit) as [string, T][],
  };
  return { rows, kv };
}

let messages = 0;
const said = (text: string, more: Partial<Parameters<TextRouting["route"]>[0]> = {}) => ({
  message: `message-${++messages}`,
  sender: "ann",
  own: null,
  text,
  ...more,
});

describe("the text routing", () => {
  const board = () => new TextRouting(memory().kv);
  it.each(["tern", "TERN menu", "Tern, 1 navy L", "tern: two"])("%j names the stall", (text) => {
    expect(board().route(said(text), STALLS, 0)).toMatchObject({ to: "stall", stall: TERN });
  });
  it("keeps a sender at its stall, where a bare number is the menu's", () => {
    const one = board();
    one.route(said("gannet"), STALLS, 0);
    expect(one.route(said("1"), STALLS, 0)).toEqual({ to: "stall", stall: GANNET, text: "1" });
    expect(one.route(said("STALLS"), STALLS, 0)).toMatchObject({ to: "which" });
    expect(one.route(said("1"), STALLS, 0)).toEqual({ to: "stall", stall: TERN, text: "menu" });
    expect(one.route(said("1"), STALLS, 0)).toEqual({ to: "stall", stall: TERN, text: "1" });
  });
  it("lets a bare number pick only right after the list", () => {
    const one = board();
    one.route(said("gannet"), STALLS, 0);
    one.route(said("stalls"), STALLS, 0);
    expect(one.route(said("help"), STALLS, 0)).toMatchObject({ to: "stall", stall: GANNET });
    expect(one.route(said("1"), STALLS, 0)).toMatchObject({ to: "stall", stall: GANNET });
  });
  it("gives a number of its own to its stall, unless another is named", () => {
    expect(board().route(said("hello", { own: GANNET }), STALLS, 0)).toMatchObject({ stall: GANNET });
    expect(board().route(said("tern", { own: GANNET }), STALLS, 0)).toMatchObject({ stall: TERN });
  });
  it("sends a repeat where the first went, and drops it once it can only be a replay", () => {
    const one = board();
    const first = said("tern");
    const went = one.route(first, STALLS, 0);
    one.route(said("gannet"), STALLS, 0);
    expect(one.route({ ...first, text: "gannet yes" }, STALLS, 24 * HOUR)).toEqual(went);
    expect(one.route(first, STALLS, 24 * HOUR + 1)).toEqual({ to: "dropped" });
  });
  it("knows to the hour when a number last wrote, at the cost of one row an hour", () => {
    const one = board();
    const wroteAt = () => one.sender("ann").wroteAt;
    for (const at of [0, HOUR - 1]) {
      one.route(said("tern"), STALLS, at);
      expect(wroteAt()).toBe(0);
    }
    one.route(said("menu"), STALLS, 3 * HOUR);
    expect(wroteAt()).toBe(3 * HOUR);
    one.setStopped("ann", true);
    expect(wroteAt()).toBe(3 * HOUR);
    // The clock was moved back.
    one.route(said("menu"), STALLS, HOUR);
    expect(wroteAt()).toBe(HOUR);
  });
  it("remembers every stall a number wrote to, and that it wants no texts, until all is erased", () => {
    const { rows, kv } = memory();
    const one = new TextRouting(kv);
    for (const text of ["tern", "gannet", "tern"]) one.route(said(text), STALLS, 0);
    one.setStopped("ann", true);
    expect(one.sender("ann")).toMatchObject({ stalls: [TERN, GANNET], stopped: true });
    expect(one.erase(3)).toBe(true);
    expect(one.erase(3)).toBe(false);
    expect([...rows.keys()].filter((key) => !key.startsWith("stopped:"))).toEqual([]);
  });
});

describe("a number that said STOP", () => {
  it("is known after senders are erased, also from rows of earlier versions, and until it says START", () => {
    const { kv } = memory();
    const routing = new TextRouting(kv);
    kv.put("sender:earlier", { stall: null, stalls: ["tern"], choosing: false, stopped: true });
    routing.setStopped("lately", true);
    while (routing.erase(1));
    expect([...kv.list({ prefix: "sender:" })]).toEqual([]);
    const asked = ["earlier", "lately", "never"];
    expect(routing.stoppedAmong(asked)).toEqual(["earlier", "lately"]);
    routing.setStopped("earlier", false);
    while (routing.erase(1));
    expect(routing.stoppedAmong(asked)).toEqual(["lately"]);
  });
});

describe("the day's budget", () => {
  const desk = (segmentsPerDay: number): GatewayRows => {
    const made = new GatewayRows(memory().kv);
    made.setMapping({ ...PLAIN, limits: { ...PLAIN.limits, segmentsPerDay } });
    return made;
  };
  it("is granted in slices and never beyond the cap", () => {
    const one = desk(1000);
    let granted = 0;
    for (let calls = 0; calls < 200; calls++) {
      const { others, own } = one.grant({ others: 1 + (calls % 3), own: calls % 2 }, "2027-06-12");
      granted += others + own;
    }
    expect(granted).toBe(1000);
    expect(one.grant({ others: 1, own: 1 }, "2027-06-12")).toEqual({ others: 0, own: 0 });
    expect(one.grant({ others: 1, own: 0 }, "2027-06-13").others).toBeGreaterThan(0);
  });
  it("costs few calls, and a small cap is not kept by one stall", () => {
    expect(desk(5000).grant({ others: 1, own: 0 }, "day")).toEqual({ others: 60, own: 0 });
    expect(desk(100).grant({ others: 1, own: 1 }, "day")).toEqual({ others: 2, own: 2 });
    expect(desk(100).grant({ others: 7, own: 0 }, "day")).toEqual({ others: 7, own: 0 });
  });
  it("keeps a third for texts about a number's own orders, however much others ask for", () => {
    const one = desk(300);
    let others = 0;
    for (let calls = 0; calls < 400; calls++) others += one.grant({ others: 5, own: 0 }, "day").others;
    expect(others).toBe(200);
    let own = 0;
    for (let calls = 0; calls < 400; calls++) own += one.grant({ others: 0, own: 5 }, "day").own;
    expect(own).toBe(100);
  });
  it("grows in version only when the mapping changes", () => {
    const one = desk(1000);
    const { version, mapping } = one.gateway;
    expect(one.setMapping(structuredClone(mapping)).version).toBe(version);
    expect(one.setMapping({ ...mapping, name: "Another" }).version).toBe(version + 1);
  });
});

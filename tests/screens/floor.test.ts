import { describe, expect, it } from "vitest";
import type { JobView, QueueView } from "../../src/model/orders/queue.ts";
import type { Act } from "../../src/screens/client/press/acts.ts";
import { withPulled, withTaps } from "../../src/screens/client/press/floor.ts";

const job = (id: string, stage: JobView["stage"]): JobView =>
  ({
    job: id,
    number: Number(id.split("-")[0]),
    stage,
    settings: { temperatureFahrenheit: 320 },
    setTo: null,
  }) as unknown as JobView; // the rest of a garment plays no part here

const press = (id: string, on: string | null, reserve: readonly string[]) => ({
  press: id,
  platen: "flat",
  job: on === null ? null : job(on, "pressing"),
  downSince: null,
  fahrenheit: null,
  reserves: reserve.length > 0,
  reserve: reserve.map((one) => job(one, "reserved")),
  askedBack: [],
  letGo: null,
});

const view = (): QueueView =>
  ({
    asOf: "2027-05-01T13:05:09Z",
    paused: null,
    webOrders: true,
    presses: [press("A", "101-1", ["102-1", "103-1"]), press("B", null, ["104-1"])],
    next: [job("105-1", "waiting")],
    counts: { toPay: 0, waiting: 4, short: 0, pressing: 1, ready: 0 },
  }) as unknown as QueueView; // the rest of the view plays no part here

const pull = (id: string, wanted: string | null): Act => ({ type: "pull", press: id, job: wanted });
const pressed = (id: string): Act => ({ type: "pressed", job: id, heat: 320 });

/** The garments on the presses, the presses' heat, the line, and the counts of waiting and pressed garments. */
const seen = ({ presses, next, counts }: QueueView) => ({
  on: presses.map(({ job: one }) => one?.job ?? null),
  reserve: presses.map(({ reserve }) => reserve.map((one) => one.job)),
  next: next.map((one) => one.job),
  counts: [counts.waiting, counts.pressing],
});

describe("the floor after taps that the stall has not heard of", () => {
  it("frees the press and takes what is reserved, in the order of the taps", () => {
    const acts = [pressed("101-1"), pull("A", "102-1"), pressed("102-1"), pull("A", "103-1")];
    expect(seen(withTaps(view(), acts))).toEqual({
      on: ["103-1", null],
      reserve: [[], ["104-1"]],
      next: ["105-1"],
      counts: [2, 1],
    });
  });

  it("takes nothing that is not reserved for that press, and nothing for a press that has one", () => {
    for (const act of [pull("A", "102-1"), pull("B", "102-1"), pull("B", "105-1"), pull("B", null)])
      expect(seen(withTaps(view(), [act]))).toEqual(seen(view()));
  });

  it("is the same if the stall has heard of a tap already", () => {
    const acts = [pressed("101-1"), pull("A", "102-1"), pressed("102-1")];
    for (let heard = 0; heard <= acts.length; heard += 1) {
      const known = withTaps(view(), acts.slice(0, heard));
      expect(seen(withTaps(known, acts))).toEqual(seen(withTaps(view(), acts)));
    }
  });

  it("puts an undone, spoiled or given back garment into the line again", () => {
    const back = { next: ["101-1", "105-1"], counts: [5, 0] };
    const actions: Act[][] = [
      [pressed("101-1"), { type: "undo-pressed", job: "101-1" }],
      [pressed("101-1"), { type: "spoiled", job: "101-1" }],
      [{ type: "spoiled", job: "101-1" }],
      [{ type: "returned", job: "101-1" }],
    ];
    for (const acts of actions) expect(seen(withTaps(view(), acts))).toMatchObject(back);
  });

  it("gives back what is reserved, one or all, and all that a press out of order has", () => {
    const one = withTaps(view(), [{ type: "returned", job: "103-1" }]);
    expect(seen(one)).toMatchObject({ reserve: [["102-1"], ["104-1"]], counts: [4, 1] });
    const all = withTaps(view(), [{ type: "reserve", press: "A", on: false }]);
    expect(seen(all)).toMatchObject({ reserve: [[], ["104-1"]], next: ["102-1", "103-1", "105-1"] });
    const down = withTaps(view(), [{ type: "press-down", press: "A" }]);
    expect(seen(down)).toMatchObject({ on: [null, null], reserve: [[], ["104-1"]], counts: [5, 0] });
  });

  it("shows the garment that the stall has answered with before the next look", () => {
    const now = withPulled(view(), "B", job("104-1", "pressing"));
    expect(seen(now)).toMatchObject({
      on: ["101-1", "104-1"],
      reserve: [["102-1", "103-1"], []],
      counts: [3, 2],
    });
    expect(withPulled(now, "B", job("105-1", "pressing"))).toBe(now);
  });
  it("shows what was taken off the menu, counted and kept open before the stall has answered", () => {
    const before = {
      ...view(),
      offMenu: [],
      low: [
        { sku: "tee.navy.L", free: 2, emptyAt: "2027-05-01T14:00:00Z" },
        { sku: "transfer:kite", free: 1, emptyAt: null },
      ],
      intake: {
        open: false,
        lastOrders: true,
        keptOpen: false,
        endsAt: null,
        closes: "2027-05-01T17:00:00Z",
      },
    } as unknown as QueueView; // as above
    const after = withTaps(before, [
      { type: "off-menu", piece: "transfer:kite", name: "Kite", off: true },
      { type: "stock", names: ["Tee"], free: { "tee.navy.L": 12 } },
      { type: "keep-open", open: true },
    ]);
    expect(after.offMenu).toEqual(["transfer:kite"]);
    expect(after.low).toEqual([{ sku: "tee.navy.L", free: 12, emptyAt: null }]);
    expect(after.intake).toMatchObject({ open: true, keptOpen: true, endsAt: "2027-05-01T17:00:00Z" });
    const again = withTaps(before, [{ type: "off-menu", piece: "transfer:kite", name: "Kite", off: false }]);
    expect(again.offMenu).toEqual([]);
  });
});

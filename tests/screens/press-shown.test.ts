/** What the press page shows: the next garments, changes of heat, problems, and the one filled button. */
import { describe, expect, it } from "vitest";
import type { JobView, QueueView } from "../../src/model/orders/queue.ts";
import {
  filledBench,
  heatStep,
  isHot,
  problemsOf,
  standingIn,
  upNext,
} from "../../src/screens/client/press/shown.ts";

const job = (id: string, temperatureFahrenheit: number, platen = "flat"): JobView =>
  ({
    job: id,
    platen,
    settings: { temperatureFahrenheit },
    colourName: "Navy",
    blankName: "Tee",
    sizeName: "L",
    designName: "Otter",
  }) as unknown as JobView; // the rest of a garment plays no part here
type Press = QueueView["presses"][number];
const press = (some: object): Press =>
  ({
    press: "A",
    platen: "flat",
    job: null,
    fahrenheit: null,
    reserve: [],
    downSince: null,
    silentFrom: null,
    ...some,
  }) as unknown as Press; // as above
const queue = (some: object): QueueView =>
  ({ next: [], short: [], notTold: [], presses: [], ...some }) as unknown as QueueView; // as above

describe("what comes next to a press", () => {
  const line = queue({ next: [job("105-1", 365), job("106-1", 365, "cap"), job("107-1", 310)] });
  const reserve = [job("102-1", 310), job("103-1", 365)];

  it("is its reserve, then what waits for its platen", () => {
    const rows = upNext(press({ reserve }), line, null, 9);
    expect(rows.map((row) => [row.job.job, row.reserved])).toEqual([
      ["102-1", true],
      ["103-1", true],
      ["105-1", false],
      ["107-1", false],
    ]);
    expect(upNext(press({ reserve }), line, null, 3)).toHaveLength(3);
  });
  it("says the temperature before and after if a garment needs another than the one before it", () => {
    const rows = upNext(press({ reserve, fahrenheit: 365, job: job("101-1", 310) }), line, null, 4);
    expect(rows.map(({ heat, changes }) => [heat, changes])).toEqual([
      ["310 °F", false],
      ["310 → 365 °F", true],
      ["365 °F", false],
      ["365 → 310 °F", true],
    ]);
    const [first] = upNext(press({ reserve, fahrenheit: 365 }), line, null, 1);
    expect(first).toMatchObject({ heat: "365 → 310 °F", changes: true });
  });
  it("begins with the garment that the operator chose, and with no other if that one is gone", () => {
    const rows = upNext(press({ reserve }), line, "103-1", 3);
    expect(rows.map((row) => [row.job.job, row.chosen])).toEqual([
      ["103-1", true],
      ["102-1", false],
      ["105-1", false],
    ]);
    expect(upNext(press({ reserve }), line, "99-1", 2).map((row) => row.job.job)).toEqual(["102-1", "103-1"]);
  });
});

describe("the heat of a platen", () => {
  it("is not reached before the instant the stall names", () => {
    const setTo = { fahrenheit: 365, aboutMinutes: 4, readyAt: "2027-05-01T13:05:00Z" };
    const ready = Date.parse(setTo.readyAt);
    expect([isHot({ setTo }, ready - 1), isHot({ setTo }, ready), isHot({ setTo: null }, 0)]).toEqual([
      false,
      true,
      true,
    ]);
  });
  it("has an arrow only if it changes from one that is known", () => {
    // 310 °F is 154.4 °C and 365 °F is 185 °C by the definition of the scales, (F - 32) x 5/9.
    expect(heatStep(365, 310)).toBe("365 → 310 °F (154 °C)");
    expect([heatStep(null, 365), heatStep(365, 365)]).toEqual(["365 °F (185 °C)", "365 °F (185 °C)"]);
  });
});

describe("the problems", () => {
  it("name who is to be called out, what is short, and which other press is out of order", () => {
    const presses = [press({ downSince: "x" }), press({ press: "B", downSince: "x" })];
    const now = queue({ notTold: [104], short: [job("109-1", 365)], presses });
    expect(problemsOf(now, ["A"], 0)).toEqual([
      "Call out 104: no text reached them.",
      "109-1 is short: no Navy Tee L, or no Otter transfer.",
      "Press B is out of order.",
    ]);
    expect(problemsOf(queue({}), ["A"], 0)).toEqual([]);
  });
});

describe("a press that stands still while garments wait", () => {
  it("is asked about once it has stood for longer than some garments take, and only then", () => {
    const at = Date.parse("2027-06-12T14:05:00Z");
    const presses = [press({}), press({ press: "B", silentFrom: new Date(at).toISOString() })];
    expect(problemsOf(queue({ presses }), ["A"], at - 1)).toEqual([]);
    expect(problemsOf(queue({ presses }), ["A"], at)).toEqual([
      "Press B stands still while garments wait. If it is out of order, say so under Presses; if a hand left, under Shift.",
    ]);
  });
});

describe("the one filled button", () => {
  it("is at the platen to be opened, else at the garment to press, else at the empty press", () => {
    expect(filledBench(["presses", "opens"])).toBe(1);
    expect(filledBench(["pulls", "presses"])).toBe(1);
    expect(filledBench(["pulls", "waits"])).toBe(0);
    expect(filledBench(["presses", "presses"])).toBe(0);
  });
  it("is nowhere while a dwell runs or the heat is not reached", () => {
    expect(filledBench(["waits", "waits"])).toBeNull();
  });
});

describe("where a tablet stands", () => {
  it("is kept as one press or two, as an earlier page kept its one", () => {
    expect([null, "A", "A B", "A B C"].map(standingIn)).toEqual([[], ["A"], ["A", "B"], ["A", "B"]]);
  });
});

import Papa from "papaparse";
import { h } from "preact";
import render from "preact-render-to-string";
import { expect, it } from "vitest";
import type { Closeout } from "../../src/model/accounts/closeout.ts";
import type { PastDay } from "../../src/model/accounts/past-day.ts";
import {
  booksCsv,
  daysIn,
  fileOf,
  isKnown,
  mistakes,
  pastDay,
  sellsWhere,
  soldThrough,
  taxes,
  together,
} from "../../src/screens/client/fairs/history.ts";
import { Fairs } from "../../src/screens/client/fairs/view.tsx";

const piece = (name: string, pressed: number, left: number, spoiled = {}) => ({
  name,
  pressed,
  left,
  spoiled,
  unitCost: 400,
});
const account = {
  fair: "Low Meadow",
  stall: "Tern & Tide",
  day: "2027-05-01",
  currency: "USD",
  stage: "closed",
  skus: [
    piece("Tee, Navy, M", 12, 8, { scorched: 2 }),
    piece("Tee, Navy, L", 6, 2),
    piece("Tee, Sand, M", 0, 0),
  ],
  transfers: [piece("Otter", 18, 2, { scorched: 2, crooked: 1 })],
  sales: {
    offers: [{ offer: "otter-tee", name: "Otter tee", garments: 18, returned: 1, amount: 45_000 }],
    tenders: [{ tender: "cash", payments: 9, amount: 24_000, returns: 0, givenBack: 0 }],
  },
  money: {
    sales: 45_000,
    difference: 100,
    givenBack: 2500,
    tax: 3100,
    blanks: 8000,
    transfers: 4000,
    fees: 18_000,
    wages: 0,
    cardFees: 300,
    profit: 12_300,
    openHours: 8,
  },
  costs: { blanks: [], transfers: [], fees: [] },
} as unknown as Closeout; // what the history reads of an account
const first = pastDay("low-meadow/tern", account) as PastDay; // it is closed
const second: PastDay = {
  ...first,
  place: "high-hill/tern",
  fair: "High Hill",
  day: "2027-07-03",
  profit: -900,
  offers: [{ name: "Otter tee", garments: 5 }],
  sizes: [{ name: "M", used: 5, left: 15 }],
};
const days = together([first], [second]);

it("keeps a closed day in short, by design, colour and size, with its mistakes at cost", () => {
  expect(pastDay("low-meadow/tern", { ...account, stage: "open" })).toBeNull();
  expect(first.sizes).toEqual([
    { name: "M", used: 12, left: 8 },
    { name: "L", used: 6, left: 2 },
  ]);
  expect(first.colours).toEqual([{ name: "Navy", used: 18, left: 10 }]);
  expect(first.offers).toEqual([{ name: "Otter tee", garments: 17 }]);
  expect(mistakes([first])).toEqual([
    { reason: "scorched", pieces: 4, cost: 1600 },
    { reason: "crooked", pieces: 1, cost: 400 },
  ]);
  expect(pastDay("a/b", { ...account, costs: null })?.profit).toBeNull();
});

it("has each day once, the latest first, and goes through a file and back", () => {
  expect(days.map(({ day }) => day)).toEqual(["2027-07-03", "2027-05-01"]);
  const mended = together(days, [{ ...first, profit: 1 }]);
  expect(mended.map(({ profit }) => profit)).toEqual([-900, 1]);
  expect(isKnown(days, "low-meadow/tern", "2027-05-01")).toBe(true);
  expect(isKnown(days, "low-meadow/tern", "2027-07-03")).toBe(false);
  expect(daysIn(fileOf(days))).toEqual(days);
  expect(daysIn("{}")).toBeNull();
  expect(daysIn("Dear stall")).toBeNull();
});

it("counts what is left after a fair's last day, not between its days", () => {
  const sunday = { ...first, day: "2027-05-02", sizes: [{ name: "M", used: 6, left: 2 }] };
  // By hand: 12 and 6 were pressed, and 2 of those 20 came home.
  expect(soldThrough([first, sunday], "sizes")[0]).toEqual({ name: "M", used: 18, share: 0.9 });
  expect(soldThrough(days, "sizes")[0]).toEqual({ name: "M", used: 17, share: 17 / 40 });
});

it("sums tax by fair and quarter, and garments by product and fair", () => {
  expect(taxes(days)).toEqual([
    { fair: "High Hill", period: "2027, July to September", sales: 42_600, tax: 3100 },
    { fair: "Low Meadow", period: "2027, April to June", sales: 42_600, tax: 3100 },
  ]);
  expect(sellsWhere(days)).toEqual({
    fairs: ["High Hill", "Low Meadow"],
    rows: [{ name: "Otter tee", garments: [5, 17] }],
  });
});

it("gives the bookkeeper a row a day, sums in whole units, and no formula", () => {
  const odd = { ...first, fair: "=1+1" };
  const { data, errors } = Papa.parse<Record<string, string>>(booksCsv([odd, second]), {
    header: true,
    skipEmptyLines: true,
  });
  expect(errors).toEqual([]);
  expect(data[0]).toMatchObject({
    day: "2027-05-01",
    fair: "'=1+1",
    "sales before tax": "450.00",
    "tax collected": "31.00",
    blanks: "80.00",
    "cash, tax included": "240.00",
    "card, tax included": "0.00",
    profit: "123.00",
  });
  expect(data[1]?.["profit"]).toBe("-9.00");
});

it("shows each currency by itself, and says what to do while there is nothing", () => {
  const nothing = () => undefined;
  const actions = { saveFile: nothing, saveBooks: nothing };
  const html = render(
    h(Fairs, { days: together(days, [{ ...second, day: "2027-08-01", currency: "EUR" }]), actions }),
  );
  expect(html).toContain('aria-label="Fairs in EUR"');
  expect(html).toContain('aria-label="Fairs in USD"');
  expect(html).toContain("2027-05-01, Low Meadow, Tern &amp; Tide");
  expect(html).toContain("$114.00");
  expect(render(h(Fairs, { days: [], actions }))).toContain("No day is closed yet");
});

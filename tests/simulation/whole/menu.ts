/** The menu of simulated stalls: little stock, two kinds of platen, and rules that differ by seed. */
import type { Random } from "../../../src/maths/random.ts";
import { Menu } from "../../../src/model/menu/catalogue.ts";
import { StockEntry } from "../../../src/model/orders/stock.ts";

const settings = { dwellSeconds: 10, pressure: "medium", peel: "warm" };
const design = (id: string, kind: string, temperatureFahrenheit: number) => ({
  id,
  name: id,
  kind,
  widthInches: 10,
  heightInches: 10,
  settings: { ...settings, temperatureFahrenheit },
});
const offer = (id: string, name: string, blank: string, of: string) => ({
  id,
  name,
  blank,
  design: of,
  price: 2000,
});

const MENU = Menu.parse({
  currency: "USD",
  blanks: [
    {
      id: "tee",
      name: "Tee",
      platen: "flat",
      colours: [
        { id: "navy", name: "Navy" },
        { id: "sand", name: "Sand" },
      ],
      sizes: [
        { id: "M", name: "M" },
        { id: "L", name: "L", surcharge: 300 },
      ],
    },
    {
      id: "cap",
      name: "Cap",
      platen: "cap",
      colours: [{ id: "black", name: "Black" }],
      sizes: [{ id: "one", name: "one size" }],
    },
  ],
  designs: [design("longtail", "screen-printed", 350), design("kite", "film", 300)],
  offers: [
    offer("longtail-tee", "Longtail", "tee", "longtail"),
    offer("kite-tee", "Kite", "tee", "kite"),
    offer("kite-cap", "Kite cap", "cap", "kite"),
  ],
  wishes: [
    { id: "back-print", name: "Back print", surcharge: 500, seconds: 30, second: {} },
    { id: "kite-back", name: "Kite on the back", second: { design: "kite" } },
    { id: "own", name: "Own garment", surcharge: -400, ownGarment: true },
  ],
  bundles: [
    {
      id: "two-tees",
      name: "Any 2 tees",
      price: 3500,
      takes: [{ offers: ["longtail-tee", "kite-tee"], quantity: 2 }],
    },
    {
      id: "tee-and-cap",
      name: "Tee and cap",
      price: 3600,
      takes: [
        { offers: ["longtail-tee", "kite-tee"], quantity: 1 },
        { offers: ["kite-cap"], quantity: 1 },
      ],
    },
  ],
  presses: [
    { id: "A", platen: "flat", garmentSeconds: 60 },
    { id: "B", platen: "flat", garmentSeconds: 60 },
    { id: "C", platen: "cap", garmentSeconds: 60 },
  ],
});

export const CHOICES = [
  { offer: "longtail-tee", colour: "navy", size: "L" },
  { offer: "longtail-tee", colour: "sand", size: "M" },
  { offer: "kite-tee", colour: "navy", size: "L" },
  { offer: "kite-cap", colour: "black", size: "one" },
] as const;

/** A garment as a counter takes it: now and then with a wish on it. */
export const atCounter = (random: Random): object => ({
  ...random.pick(CHOICES),
  ...(random.chance(0.3)
    ? { wishes: [random.pick(["back-print", "kite-back", "own"])], note: "for ANNA" }
    : {}),
});

export const PIECES = [
  { sku: "tee.navy.L" },
  { sku: "tee.navy.M" },
  { sku: "tee.sand.L" },
  { sku: "tee.sand.M" },
  { sku: "cap.black.one" },
  { design: "longtail" },
  { design: "kite" },
] as const;

/** A menu with the rules of one seed's stall. */
export function menuFor(random: Random): Menu {
  return {
    ...MENU,
    bundles: random.chance(0.6) ? MENU.bundles : undefined,
    rules: {
      ...MENU.rules,
      payment: random.pick(["before-pressing", "before-handover", "not-tracked"] as const),
      holdMinutes: random.pick([1, 3]),
      taxPartsPerMillion: random.pick([0, 72_500]),
      taxInPrice: random.chance(0.5),
      payMinutes: random.pick([3, 20]),
      webHoldPercent: random.pick([20, 60]),
      unclaimedGarments: random.pick([1, 6]),
      claimMinutes: random.pick([5, 15]),
      readyTextSeconds: random.pick([0, 10]),
      lookAhead: random.pick([1, 6]),
      overtakenMost: random.pick([0, 3]),
    },
  };
}

/** What is counted at the start. */
export const openingStock = (random: Random): readonly StockEntry[] =>
  PIECES.map((piece) => StockEntry.parse({ ...piece, counted: random.below(12) }));

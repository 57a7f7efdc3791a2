/** Menus of any shape, and the texts people might send at them, for property tests. */
import fc from "fast-check";
import { Menu } from "../../src/model/menu/catalogue.ts";

const settings = { temperatureFahrenheit: 365, dwellSeconds: 5, pressure: "firm", peel: "hot" };

type Limits = {
  readonly offers: { readonly min: number; readonly max: number };
  readonly letters: { readonly min: number; readonly max: number };
  readonly unit: fc.Arbitrary<string>;
  readonly colours: number;
  readonly sizes: number;
};

/** Names that differ, of the letters given. */
const names = (count: { min: number; max: number }, { letters, unit }: Limits): fc.Arbitrary<string[]> =>
  fc.uniqueArray(
    fc
      .string({ unit, minLength: letters.min, maxLength: letters.max })
      .map((name) => name.trim())
      .filter((name) => name.length >= 1),
    { minLength: count.min, maxLength: count.max, selector: (name) => name.toLowerCase() },
  );

/** A menu with at most these numbers of offers, and of colours and sizes on its two blanks. */
export const anyMenu = (limits: Limits): fc.Arbitrary<Menu> =>
  fc
    .tuple(
      names(limits.offers, limits),
      names({ min: 1, max: limits.colours }, limits),
      fc.integer({ min: 1, max: limits.sizes }),
      fc.constantFrom("USD", "EUR", "JPY", "CHF"),
      fc.integer({ min: 1, max: 9999 }),
      fc.constantFrom("before-pressing", "before-handover", "not-tracked"),
      fc.constantFrom("en", "es"),
    )
    .map(([offers, colours, sizes, currency, price, payment, language]) =>
      Menu.parse({
        currency,
        language,
        blanks: [
          {
            id: "tee",
            name: "Tee",
            platen: "flat",
            colours: colours.map((name, n) => ({ id: `c${n}`, name })),
            sizes: ["XS", "S", "M", "L", "XL", "2XL", "3XL", "4XL"].slice(0, sizes).map((id) => ({
              id,
              name: id,
              ...(id.endsWith("XL") && id !== "XL" ? { surcharge: 300 } : {}),
            })),
          },
          {
            id: "cap",
            name: "Cap",
            platen: "cap",
            colours: colours.slice(0, 2).map((name, n) => ({ id: `c${n}`, name })),
            sizes: [{ id: "one", name: "One size" }],
          },
        ],
        designs: offers.map((name, n) => ({
          id: `d${n}`,
          name,
          kind: "film",
          widthInches: 4,
          heightInches: 3,
          settings,
        })),
        offers: offers.map((name, n) => ({
          id: `o${n}`,
          name,
          blank: n % 3 === 2 ? "cap" : "tee",
          design: `d${n}`,
          price,
        })),
        presses: [
          { id: "A", platen: "flat" },
          { id: "B", platen: "cap" },
        ],
        rules: { payment, contact: "tern@brackenfield.example", textsPerMinute: 120 },
      }),
    );

const WORDS = [
  "menu",
  "1",
  "2",
  "3",
  "4",
  "9",
  "0",
  "12",
  "1 1 2",
  "1 c0 L x2",
  "3 1",
  "yes",
  "no",
  "add",
  "change",
  "back",
  "more",
  "status",
  "help",
  "drop",
  "sizes",
  "thanks",
  "hola",
  "hello",
  "2 tees",
  "L",
  "x2",
  "x7",
  "1 1 1 + 2 1 2 + 3 1",
  "1 1 1\n1 1 2\n1 1 3",
  "lol",
  "tee",
  "2x",
  "kids",
  "si",
  "127",
  "drop 101",
  "1 1 1 print on the back",
  "with my name JAKE please",
];

/** Texts that go somewhere in a conversation, among texts that go nowhere. */
export const anyText: fc.Arbitrary<string> = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(...WORDS) },
  { weight: 1, arbitrary: fc.string({ unit: "binary", maxLength: 60 }) },
  {
    weight: 1,
    arbitrary: fc.array(fc.constantFrom(...WORDS), { maxLength: 6 }).map((words) => words.join(" ")),
  },
);

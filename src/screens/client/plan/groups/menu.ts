/** The figures about what is sold: offers, blanks in their colours and sizes, designs, and stock owned already. */

import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import type { Choice, Field } from "../field.ts";
import type { Group } from "../form.ts";
import type { Row, Rows } from "../rows.ts";
import { NAMES, SEVERAL, SHORT, WORDS } from "../writings.ts";
import { field, freeName, idsOf, rowsOf, wordAt } from "./names.ts";

export function menuGroups(request: Json): readonly Group[] {
  const currency = wordAt(request, "#/currency", "USD");
  const each = `${currency} each`;
  return [
    { legend: "What is sold", rows: [offers(request, currency)] },
    {
      legend: "Blanks: colours, sizes, cost",
      rows: [
        {
          pointer: "#/blanks",
          one: "a blank",
          fresh: {
            id: freeName(request, "#/blanks", "blank"),
            name: "New blank",
            platen: "flat",
            cost: 4,
            colours: [{ id: "navy", share: 1 }],
            sizes: [{ id: "L", share: 1 }],
          },
          each: rowsOf(request, "#/blanks").map((row) => blank(request, row, each)),
        },
      ],
      closer: true,
    },
    {
      legend: "Designs and their transfers",
      closer: true,
      rows: [
        {
          pointer: "#/designs",
          one: "a design",
          fresh: { id: freeName(request, "#/designs", "design"), name: "New design", cost: 2 },
          each: rowsOf(request, "#/designs").map(({ at, name }) => ({
            at,
            name,
            digest: wordAt(request, `${at}/cost`),
            fields: [
              ...named(at),
              field(`${at}/cost`, "One transfer", "Printed, with freight.", { unit: each }),
              field(`${at}/setUpCost`, "Set-up", "Paid if the design is brought at all.", {
                unit: `${currency} once`,
                more: true,
              }),
              leftover(at, "0 for a design with a date on it."),
              ...stockOf(at),
            ],
          })),
        },
      ],
    },
    {
      legend: "Stock you own, and what you must or may bring",
      closer: true,
      rows: [
        {
          pointer: "#/skus",
          one: "a line",
          fresh: { sku: firstSku(request), owned: 0 },
          short: true,
          help: "Only what differs for one blank in one colour and size, written tee.navy.L.",
          each: rowsOf(request, "#/skus", "sku").map(({ at, name }) => ({
            at,
            name,
            fields: [
              field(`${at}/sku`, "Sku", "blank.colour.size", { writing: WORDS }),
              ...stockOf(at),
              field(`${at}/cost`, "Cost", "Empty for the blank's own.", { unit: each }),
            ],
          })),
        },
      ],
    },
  ];
}

const named = (at: string): Field[] => [
  field(`${at}/name`, "Name", "As people say it.", { writing: WORDS, settles: true }),
  field(`${at}/id`, "Short name", "For stock sheets: small letters, digits, hyphens.", {
    writing: SHORT,
    settles: true,
  }),
];

const leftover = (at: string, help: string): Field =>
  field(`${at}/leftoverWorth`, "Worth when left over", help, { unit: "share of cost", more: true });

const stockOf = (at: string): Field[] => [
  field(`${at}/owned`, "Owned", "Paid for already; empty for none.", { unit: "pieces" }),
  field(`${at}/minimum`, "At least", "Empty for no limit.", { unit: "pieces" }),
  field(`${at}/maximum`, "At most", "Empty for no limit.", { unit: "pieces" }),
];

const firstSku = (request: Json): string =>
  ["id", "colours/0/id", "sizes/0/id"].map((part) => wordAt(request, `#/blanks/0/${part}`, "x")).join(".");

/** How demand may be stated instead of taken from the crowd, and what each way starts as. */
const STATED: readonly Choice[] = [
  ["as a share of the crowd's orders", undefined],
  ["as a mean and a deviation", { kind: "normal", mean: 40, deviation: 12 }],
  ["as a mean, chance doing the rest", { kind: "poisson", mean: 40 }],
  ["as a mean, more uncertain than chance", { kind: "negative-binomial", mean: 40, deviation: 15 }],
  ["as least and most, all as likely", { kind: "uniform", low: 20, high: 60 }],
  ["by what sold on earlier days", { kind: "observed", days: [30, 40, 50] }],
  [
    "by a table of chances",
    {
      kind: "table",
      rows: [
        { garments: 30, chance: 0.5 },
        { garments: 50, chance: 0.5 },
      ],
    },
  ],
];
const KINDS = [undefined, "normal", "poisson", "negative-binomial", "uniform", "observed", "table"];

function offers(request: Json, currency: string): Rows {
  const blanks = idsOf(request, "#/blanks");
  return {
    pointer: "#/offers",
    one: "an offer",
    fresh: {
      id: freeName(request, "#/offers", "offer"),
      name: "New offer",
      blank: wordAt(request, "#/blanks/0/id"),
      ...(rowsAt(request, "#/designs").length > 0 ? { design: wordAt(request, "#/designs/0/id") } : {}),
      price: 25,
      share: 0,
    },
    help: "A design on a blank at a price. The shares of orders together make 1, or 100 %.",
    each: rowsOf(request, "#/offers").map(({ at, name }): Row => {
      const kind = KINDS.indexOf(wordAt(request, `${at}/demand/kind`) || undefined);
      const share = wordAt(request, `${at}/share`);
      return {
        at,
        name,
        digest: `${wordAt(request, `${at}/price`)}${share === "" ? ", demand stated" : `, share ${share}`}`,
        fields: [
          ...named(at),
          field(`${at}/blank`, "Blank", "What it is pressed on.", { choices: blanks }),
          field(`${at}/design`, "Design", "Or none, for a blank sold as it is.", {
            choices: [...idsOf(request, "#/designs"), ["none", undefined]],
          }),
          field(`${at}/price`, "Price", "What a customer is charged for one.", { unit: currency }),
          field(
            `${at}/demand`,
            "Demand is given",
            "Stated, with stock of its own, it is planned by itself.",
            {
              choices: STATED,
              chosen: Math.max(0, kind),
              rebuilds: true,
            },
          ),
          ...(kind > 0
            ? statedFields(request, at)
            : [
                field(`${at}/share`, "Chosen by", "All offers together make 1, or 100 %.", {
                  unit: "share of orders",
                }),
              ]),
          field(`${at}/colours`, "Only in colours", "With commas; empty for all of the blank's.", {
            writing: NAMES,
            more: true,
          }),
          field(`${at}/sizes`, "Only in sizes", "With commas; empty for all of the blank's.", {
            writing: NAMES,
            more: true,
          }),
        ],
        rows:
          KINDS[kind] === "table"
            ? [
                {
                  pointer: `${at}/demand/rows`,
                  one: "a chance",
                  fresh: { garments: 60, chance: 0 },
                  short: true,
                  each: rowsOf(request, `${at}/demand/rows`, "garments").map(
                    ({ at: place, name: garments }) => ({
                      at: place,
                      name: `${garments} garments`,
                      fields: [
                        field(`${place}/garments`, "Asked for", "In the day.", { unit: "garments" }),
                        field(`${place}/chance`, "Chance", "All make 1, or 100 %.", {
                          unit: "share of days",
                        }),
                      ],
                    }),
                  ),
                },
              ]
            : [],
      };
    }),
  };
}

function statedFields(request: Json, at: string): Field[] {
  const demand = `${at}/demand`;
  const unit = "garments in the day";
  const has = (name: string) => valueAt(request, `${demand}/${name}`) !== undefined;
  return [
    ...(has("mean") ? [field(`${demand}/mean`, "Mean", "Garments asked for in a mean day.", { unit })] : []),
    ...(has("deviation")
      ? [field(`${demand}/deviation`, "Deviation", "How far days stray from the mean.", { unit })]
      : []),
    ...(has("low") ? [field(`${demand}/low`, "Least", "Never fewer.", { unit })] : []),
    ...(has("high") ? [field(`${demand}/high`, "Most", "Never more.", { unit })] : []),
    ...(has("days")
      ? [
          field(`${demand}/days`, "Earlier days", "One figure a day, with commas.", {
            unit,
            writing: SEVERAL,
          }),
        ]
      : []),
  ];
}

function blank(
  request: Json,
  { at, name }: { readonly at: string; readonly name: string },
  each: string,
): Row {
  const choices = (
    list: "colours" | "sizes",
    one: string,
    fresh: Json,
    more: (place: string) => Field[],
  ): Rows => ({
    pointer: `${at}/${list}`,
    one,
    fresh,
    short: true,
    help: `${list === "colours" ? "Colours" : "Sizes"} of ${name}. Their shares together make 1, or 100 %.`,
    each: rowsOf(request, `${at}/${list}`, "id").map(({ at: place, name: called }) => ({
      at: place,
      name: called,
      fields: [
        field(`${place}/id`, list === "colours" ? "Colour" : "Size", "As stock sheets write it.", {
          writing: list === "colours" ? SHORT : WORDS,
        }),
        field(`${place}/share`, "Wanted by", "Of all who ask.", { unit: "share of askers" }),
        ...more(place),
      ],
    })),
  });
  return {
    at,
    name,
    digest: wordAt(request, `${at}/cost`),
    fields: [
      ...named(at),
      field(`${at}/platen`, "Pressed on", "The kind of press it needs.", {
        choices: [
          ["a flat press", "flat"],
          ["a cap press", "cap"],
        ],
      }),
      field(`${at}/cost`, "Cost", "Undecorated, with freight.", { unit: each }),
      field(
        `${at}/casePack`,
        "Sold in packs of",
        "Of one colour and size; 1 where any number can be bought.",
        {
          unit: "pieces",
        },
      ),
      field(`${at}/perCarton`, "In one carton", "For the packing list and the van.", { unit: "pieces" }),
      leftover(at, "A blank keeps most of its cost for the next fair."),
    ],
    rows: [
      choices("colours", "a colour", { id: "new-colour", share: 0 }, () => []),
      choices("sizes", "a size", { id: "4XL", share: 0 }, (place) => [
        field(`${place}/cost`, "Cost", "Empty for the blank's own.", { unit: each }),
      ]),
    ],
  };
}

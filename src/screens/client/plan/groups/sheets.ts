/** The figures of a request for gang sheets: designs, sizes of sheet with their prices, and the question. */

import { type Json, valueAt } from "../../kit/json-pointer.ts";
import type { FromPlan } from "../day/parts.ts";
import type { Group } from "../form/form.tsx";
import type { Row } from "../form/rows.tsx";
import { inMinorUnits, WORDS } from "../form/writings.ts";
import { field, freeName, rowsOf, wordAt } from "./names.ts";

export function sheetGroups(request: Json, given: FromPlan, currency: string): readonly Group[] {
  const unit = wordAt(request, "#/unit", "in");
  const money = { writing: inMinorUnits(currency) };
  return [
    {
      legend: "Designs",
      essential: true,
      rows: [
        {
          pointer: "#/designs",
          one: "a design that the plan does not have",
          short: true,
          fresh: {
            id: freeName(request, "#/designs", "other"),
            name: "Another design",
            width: 8,
            height: 8,
            count: 12,
          },
          help: "The plan's designs with the size of their printed art. The plan sets the counts.",
          each: rowsOf(request, "#/designs").map(({ at, name }) => {
            const wanted = given.transfers.get(wordAt(request, `${at}/id`));
            return {
              at,
              name,
              fields: [
                field(`${at}/width`, `${name}, width`, "Of the printed art.", { unit }),
                field(`${at}/height`, "Height", "Of the printed art.", { unit }),
                field(`${at}/count`, "Wanted", "Printed transfers.", {
                  unit: "transfers",
                  fromPlan: wanted?.count,
                  more: wanted !== undefined,
                }),
                field(`${at}/mayTurn`, "May it turn?", "Lie on its side on the sheet.", {
                  choices: [
                    ["yes", undefined],
                    ["no", false],
                  ],
                  chosen: valueAt(request, `${at}/mayTurn`) === false ? 1 : 0,
                  more: true,
                }),
                field(
                  `${at}/valueOfOneMore`,
                  "One more is worth",
                  "Spare room goes where this is most; empty for nothing.",
                  { unit: currency, ...money, fromPlan: wanted?.oneMore, more: true },
                ),
              ],
            };
          }),
        },
      ],
    },
    {
      legend: "Sheets that can be bought",
      fields: [
        field("#/unit", "Lengths are in", "All lengths of this part.", {
          choices: [
            ["inches", "in"],
            ["centimetres", "cm"],
          ],
        }),
        field("#/extraLayoutPrice", "Every further layout", "Set-up of each layout after the first.", {
          unit: `${currency} once`,
          ...money,
        }),
        field("#/cuts", "How you cut", "A straight trimmer cuts from edge to edge only.", {
          choices: [
            ["straight trimmer", "guillotine"],
            ["scissors or blade", "free"],
          ],
        }),
        ...question(request, currency),
      ],
      rows: [
        {
          pointer: "#/sheets",
          one: "a sheet size",
          fresh: {
            id: freeName(request, "#/sheets", "sheet"),
            name: "New sheet",
            width: unit === "cm" ? 30 : 12,
            height: unit === "cm" ? 40 : 16,
            margin: unit === "cm" ? 0.6 : 0.25,
            gap: unit === "cm" ? 0.6 : 0.25,
            prices: [{ copies: 1, price: 0 }],
          },
          each: rowsOf(request, "#/sheets").map((row) => sheet(request, row, unit, currency)),
        },
      ],
    },
  ];
}

function sheet(
  request: Json,
  { at, name }: { readonly at: string; readonly name: string },
  unit: string,
  currency: string,
): Row {
  return {
    at,
    name,
    digest: `${wordAt(request, `${at}/width`)} × ${wordAt(request, `${at}/height`)} ${unit}`,
    fields: [
      field(`${at}/name`, "Name", "As the print house calls it.", { writing: WORDS, settles: true }),
      field(`${at}/width`, "Width", "Of the whole sheet.", { unit }),
      field(`${at}/height`, "Height", "Of the whole sheet.", { unit }),
      field(`${at}/margin`, "Margin", "Kept clear along every edge.", { unit }),
      field(`${at}/gap`, "Gap", "Kept between pieces, for the blade.", { unit }),
      field(`${at}/minimumCopies`, "Fewest copies", "Of one layout that can be ordered; empty for 1.", {
        unit: "sheets",
      }),
    ],
    rows: [
      {
        pointer: `${at}/prices`,
        one: "a price",
        fresh: { copies: 50, price: 0 },
        short: true,
        help: "Price of a sheet by the copies of one layout, in rising order.",
        each: rowsOf(request, `${at}/prices`, "copies").map(({ at: place, name: copies }) => ({
          at: place,
          name: `price from ${copies}`,
          fields: [
            field(`${place}/copies`, "From", "Copies of one layout.", { unit: "copies" }),
            field(`${place}/price`, "Price", "Of each sheet.", {
              unit: currency,
              writing: inMinorUnits(currency),
            }),
          ],
        })),
      },
    ],
  };
}

const ASKS = [{ ask: "least-cost" }, { ask: "affordable", sheets: 40 }, { ask: "affordable", money: 50_000 }];

function question(request: Json, currency: string) {
  const has = (name: string) => valueAt(request, `#/question/${name}`) !== undefined;
  const chosen = wordAt(request, "#/question/ask") !== "affordable" ? 0 : has("money") ? 2 : 1;
  return [
    field("#/question", "What to work out", "With a limit, the best mix for it.", {
      choices: [
        ["the cheapest order that has them all", ASKS[0]],
        ["the best mix for so many sheets", ASKS[1]],
        ["the best mix for so much money", ASKS[2]],
      ],
      chosen,
    }),
    ...(chosen === 1
      ? [field("#/question/sheets", "Sheets you can afford", "In all layouts together.", { unit: "sheets" })]
      : []),
    ...(chosen === 2
      ? [
          field("#/question/money", "Money you can spend", "On sheets and their set-up.", {
            unit: currency,
            writing: inMinorUnits(currency),
          }),
        ]
      : []),
  ];
}

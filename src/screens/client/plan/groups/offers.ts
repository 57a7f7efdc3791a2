/** The fields of offers: price, share of the crowd, and demand that is stated instead. */
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import type { Choice, Field } from "../form/field.tsx";
import type { Row, Rows } from "../form/rows.tsx";
import { NAMES, SEVERAL } from "../form/writings.ts";
import { field, freeName, idsOf, named, rowsOf, wordAt } from "./names.ts";

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
export function firstGarment(request: Json): {
  readonly offer: string;
  readonly colour: string;
  readonly size: string;
} {
  const blank = rowsAt(request, "#/blanks").find(
    (row) => wordAt(row, "#/id") === wordAt(request, "#/offers/0/blank"),
  );
  const first = (list: string): string => wordAt(blank ?? null, `#/${list}/0/id`, "x");
  return { offer: wordAt(request, "#/offers/0/id"), colour: first("colours"), size: first("sizes") };
}
/** At a fair of several days: the days that a design is asked for on. */
export function askedOn(request: Json, at: string): Field[] {
  const days = rowsOf(request, "#/days");
  if (days.length < 2) return [];
  return [
    field(`${at}/onlyOnDays`, "Asked for on", "A design with a day in its art sells on that day.", {
      choices: [["every day", undefined], ...days.map(({ name }, day): Choice => [name, [day + 1]])],
      chosen: Number(wordAt(request, `${at}/onlyOnDays/0`, "0")),
      more: true,
    }),
  ];
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
export function offers(request: Json, currency: string): Rows {
  const blanks = idsOf(request, "#/blanks");
  return {
    pointer: "#/offers",
    one: "a product",
    short: true,
    fresh: {
      id: freeName(request, "#/offers", "offer"),
      name: "New product",
      blank: wordAt(request, "#/blanks/0/id"),
      ...(rowsAt(request, "#/designs").length > 0 ? { design: wordAt(request, "#/designs/0/id") } : {}),
      price: 25,
      share: 1,
    },
    help: "Products: a design on a blank at a price.",
    each: rowsOf(request, "#/offers").map(({ at, name }): Row => {
      const kind = KINDS.indexOf(wordAt(request, `${at}/demand/kind`) || undefined);
      return {
        at,
        name,
        fields: [
          ...named(at),
          field(`${at}/price`, "Price", "What a customer is charged for one.", { unit: currency }),
          field(`${at}/blank`, "Blank", "What it is pressed on.", { choices: blanks, more: true }),
          field(`${at}/design`, "Design", "Or none, for a blank sold as it is.", {
            choices: [...idsOf(request, "#/designs"), ["none", undefined]],
            more: true,
          }),
          field(
            `${at}/demand`,
            "Demand is given",
            "Stated, with stock of its own, it is planned by itself.",
            {
              choices: STATED,
              chosen: Math.max(0, kind),
              more: true,
            },
          ),
          ...(kind > 0
            ? statedFields(request, at).map((one) => ({ ...one, more: true }))
            : [
                field(`${at}/share`, "Chosen by", "Only how it compares with the other products counts.", {
                  unit: "share of orders",
                  more: true,
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
                        field(`${place}/chance`, "Chance", "Only how it compares counts.", {
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

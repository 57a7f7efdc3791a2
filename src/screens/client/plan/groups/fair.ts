/** The figures about who comes: the fair, its crowd by hour and weather, and how much one order holds. */

import { type Json, valueAt } from "../../kit/json-pointer.ts";
import type { Field } from "../form/field.tsx";
import type { Group } from "../form/form.tsx";
import { WORDS } from "../form/writings.ts";
import { field, rowsOf, wordAt, YES_NO } from "./names.ts";

export function fairGroups(request: Json): readonly Group[] {
  const kind = wordAt(request, "#/traffic/kind", "total");
  return [
    {
      legend: "The fair",
      essential: true,
      fields: theFair(request, kind),
      rows: kind === "hourly" ? [hourly(request)] : [],
    },
    { legend: "How sure, and how many buy", fields: howSure(request, kind) },
    {
      legend: "A fair of several days",
      fields:
        rowsOf(request, "#/days").length < 2
          ? []
          : [
              field("#/restockOvernight", "Restock overnight?", "Then each day begins with the full stock.", {
                choices: YES_NO,
              }),
            ],
      rows: [
        {
          pointer: "#/days",
          one: "a day",
          fresh: { name: `Day ${rowsOf(request, "#/days").length + 1}`, crowd: 1 },
          short: true,
          optional: true,
          help: "Empty for one day. The stock is for all days; fees are paid once, wages each day.",
          each: rowsOf(request, "#/days").map(({ at, name }) => ({
            at,
            name,
            fields: [
              field(`${at}/name`, "Day", "What you call it.", { writing: WORDS }),
              field(`${at}/crowd`, "Crowd", "1 is the crowd above, 0.5 half of it.", {
                unit: "times the usual",
              }),
            ],
          })),
        },
      ],
    },
    {
      legend: "The crowd by hour and by weather",
      rows: [
        ...(kind === "hourly" ? [] : [profile(request)]),
        {
          pointer: "#/weather",
          one: "a weather",
          fresh: { name: "windy", chance: 0, crowd: 0.8 },
          short: true,
          help: "Weathers that may be. Only how they compare counts: 7, 2, 1 is as good as 70 %, 20 %, 10 %.",
          each: rowsOf(request, "#/weather").map(({ at, name }) => ({
            at,
            name,
            fields: [
              field(`${at}/name`, "Weather", "What you call it."),
              field(`${at}/chance`, "Chance", "Of all days.", { unit: "share of days" }),
              field(`${at}/crowd`, "Crowd", "1 is the crowd above, 0.5 half of it.", {
                unit: "times the usual",
              }),
            ],
          })),
        },
      ],
    },
    {
      legend: "How people order",
      fields: [
        field("#/buying/bunching", "Rushes", "0.25 is usual; 0 where every hour keeps to its share.", {
          unit: "how far an hour strays from its share",
        }),
        field(
          "#/buying/sureness",
          "Sure of what they choose",
          "60 where you guess; more where you have counted.",
          {
            unit: "orders it is worth",
          },
        ),
      ],
      rows: [
        {
          pointer: "#/buying/garmentsPerOrder",
          one: "an order size",
          fresh: { garments: 4, share: 0 },
          short: true,
          help: "How many garments one customer takes. Only how the shares compare counts.",
          each: rowsOf(request, "#/buying/garmentsPerOrder", "garments").map(({ at, name }) => ({
            at,
            name: `orders of ${name}`,
            fields: [
              field(`${at}/garments`, "In one order", "1 to 12.", { unit: "garments" }),
              field(`${at}/share`, "Share", "Of all orders.", { unit: "share of orders" }),
            ],
          })),
        },
      ],
    },
  ];
}

/** A figure given once, or as low, likely and high: the likely one, which everybody gives. */
function likely(request: Json, pointer: string, label: string, unit: string, help: string): Field {
  const value = valueAt(request, pointer);
  const at = typeof value === "object" && value !== null ? `${pointer}/likely` : pointer;
  // Low and high move along with it, once it is typed.
  return field(at, label, help, { unit, settles: at !== pointer });
}

/** Whether low and high are known, and their values. */
function spread(request: Json, pointer: string, what: string, unit: string, usual: string): Field[] {
  const value = valueAt(request, pointer);
  const isRange = typeof value === "object" && value !== null;
  const middle = isRange ? valueAt(request, `${pointer}/likely`) : value;
  const range: Json = { low: middle ?? 0, likely: middle ?? 0, high: middle ?? 0 };
  return [
    field(
      pointer,
      `${what}: how sure`,
      "1 day in 20 is below the low figure, and 1 in 20 above the high one.",
      {
        choices: [
          [usual, middle],
          ["from low to high", range],
        ],
        chosen: isRange ? 1 : 0,
      },
    ),
    ...(isRange
      ? [
          field(`${pointer}/low`, `${what}, low`, "Only 1 day in 20 is quieter.", { unit }),
          field(`${pointer}/high`, `${what}, high`, "Only 1 day in 20 is busier.", { unit }),
        ]
      : []),
  ];
}

const TOTAL = { kind: "total", passersBy: { low: 2600, likely: 4200, high: 6000 } };
const HOURLY = {
  kind: "hourly",
  hours: [10, 11, 12, 13, 14, 15, 16, 17].map((hour) => ({ from: `${hour}:00`, passersBy: 500 })),
};

const theFair = (request: Json, kind: string): Field[] => [
  field("#/name", "Fair", "What this plan is called.", { writing: WORDS }),
  field("#/day", "Day", "Printed on your lists; may stay empty.", { entry: "date", writing: WORDS }),
  field("#/opens", "Opens", "Hours and crowd by hour move with it.", {
    entry: "time",
    settles: true,
    writing: WORDS,
  }),
  field("#/closes", "Closes", "Local time.", { entry: "time", settles: true, writing: WORDS }),
  ...(kind === "hourly"
    ? []
    : [
        likely(
          request,
          "#/traffic/passersBy",
          "People at the fair",
          "who pass your pitch",
          "Ask the organiser, and last year's stalls.",
        ),
      ]),
];

const howSure = (request: Json, kind: string): Field[] => [
  likely(
    request,
    "#/buying/share",
    "Share who buy",
    "orders per passer-by",
    "3 % if you have nothing to go by; your own earlier fairs are better.",
  ),
  ...spread(request, "#/buying/share", "Share who buy", "orders per passer-by", "give or take a fifth"),
  ...(kind === "hourly"
    ? []
    : spread(request, "#/traffic/passersBy", "People", "people in the day", "from 70 % to 140 % of it")),
  field("#/newFair", "First time at this fair?", "Then the crowd is less certain.", {
    choices: YES_NO,
  }),
  field("#/traffic", "Foot traffic figures", "By hour: from your own counts, or the organiser's.", {
    choices: [
      ["for the whole day", TOTAL],
      ["for every hour", HOURLY],
    ],
    chosen: kind === "hourly" ? 1 : 0,
  }),
  field("#/currency", "Money", "ISO 4217 code of all sums here: USD, EUR, GBP …", {
    unit: "three letters",
    settles: true,
  }),
];

const profile = (request: Json) => ({
  pointer: "#/traffic/profile",
  one: "an hour",
  fresh: { from: "18:00", share: 0 },
  short: true,
  optional: true,
  help: "How the day's crowd is spread. Only how the shares compare counts.",
  each: rowsOf(request, "#/traffic/profile", "from").map(({ at, name }) => ({
    at,
    name: `from ${name}`,
    fields: [
      field(`${at}/from`, "From", "Until the next.", { unit: "24-hour clock" }),
      field(`${at}/share`, "Crowd", "Of all passers-by.", { unit: "share of the day" }),
    ],
  })),
});

const hourly = (request: Json) => ({
  pointer: "#/traffic/hours",
  one: "an hour",
  fresh: { from: "18:00", passersBy: 300 },
  short: true,
  each: rowsOf(request, "#/traffic/hours", "from").map(({ at, name }) => ({
    at,
    name: `from ${name}`,
    fields: [
      field(`${at}/from`, "From", "Until the next.", { unit: "24-hour clock" }),
      likely(request, `${at}/passersBy`, "Passers-by", "people", "Who walk past the pitch."),
    ],
  })),
});

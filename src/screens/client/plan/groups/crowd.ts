/** The figures about who comes: the fair, its crowd by hour and weather, and how much one order holds. */

import { type Json, valueAt } from "../../kit/json-pointer.ts";
import type { Field } from "../field.ts";
import type { Group } from "../form.ts";
import { field, rowsOf, wordAt, YES_NO } from "./names.ts";

export function crowdGroups(request: Json): readonly Group[] {
  const kind = wordAt(request, "#/traffic/kind", "total");
  return [
    { legend: "The fair and its crowd", fields: theFair(request, kind) },
    {
      legend: "The crowd by hour and by weather",
      closer: true,
      rows: [
        kind === "hourly" ? hourly(request) : profile(request),
        {
          pointer: "#/weather",
          one: "a weather",
          fresh: { name: "windy", chance: 0, crowd: 0.8 },
          short: true,
          help: "Weathers that may be. Their chances together make 1, or 100 %.",
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
      closer: true,
      fields: [
        field("#/buying/bunching", "Rushes", "0.25 is usual; 0 where every hour keeps to its share.", {
          unit: "deviation of an hour's factor",
        }),
        field(
          "#/buying/sureness",
          "Sureness of what they choose",
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
          help: "How many garments one customer takes. The shares together make 1, or 100 %.",
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

/** A figure that may be given once, or as low, likely and high. */
function range(request: Json, pointer: string, label: string, unit: string, help: string): Field[] {
  const value = valueAt(request, pointer);
  if (typeof value !== "object" || value === null) return [field(pointer, label, help, { unit })];
  return [
    field(`${pointer}/low`, `${label}, low`, `${help} Fewer only one day in twenty.`, { unit }),
    field(`${pointer}/likely`, `${label}, likely`, "As often more as less.", { unit }),
    field(`${pointer}/high`, `${label}, high`, "More only one day in twenty.", { unit }),
  ];
}

const TOTAL = { kind: "total", passersBy: { low: 2600, likely: 4200, high: 6000 } };
const HOURLY = {
  kind: "hourly",
  hours: [10, 11, 12, 13, 14, 15, 16, 17].map((hour) => ({ from: `${hour}:00`, passersBy: 500 })),
};

const theFair = (request: Json, kind: string): Field[] => [
  field("#/name", "Fair", "What this plan is called."),
  field("#/currency", "Money", "ISO 4217 code of all sums here: USD, EUR, GBP …", {
    unit: "three letters",
    settles: true,
  }),
  field("#/opens", "Opens", "Local time, such as 10:00.", { unit: "24-hour clock" }),
  field("#/closes", "Closes", "Local time, such as 18:00.", { unit: "24-hour clock" }),
  field("#/traffic", "The crowd is known", "By hour: from your own counts, or the organiser's.", {
    choices: [
      ["for the whole day", TOTAL],
      ["for every hour", HOURLY],
    ],
    chosen: kind === "hourly" ? 1 : 0,
    rebuilds: true,
  }),
  ...(kind === "hourly"
    ? []
    : range(
        request,
        "#/traffic/passersBy",
        "Passers-by",
        "people in the day",
        "Ask the organiser and last year's stalls.",
      )),
  ...range(
    request,
    "#/buying/share",
    "Who stop and buy",
    "orders per passer-by",
    "A share such as 3.6 %, from your own earlier fairs.",
  ),
  field("#/newFair", "New to all of you?", "A fair nobody of the crew has been at is less certain.", {
    choices: YES_NO,
  }),
];

const profile = (request: Json) => ({
  pointer: "#/traffic/profile",
  one: "an hour",
  fresh: { from: "18:00", share: 0 },
  short: true,
  optional: true,
  help: "How the day's crowd is spread. The shares together make 1, or 100 %.",
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
      ...range(request, `${at}/passersBy`, "Passers-by", "people", "Who walk past the pitch."),
    ],
  })),
});

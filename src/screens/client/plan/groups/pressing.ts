/** How the stall presses: its presses, how long people wait, what spoils, and what printing ahead would take. */

import { type Json, rowsAt } from "../../kit/json-pointer.ts";
import type { Field } from "../form/field.tsx";
import type { Group } from "../form/form.tsx";
import { field, rowsOf, wordAt } from "./names.ts";

export function pressingGroups(request: Json): readonly Group[] {
  return [
    {
      legend: "Your presses",
      essential: true,
      rows: [
        {
          pointer: "#/presses",
          one: "a kind of press",
          fresh: {
            platen: rowsAt(request, "#/presses").length > 0 ? "cap" : "flat",
            count: 1,
            garmentsPerHour: 40,
          },
          short: true,
          help: "Without any, pressing is taken to be no limit.",
          each: rowsOf(request, "#/presses", "platen").map(({ at, name }) => ({
            at,
            name: `${name} presses`,
            fields: [
              field(`${at}/platen`, "Kind", "Of platen.", {
                choices: [
                  ["flat", "flat"],
                  ["cap", "cap"],
                ],
              }),
              field(`${at}/count`, "Presses", "That run at the same time.", { unit: "machines" }),
              field(`${at}/garmentsPerHour`, "One makes", "With the hands that serve it.", {
                unit: "garments an hour",
              }),
            ],
          })),
        },
      ],
    },
    {
      legend: "Patience, spoilage and printing ahead",
      fields: pressing(wordAt(request, "#/currency", "USD")),
    },
  ];
}

const pressing = (currency: string): Field[] => [
  field("#/patienceMinutes", "Patience", "Half of the customers wait no longer than this.", {
    unit: "minutes",
  }),
  field("#/spoilage", "Spoiled", "Takes the blank and its transfer.", { unit: "share of garments" }),
  field("#/substitution/anotherColour", "Would switch colour", "Of buyers whose colour is sold out.", {
    unit: "share of askers",
  }),
  field("#/substitution/anotherDesign", "Would switch design", "Of buyers whose design is sold out.", {
    unit: "share of askers",
  }),
  field(
    "#/substitution/anotherSize",
    "Would take the next size",
    "Larger or smaller, if theirs is sold out; the rest walk away.",
    { unit: "share of askers", more: true },
  ),
  field(
    "#/ahead/peopleAtFair",
    "Crew if nothing is pressed there",
    "Needed at the fair when all is printed ahead.",
    {
      unit: "people",
    },
  ),
  field("#/ahead/perGarment", "Decorating one beforehand", "Work at home or a print house's charge.", {
    unit: `${currency} each`,
  }),
  field(
    "#/ahead/leftoverWorth",
    "Decorated and left over",
    "What one that comes home is worth; 0 if dated.",
    {
      unit: "share of cost",
    },
  ),
];

/** The day's costs, its limits, and the lessons of earlier fairs. */

import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import type { Field } from "../form/field.tsx";
import type { Group } from "../form/form.tsx";
import { WORDS } from "../form/writings.ts";
import { field, rowsOf, wordAt, YES_NO } from "./names.ts";

export function costGroups(request: Json): readonly Group[] {
  const currency = wordAt(request, "#/currency", "USD");
  const fixed = rowsOf(request, "#/costs/fixed");
  return [
    {
      legend: "What the day costs",
      essential: true,
      fields: [
        ...fixed.map(({ at, name }) =>
          field(`${at}/cost`, name, "For the day, whatever is sold.", { unit: currency }),
        ),
        field("#/limits/budget", "Money for stock", "For blanks and transfers; empty for no limit.", {
          unit: currency,
        }),
      ],
    },
    {
      legend: "More costs, and what they are called",
      rows: [
        {
          pointer: "#/costs/fixed",
          one: "a cost",
          fresh: { name: "New cost", cost: 0, kind: "other" },
          short: true,
          help: "Their sums are typed above.",
          each: fixed.map(({ at, name }) => ({
            at,
            name,
            fields: [
              field(`${at}/name`, "For", "What you call it.", { writing: WORDS, settles: true }),
              field(`${at}/kind`, "Kind", "The pitch fee is weighed separately.", { choices: KINDS }),
              field(
                `${at}/onlyWhenPressing`,
                "Only when pressing there?",
                "Not needed if everything is printed ahead.",
                {
                  choices: [
                    ["no", undefined],
                    ["yes", true],
                  ],
                },
              ),
            ],
          })),
        },
      ],
    },
    { legend: "Wages, card fees and tax", fields: costs(currency) },
    { legend: "The van, and how it is worked out", fields: limits(request) },
    {
      legend: "Lessons from earlier fairs",
      loads: "Load lessons (file)",
      rows: [
        {
          pointer: "#/lessons",
          one: "lessons by hand",
          fresh: {
            id: `by-hand-${rowsAt(request, "#/lessons").length + 1}`,
            fair: "An earlier fair",
            day: "2027-05-01",
          },
          help: "What a stall's account gives after a fair. They sharpen the shares and the crowd.",
          each: rowsOf(request, "#/lessons", "fair").map(({ at, name }) => lesson(request, at, name)),
        },
      ],
    },
  ];
}

const KINDS = [
  ["other", "other"],
  ["pitch", "pitch"],
  ["power", "power"],
  ["travel", "travel"],
  ["permit", "permit"],
] as const;

/** The lessons of a day in a few words; its own counts come from the account and are not typed here. */
function lesson(request: Json, at: string, fair: string) {
  const day = wordAt(request, `${at}/day`);
  const counts = (["sizes", "colours", "offers"] as const).flatMap((list) => {
    const rows = rowsAt(request, `${at}/${list}`).length;
    return rows === 0 ? [] : [`${rows} ${list}`];
  });
  const hasCrowd = valueAt(request, `${at}/buying`) !== undefined;
  return {
    at,
    name: `${fair}, ${day}`,
    digest: [...counts, ...(hasCrowd ? ["its crowd"] : [])].join(", "),
    fields: [
      field(`${at}/fair`, "Fair", "Where it was.", { writing: WORDS }),
      field(`${at}/day`, "Day", "Year-month-day."),
      field(`${at}/kind`, "Kind of fair", "Your own word: music, food, school.", { writing: WORDS }),
      field(`${at}/buying/orders`, "Orders", "Asked for in the day, met or not.", { unit: "orders" }),
      field(`${at}/buying/passersBy`, "Passers-by", "Counted or told.", { unit: "people" }),
      field(`${at}/spoilage/pressed`, "Pressed", "In the day.", { unit: "garments" }),
      field(`${at}/spoilage/spoiled`, "Spoiled", "Of those and besides.", { unit: "garments" }),
    ],
  };
}

const costs = (currency: string): Field[] => [
  field("#/costs/crew/people", "Crew", "Paid by the hour, yourselves included.", { unit: "people" }),
  field("#/costs/crew/hours", "Paid hours", "Setting up and packing up included.", { unit: "hours each" }),
  field("#/costs/crew/hourlyWage", "Wage", "With what an employer adds.", { unit: `${currency} an hour` }),
  field("#/costs/perGarment", "Bag and ticket", "Used up with each garment sold.", {
    unit: `${currency} a garment`,
  }),
  field("#/costs/pitchShare/share", "Pitch takes", "0 where the fee is only a fixed sum.", {
    unit: "share of takings",
    more: true,
  }),
  field("#/costs/pitchShare/atLeast", "And at least", "Paid even on a poor day; 0 if there is no least.", {
    unit: currency,
    more: true,
  }),
  field("#/costs/wearPerPressing", "Wear of a press", "Platen covers, repairs, the press itself.", {
    unit: `${currency} a garment`,
    more: true,
  }),
  field("#/costs/wearPerHour", "Wear by the hour", "Of each press; leave 0 if you count it by the garment.", {
    unit: `${currency} an hour`,
    more: true,
  }),
  field("#/costs/refundShare", "Given back", "Garments that come back for their money.", {
    unit: "share of those sold",
    more: true,
  }),
  field("#/costs/exchangeShare", "Exchanged", "Garments that you make again.", {
    unit: "share of those sold",
    more: true,
  }),
  field("#/costs/ownTime/hours", "Your own time", "Hours nobody pays, preparing included.", {
    unit: "hours",
    more: true,
  }),
  field("#/costs/ownTime/hourly", "Your hour is worth", "0 shows the line and costs nothing.", {
    unit: `${currency} an hour`,
    more: true,
  }),
  field("#/costs/cardFee/share", "Card fee", "As your card terms say, such as 2.7 %.", {
    unit: "share of what is charged",
  }),
  field("#/costs/cardFee/each", "Card fee, fixed", "0 where there is none.", {
    unit: `${currency} a payment`,
    more: true,
  }),
  field("#/costs/cardFee/paidByCard", "Pay by card", "The rest pay cash.", {
    unit: "share of payments",
    more: true,
  }),
  field("#/costs/tax/rate", "Sales tax", "Ask the tax office of the place; 0 where none is due.", {
    unit: "rate",
  }),
  field("#/costs/tax/included", "Tax is in the prices?", "Whether the prices above hold it already.", {
    choices: YES_NO,
  }),
  field("#/costs/target", "Profit hoped for", "We show your chance of reaching it.", { unit: currency }),
  field("#/costs/elasticity", "Price sensitivity", "1.5 is a reasonable guess for a fair.", {
    unit: "% fewer for 1 % dearer",
    more: true,
  }),
];

function limits(request: Json): Field[] {
  const inPieces = valueAt(request, "#/limits/van/pieces") !== undefined;
  const unit = inPieces ? "pieces" : "cartons";
  return [
    field(`#/limits/van`, "The van is counted", "What limits your load.", {
      choices: [
        ["in cartons", { cartons: 9 }],
        ["in pieces", { pieces: 500 }],
        ["not at all", undefined],
      ],
      chosen: valueAt(request, "#/limits/van") === undefined ? 2 : inPieces ? 1 : 0,
    }),
    ...(valueAt(request, "#/limits/van") === undefined
      ? []
      : [field(`#/limits/van/${unit}`, "Room in the van", "For stock.", { unit })]),
    field("#/scenarios", "Days imagined", "Empty for 1,000. More take longer and are surer.", {
      unit: "days, 100 to 2000",
      more: true,
    }),
    field("#/seed", "Seed", "The same seed and figures give the same plan.", {
      unit: "whole number",
      more: true,
    }),
  ];
}

/** The figures of a plan request that a crew looks at, each with its unit and one line of help. */
import type { Field, Group } from "../field.ts";
import { type Json, valueAt } from "../pointer.ts";
import { rowsOf, wordAt } from "./names.ts";

const YES_NO = [
  ["no", false],
  ["yes", true],
] as const;

export function planGroups(request: Json): readonly Group[] {
  const currency = wordAt(request, "#/currency", "USD");
  return [
    { legend: "The fair and its crowd", fields: crowd(request) },
    { legend: "The crowd by hour and by weather", fields: hoursAndWeather(request), closer: true },
    { legend: "Prices and what people choose", fields: offers(request, currency) },
    { legend: "What blanks and transfers cost", fields: stock(request, currency), closer: true },
    { legend: "Colours and sizes", fields: choices(request), closer: true },
    { legend: "Pressing and patience", fields: pressing(request, currency), closer: true },
    { legend: "What the day costs", fields: costs(request, currency) },
    { legend: "Limits", fields: limits(currency) },
  ];
}

/** A figure that may be given once, or as low, likely and high. */
function range(request: Json, pointer: string, label: string, unit: string, help: string): Field[] {
  const value = valueAt(request, pointer);
  if (typeof value !== "object" || value === null) return [{ pointer, label, unit, help }];
  return [
    {
      pointer: `${pointer}/low`,
      label: `${label}, low`,
      unit,
      help: `${help} Fewer only one day in twenty.`,
    },
    { pointer: `${pointer}/likely`, label: `${label}, likely`, unit, help: "As often more as less." },
    { pointer: `${pointer}/high`, label: `${label}, high`, unit, help: "More only one day in twenty." },
  ];
}

function crowd(request: Json): Field[] {
  const hours = rowsOf(request, "#/traffic/hours", "from").flatMap(({ at, name }) =>
    range(request, `${at}/passersBy`, `Passers-by from ${name}`, "people", "Who walk past the pitch."),
  );
  const total = range(
    request,
    "#/traffic/passersBy",
    "Passers-by",
    "people in the day",
    "Ask the organiser and last year's stalls.",
  );
  return [
    { pointer: "#/name", label: "Fair", help: "What this plan is called." },
    { pointer: "#/opens", label: "Opens", unit: "24-hour clock", help: "Local time, such as 10:00." },
    { pointer: "#/closes", label: "Closes", unit: "24-hour clock", help: "Local time, such as 18:00." },
    ...(hours.length > 0 ? hours : total),
    ...range(
      request,
      "#/buying/share",
      "Who stop and buy",
      "orders per passer-by",
      "A share such as 3.6 %, from your own earlier fairs.",
    ),
    {
      pointer: "#/newFair",
      label: "New to all of you?",
      help: "A fair nobody of the crew has been at is less certain.",
      choices: YES_NO,
    },
  ];
}

const hoursAndWeather = (request: Json): Field[] => [
  ...rowsOf(request, "#/weather").flatMap(({ at, name }): Field[] => [
    {
      pointer: `${at}/chance`,
      label: `Chance of: ${name}`,
      unit: "share of days",
      help: "All weathers together make 1, or 100 %.",
    },
    {
      pointer: `${at}/crowd`,
      label: `Crowd when ${name}`,
      unit: "times the usual",
      help: "1 is the crowd above, 0.5 half of it.",
    },
  ]),
  ...rowsOf(request, "#/traffic/profile", "from").map(({ at, name }) => ({
    pointer: `${at}/share`,
    label: `Crowd from ${name}`,
    unit: "share of the day",
    help: "All hours together make 1, or 100 %.",
  })),
];

const offers = (request: Json, currency: string): Field[] =>
  rowsOf(request, "#/offers").flatMap(({ at, name }) => [
    {
      pointer: `${at}/price`,
      label: `${name}: price`,
      unit: currency,
      help: "What a customer is charged for one.",
    },
    {
      pointer: `${at}/share`,
      label: `${name}: chosen by`,
      unit: "share of orders",
      help: "All offers together make 1, or 100 %.",
    },
  ]);

const stock = (request: Json, currency: string): Field[] => [
  ...rowsOf(request, "#/blanks").flatMap(({ at, name }) => [
    {
      pointer: `${at}/cost`,
      label: `${name}: cost`,
      unit: `${currency} each`,
      help: "Undecorated, with freight.",
    },
    {
      pointer: `${at}/casePack`,
      label: `${name}: sold in packs of`,
      unit: "pieces",
      help: "Of one colour and size; 1 where any number can be bought.",
    },
    {
      pointer: `${at}/leftoverWorth`,
      label: `${name}: worth when left over`,
      unit: "share of cost",
      help: "A blank keeps most of its cost for the next fair.",
    },
  ]),
  ...rowsOf(request, "#/designs").flatMap(({ at, name }) => [
    {
      pointer: `${at}/cost`,
      label: `${name}: transfer`,
      unit: `${currency} each`,
      help: "One printed transfer.",
    },
    {
      pointer: `${at}/setUpCost`,
      label: `${name}: set-up`,
      unit: `${currency} once`,
      help: "Paid if the design is brought at all.",
    },
    {
      pointer: `${at}/leftoverWorth`,
      label: `${name}: worth when left over`,
      unit: "share of cost",
      help: "0 for a design with a date on it.",
    },
  ]),
];

const choices = (request: Json): Field[] =>
  rowsOf(request, "#/blanks").flatMap(({ at, name }) => [
    ...rowsOf(request, `${at}/colours`, "id").map((colour) => ({
      pointer: `${colour.at}/share`,
      label: `${name}: ${colour.name}`,
      unit: "share of askers",
      help: "The colours of one blank make 1, or 100 %.",
    })),
    ...rowsOf(request, `${at}/sizes`, "id").map((size) => ({
      pointer: `${size.at}/share`,
      label: `${name}: size ${size.name}`,
      unit: "share of askers",
      help: "The sizes of one blank make 1, or 100 %.",
    })),
  ]);

const pressing = (request: Json, currency: string): Field[] => [
  ...rowsOf(request, "#/presses", "platen").flatMap(({ at, name }) => [
    {
      pointer: `${at}/count`,
      label: `Presses, ${name}`,
      unit: "machines",
      help: "That run at the same time.",
    },
    {
      pointer: `${at}/garmentsPerHour`,
      label: `One ${name} press makes`,
      unit: "garments an hour",
      help: "With loading, peeling and folding by the hands that serve it.",
    },
  ]),
  {
    pointer: "#/patienceMinutes",
    label: "Patience",
    unit: "minutes",
    help: "Half of the customers wait no longer than this.",
  },
  {
    pointer: "#/spoilage",
    label: "Spoiled",
    unit: "share of garments",
    help: "Takes the blank and its transfer.",
  },
  {
    pointer: "#/substitution/anotherColour",
    label: "Take another colour",
    unit: "share of askers",
    help: "Whose colour is out.",
  },
  {
    pointer: "#/substitution/anotherDesign",
    label: "Take another design",
    unit: "share of askers",
    help: "Whose design is out; the rest walk away.",
  },
  {
    pointer: "#/ahead/peopleAtFair",
    label: "Crew if nothing is pressed there",
    unit: "people",
    help: "Needed at the fair when all is printed ahead.",
  },
  {
    pointer: "#/ahead/perGarment",
    label: "Decorating one beforehand",
    unit: `${currency} each`,
    help: "Work at home or a print house's charge.",
  },
];

const costs = (request: Json, currency: string): Field[] => [
  ...rowsOf(request, "#/costs/fixed").map(({ at, name }) => ({
    pointer: `${at}/cost`,
    label: name,
    unit: `${currency} for the day`,
    help: "Paid whatever is sold.",
  })),
  {
    pointer: "#/costs/crew/people",
    label: "Crew",
    unit: "people",
    help: "Paid by the hour, yourselves included.",
  },
  {
    pointer: "#/costs/crew/hours",
    label: "Paid hours",
    unit: "hours each",
    help: "Setting up and packing up included.",
  },
  {
    pointer: "#/costs/crew/hourlyWage",
    label: "Wage",
    unit: `${currency} an hour`,
    help: "With what an employer adds.",
  },
  {
    pointer: "#/costs/perGarment",
    label: "Bag and ticket",
    unit: `${currency} a garment`,
    help: "Used up with each garment sold.",
  },
  {
    pointer: "#/costs/cardFee/share",
    label: "Card fee",
    unit: "share of what is charged",
    help: "As your card terms say, such as 2.7 %.",
  },
  {
    pointer: "#/costs/cardFee/each",
    label: "Card fee, fixed",
    unit: `${currency} a payment`,
    help: "0 where there is none.",
  },
  {
    pointer: "#/costs/tax/rate",
    label: "Sales tax",
    unit: "rate",
    help: "Ask the tax office of the place; 0 where none is due.",
  },
  {
    pointer: "#/costs/tax/included",
    label: "Tax is in the prices?",
    help: "Whether the prices above hold it already.",
    choices: YES_NO,
  },
  {
    pointer: "#/costs/target",
    label: "Profit hoped for",
    unit: currency,
    help: "The odds of reaching it are told.",
  },
  {
    pointer: "#/costs/elasticity",
    label: "How sales answer to price",
    unit: "% fewer for 1 % dearer",
    help: "1.5 is a fair guess at a fair.",
  },
];

const limits = (currency: string): Field[] => [
  {
    pointer: "#/limits/budget",
    label: "Budget",
    unit: currency,
    help: "For blanks and transfers; empty for no limit.",
  },
  {
    pointer: "#/limits/van/cartons",
    label: "Room in the van",
    unit: "cartons",
    help: "For stock; empty for no limit.",
  },
  {
    pointer: "#/scenarios",
    label: "Days imagined",
    unit: "days, 100 to 2000",
    help: "More take longer and are surer.",
  },
  {
    pointer: "#/seed",
    label: "Seed",
    unit: "whole number",
    help: "The same seed and figures give the same plan.",
  },
];

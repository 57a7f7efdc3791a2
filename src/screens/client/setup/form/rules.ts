/** The rules of a stall as the page asks for them: five that every stall decides, and the others. */
import { MINOR_DIGITS } from "../../../../model/basics/minor-digits.ts";
import type { Field } from "./field.ts";

export const ESSENTIAL_RULES: readonly Field[] = [
  {
    pointer: "#/currency",
    label: "Currency",
    takes: "words",
    choices: Object.keys(MINOR_DIGITS).map((code) => [code, code]),
  },
  {
    pointer: "#/language",
    label: "Texts begin in",
    takes: "words",
    choices: [
      ["English", "en"],
      ["Spanish", "es"],
    ],
    help: "Who writes in the other is answered in it.",
  },
  {
    pointer: "#/rules/payment",
    label: "Payment",
    takes: "words",
    choices: [
      ["is not tracked", "not-tracked"],
      ["before it is handed over", "before-handover"],
      ["before it is pressed", "before-pressing"],
    ],
  },
  { pointer: "#/rules/taxPartsPerMillion", label: "Sales tax", unit: "%", takes: "percent" },
  {
    pointer: "#/rules/taxInPrice",
    label: "Prices",
    takes: "words",
    choices: [
      ["are before tax, which is added", false],
      ["include the tax", true],
    ],
  },
];

export const OTHER_RULES: readonly (readonly [legend: string, fields: readonly Field[]])[] = [
  [
    "Payment and tax",
    [
      {
        pointer: "#/rules/paymentLink",
        label: "Where an order can be paid",
        takes: "words",
        wide: true,
        help: "A link that begins with https://, with {order}, {amount} and {currency} where they belong. The crew still notes each payment.",
      },
      {
        pointer: "#/rules/payMinutes",
        label: "An unpaid order is dropped after",
        unit: "minutes",
        takes: "figure",
        help: "Where payment comes before pressing.",
      },
      {
        pointer: "#/rules/taxBasis",
        label: "Tax is rounded",
        takes: "words",
        choices: [
          ["once an order", "order"],
          ["for each garment", "item"],
        ],
      },
    ],
  ],
  [
    "Limits",
    [
      {
        pointer: "#/rules/holdMinutes",
        label: "Stock is held for an unsaid yes for",
        unit: "minutes",
        takes: "figure",
      },
      { pointer: "#/rules/garmentsPerLine", label: "Most of one garment in a phone order", takes: "figure" },
      { pointer: "#/rules/garmentsPerOrder", label: "Most garments in a phone order", takes: "figure" },
      {
        pointer: "#/rules/openOrdersPerSender",
        label: "Most unfinished orders of one person",
        takes: "figure",
      },
      {
        pointer: "#/rules/textsPerMinute",
        label: "Most texts of one person that are answered",
        unit: "a minute",
        takes: "figure",
      },
      {
        pointer: "#/rules/webHoldPercent",
        label: "Most of the free stock that web orders may hold before anybody comes",
        unit: "%",
        takes: "figure",
      },
      {
        pointer: "#/rules/unclaimedGarments",
        label: "Most garments one address has in line before anybody comes",
        takes: "figure",
      },
      {
        pointer: "#/rules/claimMinutes",
        label: "Further web orders wait for their customer",
        unit: "minutes",
        takes: "figure",
      },
      { pointer: "#/rules/webOrders", label: "Customers may order on the web", takes: "yes-no" },
    ],
  ],
  [
    "The line",
    [
      { pointer: "#/rules/lowStock", label: "A blank is running low at", unit: "left", takes: "figure" },
      {
        pointer: "#/rules/lookAhead",
        label: "To keep its settings, a press looks past at most",
        unit: "garments",
        takes: "figure",
      },
      {
        pointer: "#/rules/overtakenMost",
        label: "A garment may be overtaken at most",
        unit: "times",
        takes: "figure",
      },
    ],
  ],
  [
    "Closing time and people",
    [
      {
        pointer: "#/rules/lastOrdersMinutes",
        label: "Last orders are called",
        unit: "minutes before",
        takes: "figure",
      },
      {
        pointer: "#/rules/closingMarginMinutes",
        label: "Kept free before closing",
        unit: "minutes",
        takes: "figure",
      },
      {
        pointer: "#/rules/readyTextSeconds",
        label: "A ready text waits for an undo",
        unit: "seconds",
        takes: "figure",
      },
      {
        pointer: "#/rules/contact",
        label: "How to reach you",
        takes: "words",
        help: "The last line of HELP: “ask at the red tent”.",
      },
      {
        pointer: "#/rules/eraseAfterDays",
        label: "Names and numbers are erased after",
        unit: "days",
        takes: "figure",
      },
      {
        pointer: "#/rules/shareTakings",
        label: "The organiser sees what the stall takes",
        takes: "yes-no",
      },
    ],
  ],
];

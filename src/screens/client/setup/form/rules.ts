/** The rules of a stall as the page asks for them: five that every stall decides, and the others. */

import { MINOR_DIGITS } from "../../../../model/basics/minor-digits.ts";
import type { Language } from "../../../../model/basics/words.ts";
import type { AnswerSubject } from "../../../../model/menu/answers.ts";
import { type Field, figure, money, percent, words, yesNo } from "./field.ts";

const PAYMENT = [
  ["is not tracked", "not-tracked"],
  ["before it is handed over", "before-handover"],
  ["before it is pressed", "before-pressing"],
] as const;

export const ESSENTIAL_RULES: readonly Field[] = [
  words("#/currency", "Currency", { choices: Object.keys(MINOR_DIGITS).map((code) => [code, code]) }),
  words("#/language", "Texts begin in", {
    choices: [
      ["English", "en"],
      ["Spanish", "es"],
    ],
    help: "We reply in whichever language a customer writes in.",
  }),
  words("#/rules/payment", "Payment", { choices: PAYMENT }),
  percent("#/rules/taxPartsPerMillion", "Sales tax", { unit: "%" }),
  words("#/rules/taxInPrice", "Prices", {
    choices: [
      ["are before tax, which is added", false],
      ["include the tax", true],
    ],
  }),
];

/** People's questions, as headings of the stall's answers. */
const QUESTIONS: Readonly<Record<AnswerSubject, string>> = {
  payment: "Cards?",
  place: "Where are you?",
  hours: "Until when?",
  children: "Kids’ sizes?",
  shipping: "Do you ship?",
  "own-garment": "Can I bring my own?",
  fabric: "What is it made of?",
  exchange: "What if it doesn’t fit?",
};

/** The stall's answers about a subject, in each language; `help` is the reply without one. */
export const answerFields = (
  subject: AnswerSubject,
  help?: (language: Language) => string,
): readonly Field[] =>
  (
    [
      ["en", "English"],
      ["es", "Spanish"],
    ] as const
  ).map(([language, name]) =>
    words(`#/answers/${subject}/${language}`, `${QUESTIONS[subject]} In ${name}`, { help: help?.(language) }),
  );

export const OTHER_RULES: readonly (readonly [legend: string, fields: readonly Field[]])[] = [
  [
    "Payment and tax",
    [
      words("#/rules/paymentLink", "Where an order can be paid", {
        wide: true,
        help: "A link that begins with https://, with {order}, {amount} and {currency} where they belong. The crew still notes each payment.",
      }),
      figure("#/rules/payMinutes", "Cancel unpaid orders after", {
        unit: "minutes",
        help: "If payment comes before pressing.",
      }),
      words("#/rules/taxBasis", "Tax is rounded", {
        choices: [
          ["once an order", "order"],
          ["for each garment", "item"],
        ],
      }),
    ],
  ],
  [
    "The rack",
    [
      percent("#/rules/secondsPartsPerMillionOff", "A second costs less by", {
        unit: "%",
        help: "A misprint that is sold as it is. Empty: the full price.",
      }),
      money("#/rules/secondsAmountOff", "or by an amount", { help: "Instead of a share of its price." }),
    ],
  ],
  [
    "Limits",
    [
      figure("#/rules/holdMinutes", "Hold stock while a customer decides", { unit: "minutes" }),
      figure("#/rules/garmentsPerLine", "Most of one garment in a phone order"),
      figure("#/rules/garmentsPerOrder", "Most garments in a phone order"),
      figure("#/rules/openOrdersPerSender", "Most unfinished orders of one person"),
      figure("#/rules/textsPerMinute", "Most texts of one person that are answered", { unit: "a minute" }),
      figure("#/rules/webHoldPercent", "Free stock that unclaimed web orders can hold, at most", {
        unit: "%",
      }),
      figure("#/rules/unclaimedGarments", "Most unclaimed garments in line from one address"),
      figure("#/rules/claimMinutes", "Cancel unclaimed web orders after", { unit: "minutes" }),
      yesNo("#/rules/webOrders", "Customers may order on the web"),
    ],
  ],
  [
    "The line",
    [
      figure("#/rules/lowStock", "A blank is running low at", { unit: "left" }),
      figure("#/rules/lookAhead", "To keep its settings, a press looks past at most", { unit: "garments" }),
      figure("#/rules/overtakenMost", "A garment may be overtaken at most", { unit: "times" }),
    ],
  ],
  [
    "Closing time and people",
    [
      figure("#/rules/lastOrdersMinutes", "Last orders are called", { unit: "minutes before" }),
      figure("#/rules/closingMarginMinutes", "Finish pressing before closing by", { unit: "minutes" }),
      figure("#/rules/readyTextSeconds", "Delay the “ready” text by", { unit: "seconds" }),
      words("#/rules/contact", "How to reach you", { help: "The last line of HELP: “ask at the red tent”." }),
      figure("#/rules/eraseAfterDays", "Names and numbers are erased after", { unit: "days" }),
      yesNo("#/rules/seenAtFair", "Visitors see the stall on the fair’s page"),
      yesNo("#/rules/shareTakings", "Share takings with the organiser"),
    ],
  ],
];

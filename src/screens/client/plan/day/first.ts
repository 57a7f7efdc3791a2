/** The days a plan can start from: a fair of your own with usual figures, and an invented example. */
import pitch from "../../../../../examples/pitch.json";
import plan from "../../../../../examples/plan.json";
import power from "../../../../../examples/power.json";
import presses from "../../../../../examples/presses.json";
import sheets from "../../../../../examples/sheets.json";
import { type Json, rowsAt, valueAt, withValue } from "../../kit/json-pointer.ts";
import type { DayPart } from "../messages.ts";

/** Every part's request, and what the organiser's sheet says besides. */
export type Day = Readonly<Record<DayPart | "organiser", Json>>;

const without = (request: Json, ...places: readonly string[]): Json =>
  places.reduce((left, place) => withValue(left, place, undefined), request);

/** The example's other parts, with everything left out that follows the plan. */
const FOLLOWING = {
  presses: without(presses, "#/people"),
  power: without(power, "#/hours", "#/pressTemperature"),
  pitch: without(pitch, "#/queue"),
  organiser: { stall: "Our stall" },
} as const;

/** The counts of the sheets' designs are the plan's. */
const uncounted = (request: Json): Json =>
  withValue(
    request,
    "#/designs",
    rowsAt(request, "#/designs").map((design) => without(design, "#/count")),
  );

/** An invented fair with five products. */
export const EXAMPLE: Day = { plan, sheets: uncounted(sheets), ...FOLLOWING };

const onlyPress = (request: Json, list: string, has: (row: Json) => boolean): Json =>
  withValue(
    request,
    list,
    rowsAt(request, list).filter((row) => !has(row)),
  );
const isCapPress = (row: Json): boolean =>
  [valueAt(row, "#/load"), valueAt(row, "#/piece"), valueAt(row, "#/item")].includes("cap press") ||
  valueAt(row, "#/platen") === "cap";

/** One product at a fair of your own. Shares, seconds and costs: common practice, no source. */
export const FIRST: Day = {
  plan: {
    name: "My fair",
    opens: "10:00",
    closes: "18:00",
    traffic: {
      kind: "total",
      passersBy: 2000,
      profile: [
        { from: "10:00", share: 7 },
        { from: "11:00", share: 13 },
        { from: "12:00", share: 18 },
        { from: "13:00", share: 18 },
        { from: "14:00", share: 16 },
        { from: "15:00", share: 13 },
        { from: "16:00", share: 9 },
        { from: "17:00", share: 6 },
      ],
    },
    buying: {
      share: "3 %",
      garmentsPerOrder: [
        { garments: 1, share: 75 },
        { garments: 2, share: 20 },
        { garments: 3, share: 5 },
      ],
    },
    blanks: [
      {
        id: "tee",
        name: "Tee",
        platen: "flat",
        cost: 4,
        colours: [
          { id: "black", share: 60 },
          { id: "white", share: 40 },
        ],
        sizes: [
          { id: "S", share: 14 },
          { id: "M", share: 27 },
          { id: "L", share: 29 },
          { id: "XL", share: 19 },
          { id: "2XL", share: 11, cost: 5.5 },
        ],
      },
    ],
    designs: [{ id: "our-design", name: "Our design", cost: 2 }],
    offers: [{ id: "tee", name: "Tee", blank: "tee", design: "our-design", price: 25, share: 1 }],
    substitution: { anotherColour: 0.3 },
    presses: [{ platen: "flat", count: 1, garmentsPerHour: 40 }],
    patienceMinutes: 20,
    spoilage: "2 %",
    costs: {
      fixed: [
        { name: "Pitch", cost: 150, kind: "pitch" },
        { name: "Travel and the rest", cost: 50, kind: "travel" },
      ],
      crew: { people: 2, hours: 10, hourlyWage: 0 },
      cardFee: { share: "2.7 %", paidByCard: "80 %" },
    },
  },
  sheets: withValue(sheets, "#/designs", [{ id: "our-design", name: "Our design", width: 10, height: 10 }]),
  presses: onlyPress(onlyPress(FOLLOWING.presses, "#/presses", isCapPress), "#/handling", isCapPress),
  power: onlyPress(FOLLOWING.power, "#/loads", isCapPress),
  pitch: onlyPress(onlyPress(FOLLOWING.pitch, "#/pieces", isCapPress), "#/cargo", isCapPress),
  organiser: { stall: "Our stall" },
};

/** The defaults of a new plan, in words, each with its place; a default is listed until another figure is typed. */
const USUAL: readonly (readonly [step: string, pointer: string, words: string])[] = [
  ["fair", "#/traffic/passersBy", "2,000 people pass your pitch"],
  ["fair", "#/buying/share", "3 in 100 of them buy, give or take a fifth"],
  ["fair", "#/traffic/profile", "most come from noon to three"],
  ["products", "#/offers/0/price", "a product sells at 25"],
  ["products", "#/blanks/0/cost", "a blank costs 4 and a larger one 5.50"],
  ["products", "#/designs/0/cost", "a transfer costs 2"],
  ["products", "#/blanks/0/sizes", "14 % take S, 27 % M, 29 % L, 19 % XL, 11 % 2XL"],
  ["costs", "#/costs/fixed/0/cost", "the pitch costs 150"],
  ["costs", "#/costs/fixed/1/cost", "travel and the rest cost 50"],
  ["costs", "#/costs/crew/hourlyWage", "your own time is not paid"],
  ["gear-presses", "#/presses", "one flat press makes 40 garments an hour"],
  ["gear-presses", "#/patienceMinutes", "half of the customers wait no longer than 20 minutes"],
];

/** What of a plan is still as a new one starts, in words, with the step where it can be typed. */
export function takenAsUsual(day: Day): readonly { readonly step: string; readonly words: string }[] {
  return USUAL.flatMap(([step, pointer, words]) =>
    JSON.stringify(valueAt(day.plan, pointer)) === JSON.stringify(valueAt(FIRST.plan, pointer))
      ? [{ step, words }]
      : [],
  );
}

/** The figures of a request for presses and hands. */

import { type Json, rowsAt } from "../../kit/json-pointer.ts";
import type { FromPlan } from "../day/parts.ts";
import type { Group } from "../form/form.tsx";
import { SEVERAL, WORDS, withUnit } from "../form/writings.ts";
import { field, freeName, rowsOf, wordAt, YES_NO } from "./names.ts";

const PLATENS = [
  ["flat", "flat"],
  ["cap", "cap"],
] as const;

export function pressesGroups(request: Json, plan: FromPlan): readonly Group[] {
  const other = rowsAt(request, "#/presses").some(
    (_, at) => wordAt(request, `#/presses/${at}/platen`) === "flat",
  );
  const platen = other ? "cap" : "flat";
  return [
    {
      legend: "Presses and hands to choose from",
      fields: [
        field("#/people/most", "Most people pressing", "Paid at the wage given above.", {
          unit: "people",
          fromPlan: plan.hands,
        }),
        field(
          "#/opensItself",
          "Presses open by themselves?",
          "Then one person can serve another while it closes.",
          {
            choices: YES_NO,
          },
        ),
        field("#/handVariation", "Hands vary by", "0.25 is usual; empty for that.", {
          unit: "deviation over mean",
          more: true,
        }),
        field("#/heatingCelsiusPerMinute", "A press heats by", "Empty for 10.", {
          unit: "°C a minute",
          more: true,
        }),
        field("#/coolingCelsiusPerMinute", "A press cools by", "Empty for 8.3.", {
          unit: "°C a minute",
          more: true,
        }),
      ],
      rows: [
        {
          pointer: "#/presses",
          one: "a kind of press",
          fresh: { platen, most: 2, cost: 40, power: 45 },
          short: true,
          each: rowsOf(request, "#/presses", "platen").map(({ at, name }) => ({
            at,
            name: `${name} presses`,
            fields: [
              field(`${at}/platen`, "Kind", "Of platen.", { choices: PLATENS }),
              field(`${at}/most`, "Most", "Each number up to this is tried.", { unit: "machines" }),
              field(`${at}/cost`, "One costs", "Hire, or its share of the price.", { unit: "for the day" }),
              field(`${at}/power`, "Power for one", "A circuit more, as the organiser charges it.", {
                unit: "for the day",
              }),
            ],
          })),
        },
      ],
    },
    {
      legend: "Seconds for one garment",
      rows: [
        {
          pointer: "#/handling",
          one: "a way of pressing",
          fresh: {
            settings: freeName(request, "#/handling", "settings", "settings"),
            platen: "flat",
            temperature: { value: 310, unit: "F" },
            loadSeconds: 12,
            prePressSeconds: 4,
            placeSeconds: 8,
            dwellSeconds: [12, 7],
            peelSeconds: 3,
            unloadSeconds: 4,
            foldSeconds: 8,
          },
          each: rowsOf(request, "#/handling", "settings").map(({ at, name }) => handling(at, name)),
        },
      ],
    },
  ];
}

function handling(at: string, name: string) {
  const seconds = (part: string, label: string, help: string) =>
    field(`${at}/${part}Seconds`, label, help, { unit: "seconds" });
  return {
    at,
    name,
    fields: [
      field(`${at}/settings`, "Settings", "What you call them.", { writing: WORDS, settles: true }),
      field(`${at}/platen`, "Press", "The kind it is done on.", { choices: PLATENS }),
      field(`${at}/temperature`, "Temperature", "320 F or 160 C, as the transfer's own sheet says.", {
        writing: withUnit("F", "C"),
      }),
      seconds("load", "Load and smooth", "Until it lies flat."),
      seconds("prePress", "Pre-press", "Drives out moisture and wrinkles."),
      seconds("place", "Place the transfer", "Straight, at its place."),
      field(`${at}/dwellSeconds`, "Dwell", "Closed; with a comma where it is pressed twice.", {
        unit: "seconds",
        writing: SEVERAL,
      }),
      seconds("peel", "Peel", "After the dwell."),
      seconds("unload", "Unload", "Until the press is free."),
      seconds("fold", "Fold and call", "Away from the press."),
    ],
  };
}

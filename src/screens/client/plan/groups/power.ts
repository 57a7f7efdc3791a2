/** The figures of a request for power: the place, what draws, what the site gives, and a generator. */

import { type Json, valueAt } from "../../kit/json-pointer.ts";
import type { FromPlan } from "../day/parts.ts";
import type { Field } from "../form/field.tsx";
import type { Group } from "../form/form.tsx";
import type { Row } from "../form/rows.tsx";
import { VOLTS, WORDS, withUnit } from "../form/writings.ts";
import { field, freeName, rowsOf, wordAt } from "./names.ts";

const LENGTH = withUnit("ft", "m", "in", "cm", "mm");
const GENERATOR = {
  runningWatts: 3500,
  startingWatts: 4000,
  consumption: [
    { share: 0.5, rate: { value: 1.3, unit: "L/h" } },
    { share: 1, rate: { value: 2.2, unit: "L/h" } },
  ],
};

export function powerGroups(request: Json, plan: FromPlan, currency: string): readonly Group[] {
  const isEurope = wordAt(request, "#/region") !== "north-america";
  const volts = isEurope ? 230 : 120;
  const breakerAmps = isEurope ? 16 : 20;
  return [
    {
      legend: "The place",
      essential: true,
      fields: [
        field("#/region", "Whose rules", "Of the place where the fair is.", {
          choices: [
            ["North America", "north-america"],
            ["United Kingdom", "united-kingdom"],
            ["Europe", "europe"],
          ],
        }),
        field("#/hours", "Live for", "From the first warm-up to switching off.", {
          unit: "hours",
          fromPlan: plan.hours,
        }),
        field("#/pressTemperature", "Hottest platen", "320 F or 160 C; for the cautions.", {
          writing: withUnit("F", "C"),
          unit: "F or C",
          fromPlan: plan.pressTemperature,
        }),
      ],
    },
    {
      legend: "Circuits you are given, or can order",
      rows: [
        {
          pointer: "#/circuits",
          one: "a circuit the site gives",
          fresh: { circuit: freeName(request, "#/circuits", "circuit", "circuit"), volts, breakerAmps },
          short: true,
          help: "Circuits you are given, or the outlets of your generator. None while nothing is known yet. Ordinary plugs go on a circuit of more than 20 A only through a distribution box with its own breakers.",
          each: rowsOf(request, "#/circuits", "circuit").map(({ at, name }) => ({
            at,
            name,
            fields: [
              field(`${at}/circuit`, "Circuit", "What you call it.", { writing: WORDS }),
              field(`${at}/volts`, "Volts", "As the site says.", { unit: "V" }),
              field(`${at}/breakerAmps`, "Breaker", "Printed on it.", { unit: "amps" }),
              ...boxFields(request, at),
            ],
          })),
        },
        {
          pointer: "#/offered",
          one: "a circuit that can be ordered",
          fresh: { volts, breakerAmps },
          short: true,
          optional: true,
          each: rowsOf(request, "#/offered", "breakerAmps").map(({ at, name }) => ({
            at,
            name: `a ${name} A circuit`,
            fields: [
              field(`${at}/volts`, "Volts", "As the organiser lists it.", { unit: "V" }),
              field(`${at}/breakerAmps`, "Breaker", "As the organiser lists it.", { unit: "amps" }),
              field(`${at}/price`, "Price", "Empty where you do not know.", { unit: currency }),
            ],
          })),
        },
      ],
    },
    {
      legend: "What draws power",
      rows: [
        {
          pointer: "#/loads",
          one: "a load",
          ...(plan.loads.length === 0
            ? {}
            : {
                help: `From the plan, counted besides: ${plan.loads.map(({ name }) => name).join(", ")}.`,
              }),
          fresh: { load: freeName(request, "#/loads", "load", "load"), kind: "other", watts: 100, volts },
          each: rowsOf(request, "#/loads", "load").map((row) => load(request, row)),
        },
      ],
    },
    generator(request),
  ];
}

const BOX = { breakerAmps: 20, outlets: 2 };

function boxFields(request: Json, at: string): Field[] {
  const has = valueAt(request, `${at}/box`) !== undefined;
  return [
    field(`${at}/box`, "Ordinary plugs go", "Into a box only if each of its outlets has its own breaker.", {
      choices: [
        ["into the circuit", undefined],
        ["into a distribution box", BOX],
      ],
      chosen: has ? 1 : 0,
    }),
    ...(has
      ? [
          field(`${at}/box/outlets`, "Outlets of the box in use", "They share the circuit equally.", {
            unit: "outlets",
          }),
          field(`${at}/box/breakerAmps`, "Breaker of each outlet", "Printed on the box, for each outlet.", {
            unit: "amps",
          }),
        ]
      : []),
  ];
}

function load(request: Json, { at, name }: { readonly at: string; readonly name: string }): Row {
  const has = wordAt(request, `${at}/watts`);
  return {
    at,
    name,
    digest: has === "" ? "" : `${has} W`,
    fields: [
      field(`${at}/load`, "Load", "What you call it; each its own.", { writing: WORDS, settles: true }),
      field(`${at}/kind`, "Kind", "A press shares its circuit with a till at most, unless told.", {
        choices: [
          ["press", "press"],
          ["till", "till"],
          ["light", "light"],
          ["computer", "computer"],
          ["fridge, compressor, pump", "motor"],
          ["something else", "other"],
        ],
      }),
      field(`${at}/watts`, "Draws", "From its specification plate. Watts, amps or both.", { unit: "watts" }),
      field(`${at}/amps`, "Draws, in amps", "From its specification plate.", { unit: "amps", more: true }),
      field(`${at}/volts`, "Made for", "One voltage, or 100 to 240.", { unit: "volts", writing: VOLTS }),
      field(
        `${at}/startingWatts`,
        "Surge when switched on",
        "For a moment; a heater has none. Empty for a motor: four times.",
        {
          unit: "watts",
          more: true,
        },
      ),
      field(`${at}/restarts`, "Starts again by itself?", "By a thermostat or a pressure switch.", {
        choices: [
          ["if it surges", undefined],
          ["yes", true],
          ["no", false],
        ],
        more: true,
      }),
      field(
        `${at}/powerFactor`,
        "Power factor",
        "From its plate; empty for 0.8 of a motor and 1 of the rest.",
        { unit: "watts per volt-ampere, 0.3 to 1", more: true },
      ),
      field(`${at}/ownCircuit`, "Own circuit?", "Nothing else on the same breaker.", {
        choices: UNLESS,
        more: true,
      }),
      field(`${at}/continuous`, "On for three hours?", "At full current, or longer.", {
        choices: UNLESS,
        more: true,
      }),
      field(`${at}/warmUpMinutes`, "Warms up in", "Cold to working heat; empty if it does not.", {
        unit: "minutes",
      }),
      field(`${at}/plugAmps`, "Plug rated for", "Printed on it; empty for an ordinary plug.", {
        unit: "amps",
        more: true,
      }),
      field(`${at}/cord/distance`, "From the socket", "40 ft or 12 m, along the way its cord will lie.", {
        writing: LENGTH,
      }),
      field(`${at}/cord/size`, "Cord you own", "14 AWG or 2.5 mm2; it is judged. Empty to be told.", {
        writing: WORDS,
        more: true,
      }),
      field(`${at}/cord/length`, "Its length", "50 ft or 15 m; empty for the next usual.", {
        writing: LENGTH,
        more: true,
      }),
    ],
  };
}

const UNLESS = [
  ["as usual for its kind", undefined],
  ["yes", true],
  ["no", false],
] as const;

function generator(request: Json): Group {
  const at = "#/generator";
  const has = valueAt(request, at) !== undefined;
  return {
    legend: "A generator",
    fields: [
      field(at, "Power comes from", "A generator feeds the circuits listed above: name its outlets there.", {
        choices: [
          ["the site", undefined],
          ["our generator", GENERATOR],
        ],
        chosen: has ? 1 : 0,
      }),
      ...(has
        ? [
            field(`${at}/runningWatts`, "Running", "From its plate.", { unit: "watts" }),
            field(`${at}/startingWatts`, "Starting", "For a moment, from its plate.", { unit: "watts" }),
            field(`${at}/altitude`, "Height above the sea", "2000 ft or 600 m; thin air takes power away.", {
              writing: LENGTH,
              unit: "ft or m",
              more: true,
            }),
            field(`${at}/airTemperature`, "Hottest air", "95 F or 35 C; hot air takes power away.", {
              writing: withUnit("F", "C"),
              unit: "F or C",
              more: true,
            }),
            field(`${at}/powerFactor`, "Power factor", "Only if its plate gives VA in place of watts.", {
              unit: "watts per volt-ampere",
              more: true,
            }),
            field(`${at}/tank`, "Tank", "15 L or 4 gal; empty if you do not know.", {
              writing: withUnit("L", "gal"),
              unit: "L or gal",
            }),
          ]
        : []),
    ],
    rows: has
      ? [
          {
            pointer: `${at}/consumption`,
            one: "a stated consumption",
            fresh: { share: 0.75, rate: { value: 1.8, unit: "L/h" } },
            short: true,
            help: "From its papers: fuel burnt at so much of its running watts.",
            each: rowsOf(request, `${at}/consumption`, "share").map(({ at: place, name }) => ({
              at: place,
              name: `consumption at ${name}`,
              fields: [
                field(`${place}/share`, "At", "Of its running watts.", { unit: "share" }),
                field(`${place}/rate`, "Burns", "1.3 L/h or 0.35 gal/h.", {
                  writing: withUnit("L/h", "gal/h"),
                }),
              ],
            })),
          },
        ]
      : [],
  };
}

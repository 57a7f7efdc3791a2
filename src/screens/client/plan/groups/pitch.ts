/** The figures of a request for the pitch: its size, the pieces on it, the hot side, and the load. */

import { type Json, valueAt } from "../../kit/json-pointer.ts";
import type { FromPlan } from "../day/parts.ts";
import type { Group } from "../form/form.tsx";
import type { Row } from "../form/rows.tsx";
import { WORDS, withUnit } from "../form/writings.ts";
import { field, freeName, rowsOf, wordAt } from "./names.ts";

const LENGTH = { writing: withUnit("ft", "in", "m", "cm", "mm") };
const WEIGHT = { writing: withUnit("kg", "lb") };
const BORDERS = [
  ["as usual", undefined],
  ["the public", "public"],
  ["the crew only", "crew"],
  ["nobody: a wall or a neighbour", "closed"],
] as const;

export function pitchGroups(request: Json, given: FromPlan): readonly Group[] {
  return [
    {
      legend: "The pitch",
      essential: true,
      fields: [
        field("#/pitch/width", "Width", "10 ft or 3 m, along the front where customers come.", LENGTH),
        field("#/pitch/depth", "Depth", "From the front to the back.", LENGTH),
        field("#/queue/people", "Queue", "Waiting at the counter at the busiest time.", {
          unit: "people",
          fromPlan: given.queue,
        }),
      ],
    },
    {
      legend: "What is around it, and the way out",
      fields: [
        field("#/queue/where", "They queue", "Ask the organiser before using the aisle.", {
          choices: [
            ["on the aisle before it", "outside"],
            ["on the pitch", "inside"],
          ],
        }),
        field("#/borders/back", "Behind it is", "Usual: only the crew.", { choices: BORDERS }),
        field("#/borders/left", "At its left is", "Usual: closed.", { choices: BORDERS }),
        field("#/borders/right", "At its right is", "Usual: closed.", { choices: BORDERS }),
        field("#/exit/side", "Way out", "For the crew.", {
          choices: [
            ["wherever it is best", undefined],
            ["at the back", "back"],
            ["at the front", "front"],
            ["at the left", "left"],
            ["at the right", "right"],
          ],
        }),
      ],
    },
    {
      legend: "What stands on it",
      rows: [
        {
          pointer: "#/pieces",
          one: "a piece",
          ...(given.pieces.length === 0
            ? {}
            : {
                help: `From the plan, placed besides: ${given.pieces.map(({ name }) => name).join(", ")}.`,
              }),
          fresh: {
            piece: freeName(request, "#/pieces", "table", "piece"),
            kind: "table",
            width: { value: 4, unit: "ft" },
            depth: { value: 2, unit: "ft" },
          },
          each: rowsOf(request, "#/pieces", "piece").map((row) => piece(request, row)),
        },
      ],
    },
    {
      legend: "The hot side",
      fields: hotSide(request),
    },
    {
      legend: "What the vehicle carries",
      rows: [
        {
          pointer: "#/vehicles",
          one: "a vehicle",
          fresh: {
            vehicle: freeName(request, "#/vehicles", "vehicle", "vehicle"),
            payload: { value: 500, unit: "kg" },
          },
          short: true,
          optional: true,
          each: rowsOf(request, "#/vehicles", "vehicle").map(({ at, name }) => ({
            at,
            name,
            fields: [
              field(`${at}/vehicle`, "Vehicle", "What you call it.", { writing: WORDS }),
              field(`${at}/payload`, "May carry", "From its papers, with the people taken off.", WEIGHT),
              field(`${at}/trips`, "Trips", "It can make; empty for 1.", { unit: "trips" }),
            ],
          })),
        },
        {
          pointer: "#/cargo",
          one: "a load",
          fresh: {
            item: freeName(request, "#/cargo", "item", "item"),
            weight: { value: 10, unit: "kg" },
            count: 1,
          },
          short: true,
          optional: true,
          each: rowsOf(request, "#/cargo", "item").map(({ at, name }) => ({
            at,
            name,
            fields: [
              field(`${at}/item`, "What", "What you call it.", { writing: WORDS }),
              field(`${at}/weight`, "Weighs", "One of them: 13 kg or 28 lb.", WEIGHT),
              field(`${at}/count`, "How many", "Empty for 1.", { unit: "pieces" }),
            ],
          })),
        },
      ],
    },
  ];
}

function piece(request: Json, { at, name }: { readonly at: string; readonly name: string }): Row {
  const swings = valueAt(request, `${at}/swing`) !== undefined;
  return {
    at,
    name,
    digest: LENGTHS.map((side) => LENGTH.writing.shown(valueAt(request, `${at}/${side}`))).join(" × "),
    fields: [
      field(`${at}/piece`, "Piece", "What you call it; each its own.", { writing: WORDS, settles: true }),
      field(`${at}/kind`, "Kind", "A press is hot.", {
        choices: [
          ["counter", "counter"],
          ["table", "table"],
          ["press", "press"],
          ["stock rack", "rack"],
          ["something else", "other"],
        ],
      }),
      field(`${at}/width`, "Width", "Along the side it is worked from.", LENGTH),
      field(`${at}/depth`, "Depth", "With the stand it is on.", LENGTH),
      field(`${at}/swing`, "Its lid swings out", "Beyond the footprint, seen by who works at it.", {
        choices: [
          ["nowhere", undefined],
          ["behind", { side: "behind", reach: { value: 6, unit: "in" } }],
          ["to the left", { side: "left", reach: { value: 6, unit: "in" } }],
          ["to the right", { side: "right", reach: { value: 6, unit: "in" } }],
        ],
        chosen: swings ? 1 + ["behind", "left", "right"].indexOf(wordAt(request, `${at}/swing/side`)) : 0,
      }),
      ...(swings ? [field(`${at}/swing/reach`, "Swings out by", "At its widest.", LENGTH)] : []),
      field(`${at}/clearance`, "Kept free around it", "Empty for what is usual.", { ...LENGTH, more: true }),
      field(`${at}/standing`, "Floor for who works at it", "Its depth; empty for what is usual.", {
        ...LENGTH,
        more: true,
      }),
    ],
  };
}

const LENGTHS = ["width", "depth"] as const;

function hotSide(request: Json) {
  const other = valueAt(request, "#/hotSide") !== undefined;
  return [
    field(
      "#/hotSide",
      "Hot parts stay away from the public by",
      "The rule is there so that nobody can reach a platen.",
      {
        choices: [
          ["as far as the rule says", undefined],
          ["another distance", { distance: { value: 3, unit: "ft" } }],
        ],
        chosen: other ? 1 : 0,
      },
    ),
    ...(other
      ? [
          field("#/hotSide/distance", "Distance", "From a hot part to where the public can stand.", LENGTH),
          field(
            "#/hotSide/reason",
            "Why less is safe here",
            "In writing, such as the screen between; printed with the pitch.",
            {
              writing: WORDS,
            },
          ),
        ]
      : []),
  ];
}

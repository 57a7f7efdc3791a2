/** The figures about products: offers, blanks in their colours and sizes, designs, and stock already owned. */

import type { Json } from "../../kit/json-pointer.ts";
import type { Field } from "../form/field.tsx";
import type { Group } from "../form/form.tsx";
import type { Row, Rows } from "../form/rows.tsx";
import { SHORT, WORDS } from "../form/writings.ts";
import { field, freeName, idsOf, named, rowsOf, wordAt } from "./names.ts";
import { askedOn, firstGarment, offers } from "./offers.ts";

export function productGroups(request: Json): readonly Group[] {
  const currency = wordAt(request, "#/currency", "USD");
  const each = `${currency} each`;
  return [
    {
      legend: "What you sell",
      essential: true,
      rows: [
        offers(request, currency),
        {
          pointer: "#/blanks",
          one: "a blank",
          short: true,
          help: "Blanks: what you press on. Colours and sizes are under More.",
          fresh: {
            id: freeName(request, "#/blanks", "blank"),
            name: "New blank",
            platen: "flat",
            cost: 4,
            colours: [{ id: "navy", share: 1 }],
            sizes: [{ id: "L", share: 1 }],
          },
          each: rowsOf(request, "#/blanks").map((row) => blank(request, row, each)),
        },
        {
          pointer: "#/designs",
          one: "a design",
          short: true,
          help: "Designs, each printed as transfers.",
          fresh: { id: freeName(request, "#/designs", "design"), name: "New design", cost: 2 },
          each: rowsOf(request, "#/designs").map(({ at, name }) => ({
            at,
            name,
            fields: [
              field(`${at}/cost`, `${name}, one transfer`, "Printed, with freight.", { unit: each }),
              ...named(at, true),
              field(`${at}/setUpCost`, "Set-up", "Paid if the design is brought at all.", {
                unit: `${currency} once`,
                more: true,
              }),
              field(`${at}/file`, "File of the art", "For who prints the transfers.", {
                writing: WORDS,
                more: true,
              }),
              leftover(at, "As a transfer, at another fair."),
              field(`${at}/day`, "Date in the art", "Its leftovers are worth nothing; empty for none.", {
                entry: "date",
                writing: WORDS,
                more: true,
              }),
              ...askedOn(request, at),
              ...stockOf(at).map((one) => ({ ...one, more: true })),
            ],
          })),
        },
      ],
    },
    {
      legend: "Stock you own, and what you must or may bring",
      rows: [
        {
          pointer: "#/ready",
          one: "printed garments",
          fresh: { ...firstGarment(request), owned: 1 },
          short: true,
          optional: true,
          help: "Garments that are printed already, such as those an earlier fair left.",
          each: rowsOf(request, "#/ready", "offer").map(({ at, name }) => ({
            at,
            name,
            fields: [
              field(`${at}/offer`, "Product", "That they are.", { choices: idsOf(request, "#/offers") }),
              field(`${at}/colour`, "Colour", "As stock sheets write it.", { writing: SHORT }),
              field(`${at}/size`, "Size", "As stock sheets write it.", { writing: WORDS }),
              field(`${at}/owned`, "Owned", "Printed and unsold.", { unit: "pieces" }),
            ],
          })),
        },
        {
          pointer: "#/skus",
          one: "a line",
          fresh: { sku: firstSku(request), owned: 0 },
          short: true,
          help: "Only what differs for one blank in one colour and size, written tee.navy.L.",
          each: rowsOf(request, "#/skus", "sku").map(({ at, name }) => ({
            at,
            name,
            fields: [
              field(`${at}/sku`, "Sku", "blank.colour.size", { writing: WORDS }),
              ...stockOf(at),
              field(`${at}/cost`, "Cost", "Empty for the blank's own.", { unit: each }),
            ],
          })),
        },
      ],
    },
  ];
}

const leftover = (at: string, help: string): Field =>
  field(`${at}/leftoverWorth`, "Worth when left over", help, { unit: "share of cost", more: true });

const stockOf = (at: string): Field[] => [
  field(`${at}/owned`, "Owned", "Paid for already; empty for none.", { unit: "pieces" }),
  field(`${at}/minimum`, "At least", "Empty for no limit.", { unit: "pieces" }),
  field(`${at}/maximum`, "At most", "Empty for no limit.", { unit: "pieces" }),
];

const firstSku = (request: Json): string =>
  ["id", "colours/0/id", "sizes/0/id"].map((part) => wordAt(request, `#/blanks/0/${part}`, "x")).join(".");

function blank(
  request: Json,
  { at, name }: { readonly at: string; readonly name: string },
  each: string,
): Row {
  const choices = (
    list: "colours" | "sizes",
    one: string,
    fresh: Json,
    more: (place: string) => Field[],
  ): Rows => ({
    pointer: `${at}/${list}`,
    one,
    fresh,
    short: true,
    help: `${list === "colours" ? "Colours" : "Sizes"} of ${name}. Only how the shares compare counts.`,
    each: rowsOf(request, `${at}/${list}`, "id").map(({ at: place, name: called }) => ({
      at: place,
      name: called,
      fields: [
        field(`${place}/id`, list === "colours" ? "Colour" : "Size", "As stock sheets write it.", {
          writing: list === "colours" ? SHORT : WORDS,
        }),
        field(`${place}/share`, "Wanted by", "Of all who ask.", { unit: "share of askers" }),
        ...more(place),
      ],
    })),
  });
  return {
    at,
    name,
    fields: [
      field(`${at}/cost`, `${name}, undecorated`, "With freight.", { unit: each }),
      ...named(at, true),
      field(`${at}/platen`, "Pressed on", "The kind of press it needs.", {
        choices: [
          ["a flat press", "flat"],
          ["a cap press", "cap"],
        ],
        more: true,
      }),
      field(`${at}/styleNumber`, "Style number", "As the supplier's list has it.", {
        writing: WORDS,
        more: true,
      }),
      field(
        `${at}/casePack`,
        "Sold in packs of",
        "Of one colour and size; 1 where any number can be bought.",
        {
          unit: "pieces",
          more: true,
        },
      ),
      field(`${at}/perCarton`, "In one carton", "For the packing list and the van.", {
        unit: "pieces",
        more: true,
      }),
      leftover(at, "A blank keeps most of its cost for the next fair."),
    ],
    rows: [
      {
        pointer: `${at}/priceBreaks`,
        one: "a lower price for many",
        fresh: { from: 24, off: "10 %" },
        short: true,
        optional: true,
        help: `Lower prices of ${name}, by the pieces of one colour and size that you buy at once.`,
        each: rowsOf(request, `${at}/priceBreaks`, "from").map(({ at: place, name: from }) => ({
          at: place,
          name: `from ${from}`,
          fields: [
            field(`${place}/from`, "From", "Of one colour and size.", { unit: "pieces" }),
            field(`${place}/off`, "Off", "The cost of each of them.", { unit: "share of cost" }),
          ],
        })),
      },
      choices("colours", "a colour", { id: "new-colour", share: 0 }, () => []),
      choices("sizes", "a size", { id: "4XL", share: 0 }, (place) => [
        field(`${place}/cost`, "Cost", "Empty for the blank's own.", { unit: each }),
        field(`${place}/youth`, "Worn by", "Nobody takes a youth size for an adult one.", {
          choices: [
            ["adults", undefined],
            ["children", true],
          ],
        }),
      ]),
    ],
  };
}

/** The day's account as its tables. Pure. */

import type { Closeout } from "../../../model/accounts/closeout.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import { timeOfDay } from "../crew/words/clock.ts";
import { moneyWords } from "../crew/words/money.ts";
import { rackWords, whyRacked } from "../crew/words/rack.ts";
import { spelt } from "../kit/spelling.ts";

export type Cell = string | number | null;

/** A table of the account: its name, its headings, and its rows, each headed by its first cell. */
export type Figures = {
  readonly id: string;
  readonly title: string;
  readonly headings: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
};

const PIECES = [
  "Began with",
  "Delivered",
  "Corrected",
  "Pressed",
  "Spoiled",
  "Expected",
  "Counted",
  "Missing",
  "Worth next time",
];
const SOLD = ["Garments", "Sold for"];

const SPOILED: Readonly<Record<string, string>> = {
  crooked: "crooked",
  scorched: "scorched",
  "wrong-size": "wrong size",
  "peeled-badly": "peeled badly",
  other: "other",
};
const TENDERS = {
  cash: "Cash",
  card: "Card",
  other: "Other",
  "not-noted": "Handed over, payment not noted",
} as const;

/** "3: scorched 2, crooked 1" */
function spoiledWords(spoiled: Closeout["skus"][number]["spoiled"]): string {
  const reasons = Object.entries(spoiled).filter(([, pieces]) => (pieces ?? 0) !== 0);
  const sum = reasons.reduce((total, [, pieces]) => total + (pieces ?? 0), 0);
  const each = reasons.map(([reason, pieces]) => `${SPOILED[reason] ?? reason} ${pieces}`).join(", ");
  return sum === 0 ? "0" : `${sum}: ${each}`;
}

type Piece = Closeout["skus"][number] | Closeout["transfers"][number];

/** A piece that was never there and never used is left out. */
const touched = (piece: Piece): boolean =>
  piece.opening !== 0 ||
  piece.delivered !== 0 ||
  piece.corrected !== 0 ||
  piece.left !== 0 ||
  piece.pressed !== 0;

/** Sizes as the menu lists them, from the first blank that has each. */
const inOrder = <T extends { readonly size: string }>(rows: readonly T[], menu: Menu): readonly T[] => {
  const order = [...new Set(menu.blanks.flatMap(({ sizes }) => sizes.map(({ id }): string => id)))];
  return [...rows].sort((a, b) => order.indexOf(a.size) - order.indexOf(b.size));
};

/** The garments on the rack, those together that are alike and hang there for the same reason. */
function rackCounts({ rack = [] }: Closeout): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const garment of rack) {
    const what = `${rackWords(garment)}: ${whyRacked(garment)}`;
    counts.set(what, (counts.get(what) ?? 0) + 1);
  }
  return counts;
}

/** The day's takings and costs, its tables in two parts, and the figures at a glance. */
export function tablesOf(account: Closeout, menu: Menu) {
  const { currency, sales, money, waste, left, waits } = account;
  const sum = (amount: number): string => moneyWords(amount, currency);
  const sumOrNone = (amount: number | null): string | null => (amount === null ? null : sum(amount));
  const clock = (at: string | null): string => (at === null ? "all day" : timeOfDay(at, account.timeZone));
  // Nobody calls it profit before the costs are in.
  const hasCosts = account.costs !== null;
  const net = money.sales + money.difference - money.givenBack;
  const perHour = hasCosts
    ? money.profitPerHour
    : money.openHours > 0
      ? Math.round(net / money.openHours)
      : null;
  const pieces = (piece: Piece): readonly Cell[] => [
    piece.name,
    piece.opening,
    piece.delivered,
    piece.corrected,
    piece.pressed,
    spoiledWords(piece.spoiled),
    piece.expected,
    piece.counted,
    piece.missing,
    sumOrNone(piece.worthNextTime),
  ];
  const sold = (row: {
    name: string;
    garments: number;
    amount: number;
    returned: number;
  }): readonly Cell[] => [
    row.name,
    row.returned === 0 ? row.garments : `${row.garments}, ${row.returned} back`,
    sum(row.amount),
  ];
  const less = (amount: number): string => (amount === 0 ? sum(0) : `− ${sum(amount)}`);
  const spent: readonly (readonly Cell[])[] = hasCosts
    ? [
        ["Blanks used", less(money.blanks)],
        ["Transfers used", less(money.transfers)],
        ["Fees", less(money.fees)],
        ["Wages", less(money.wages)],
        ["Card fees", less(money.cardFees)],
        ["Profit", sum(money.profit)],
      ]
    : [["Sales, no costs yet", sum(net)]];
  const moneyRows: readonly (readonly Cell[])[] = [
    ["Sales, before tax", sum(money.sales)],
    ...(money.difference === 0 ? [] : [["Paid beyond the price", sum(money.difference)]]),
    ["Given back", less(money.givenBack)],
    ...spent,
    ["Tax collected (owed, not earned)", sum(money.tax)],
  ];
  const sheet: readonly Figures[] = [
    { id: "offers", title: "Sold, by offer", headings: ["Offer", ...SOLD], rows: sales.offers.map(sold) },
    {
      id: "tenders",
      title: "Taken, tax included",
      headings: ["How", "Payments", "Taken", "Given back"],
      rows: sales.tenders.map(({ tender, payments, amount, givenBack }) => [
        TENDERS[tender],
        payments,
        sum(amount),
        sum(givenBack),
      ]),
    },
    {
      id: "sold-out",
      title: "Sold out",
      headings: ["What", "Since", "Asked for after that"],
      rows: account.soldOut.map(({ name, colourName, sizeName, at, unmetAfter }) => [
        `${name}, ${colourName}, ${sizeName}`,
        clock(at),
        unmetAfter,
      ]),
    },
    {
      id: "rack",
      title: "On the rack",
      headings: ["What", "Garments"],
      rows: [...rackCounts(account)],
    },
    {
      id: "waste",
      title: "Waste",
      headings: ["What", "Pieces"],
      rows: [
        ["Blanks spoiled", waste.blanks],
        ["Transfers spoiled", waste.transfers],
        ["Pieces missing", waste.missing],
        ["Pressed but unsold", waste.unsold],
        ...(waste.seconds === undefined
          ? []
          : [[`Sold as seconds, ${sum(waste.seconds.less)} off`, waste.seconds.garments]]),
        ["All of it, at cost", hasCosts ? sum(waste.cost) : null],
      ],
    },
  ];
  const split: readonly Figures[] = [
    {
      id: "sizes",
      title: "By size",
      headings: ["Size", ...SOLD],
      rows: inOrder(sales.sizes, menu).map(sold),
    },
    {
      id: "colours",
      title: spelt("By colour"),
      headings: [spelt("Colour"), ...SOLD],
      rows: sales.colours.map(sold),
    },
    {
      id: "hours",
      title: "By hour",
      headings: ["From", "Orders", ...SOLD],
      rows: sales.hours.map(({ from, orders, garments, amount }) => [from, orders, garments, sum(amount)]),
    },
  ];
  const stock: readonly Figures[] = [
    {
      id: "skus",
      title: "Blanks",
      headings: ["Blank", ...PIECES],
      rows: account.skus.filter(touched).map(pieces),
    },
    {
      id: "transfers",
      title: "Transfers",
      headings: ["Transfer", ...PIECES],
      rows: account.transfers.filter(touched).map(pieces),
    },
  ];
  const garments = sales.offers.reduce((total, row) => total + row.garments, 0);
  const glance: readonly (readonly [string, string])[] = [
    hasCosts ? ["Profit", sum(money.profit)] : ["Sales, before tax", sum(net)],
    ["Per hour open", sumOrNone(perHour) ?? "–"],
    ["Garments sold", String(garments)],
    ["Promises kept", waits.promised === 0 ? "–" : `${waits.kept} of ${waits.promised}`],
    ["Typical wait", waits.medianMinutes === null ? "–" : `${waits.medianMinutes} min`],
    ["Leftover stock value", hasCosts ? `${sum(left.worthNextTime)} of ${sum(left.cost)}` : "–"],
  ];
  return { glance, money: moneyRows, sheet, split, stock };
}

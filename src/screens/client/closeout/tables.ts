/** The day's account put into its tables. */
import type { Closeout } from "../../../model/accounts/closeout.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import { moneyWords } from "../crew/words/money.ts";
import { byId, element } from "../kit/dom.ts";

type Cell = string | number | null;

/** Fills a table's body; the first cell of a row heads it. A table without rows is not shown. */
function fill(id: string, rows: readonly (readonly Cell[])[]): void {
  const body = byId<HTMLTableElement>(id).tBodies[0];
  body?.replaceChildren(
    ...rows.map(([head, ...cells]) =>
      element(
        "tr",
        {},
        element("th", { scope: "row" }, String(head ?? "")),
        ...cells.map((cell) => element("td", { class: "number" }, cell === null ? "–" : String(cell))),
      ),
    ),
  );
  const part = document.getElementById(`${id}-part`);
  if (part !== null) part.hidden = rows.length === 0;
}

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

/** A piece that was never there and never touched tells nothing. */
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

export function showAccount(account: Closeout, menu: Menu): void {
  const { currency, sales, money, waste, left, waits } = account;
  const sum = (amount: number): string => moneyWords(amount, currency);
  const sumOrNone = (amount: number | null): string | null => (amount === null ? null : sum(amount));
  const time = new Intl.DateTimeFormat(undefined, {
    hour: "numeric",
    minute: "2-digit",
    timeZone: account.timeZone,
  });
  const clock = (at: string | null): string => (at === null ? "all day" : time.format(new Date(at)));
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
  fill("skus", account.skus.filter(touched).map(pieces));
  fill("transfers", account.transfers.filter(touched).map(pieces));
  fill("offers", sales.offers.map(sold));
  fill("sizes", inOrder(sales.sizes, menu).map(sold));
  fill("colours", sales.colours.map(sold));
  fill(
    "hours",
    sales.hours.map(({ from, orders, garments, amount }) => [from, orders, garments, sum(amount)]),
  );
  fill(
    "tenders",
    sales.tenders.map(({ tender, payments, amount, givenBack }) => [
      TENDERS[tender],
      payments,
      sum(amount),
      sum(givenBack),
    ]),
  );
  fill(
    "sold-out",
    account.soldOut.map(({ name, colourName, sizeName, at, unmetAfter }) => [
      `${name}, ${colourName}, ${sizeName}`,
      clock(at),
      unmetAfter,
    ]),
  );
  fill("waste", [
    ["Blanks spoiled", waste.blanks],
    ["Transfers spoiled", waste.transfers],
    ["Pieces missing", waste.missing],
    ["Garments pressed, not kept", waste.unsold],
    ["All of it, at cost", hasCosts ? sum(waste.cost) : null],
  ]);
  const less = (amount: number): string => (amount === 0 ? sum(0) : `− ${sum(amount)}`);
  fill("money", [
    ["Sales, before tax", sum(money.sales)],
    ...(money.difference === 0 ? [] : [["Paid beyond the price", sum(money.difference)] as const]),
    ["Given back", less(money.givenBack)],
    ...(hasCosts
      ? ([
          ["Blanks used", less(money.blanks)],
          ["Transfers used", less(money.transfers)],
          ["Fees", less(money.fees)],
          ["Wages", less(money.wages)],
          ["Card fees", less(money.cardFees)],
          ["Profit", sum(money.profit)],
        ] as const)
      : ([["Sales, no costs yet", sum(net)]] as const)),
    ["Tax collected (owed, not earned)", sum(money.tax)],
  ]);
  const garments = sales.offers.reduce((total, row) => total + row.garments, 0);
  const glance: readonly (readonly [string, string])[] = [
    hasCosts ? ["Profit", sum(money.profit)] : ["Sales, before tax", sum(net)],
    ["Per hour open", sumOrNone(perHour) ?? "–"],
    ["Garments sold", String(garments)],
    ["Promises kept", waits.promised === 0 ? "–" : `${waits.kept} of ${waits.promised}`],
    ["Half waited at most", waits.medianMinutes === null ? "–" : `${waits.medianMinutes} min`],
    ["Left, worth next time", hasCosts ? `${sum(left.worthNextTime)} of ${sum(left.cost)}` : "–"],
  ];
  byId("glance").replaceChildren(
    ...glance.map(([name, figure]) => element("div", {}, element("dt", {}, name), element("dd", {}, figure))),
  );
}

/** A day's account as one sheet: a row a figure, so that any spreadsheet can sort and add it up. */
import type { Closeout } from "../../model/accounts/closeout.ts";
import { type Cell, type Column, csvOf } from "../../model/basics/csv.ts";
import { MINOR_DIGITS } from "../../model/basics/minor-digits.ts";

const COLUMNS = ["Day", "Part", "Item", "Figure", "Value", "Unit"].map(
  (heading, at): Column<readonly Cell[]> => [heading, (row) => row[at] ?? null],
);

type Row = readonly [part: string, item: string, figure: string, value: Cell, unit: string];

type Piece = Closeout["skus"][number] | Closeout["transfers"][number];

function pieceRows(part: string, item: string, piece: Piece, money: Money): readonly Row[] {
  const counts = ["opening", "delivered", "corrected", "pressed"] as const;
  const after = ["expected", "counted", "missing", "left"] as const;
  return [
    ...counts.map((figure): Row => [part, item, figure, piece[figure], "pieces"]),
    ...Object.entries(piece.spoiled).map(
      ([reason, pieces]): Row => [part, item, `spoiled, ${reason}`, pieces ?? 0, "pieces"],
    ),
    ...after.map((figure): Row => [part, item, figure, piece[figure], "pieces"]),
    [part, item, "none free since", piece.emptyAt, "time"],
    money(part, item, "worth next time", piece.worthNextTime),
  ];
}

type Money = (part: string, item: string, figure: string, amount: number | null) => Row;

/** The drawer: its float, what changed hands, pay-outs and counts. */
function drawerRows({ drawer }: Closeout, money: Money): readonly Row[] {
  if (drawer === null || drawer === undefined) return [];
  const { float, tenders, paidOut, counts, expected, owed, due, takers } = drawer;
  return [
    money("Drawer", "Float", "amount", float),
    ...tenders.flatMap(({ tender, in: came, out, tips }) => [
      money("Drawer", tender, "in, tips included", came),
      money("Drawer", tender, "of that tips", tips),
      money("Drawer", tender, "out", out),
    ]),
    ...paidOut.map(({ at, amount, reason }) => money("Drawer", `Paid out ${at}`, reason, amount)),
    ...counts.flatMap(({ at, counted, difference, handOver }) => [
      money("Drawer", `Count ${at}`, handOver ? "counted, handed over" : "counted", counted),
      money("Drawer", `Count ${at}`, "difference", difference),
    ]),
    money("Drawer", "Cash", "should be there", expected),
    ...owed.map(({ number, amount }) => money("Drawer", `Order ${number}`, "to be given back", amount)),
    ...due.map(({ number, amount }) => money("Drawer", `Order ${number}`, "still to be paid", amount)),
    ...takers.map(({ name, tender, amount }) => money("Drawer", `Taken by ${name}`, tender, amount)),
  ];
}

/** The whole account, with the day in every row. */
export function closeoutCsv(account: Closeout): string {
  const { currency, sales, waste, waits, left } = account;
  const unit = 10 ** MINOR_DIGITS[currency];
  const money: Money = (part, item, figure, amount) => [
    part,
    item,
    figure,
    amount === null ? null : amount / unit,
    currency,
  ];
  const soldRows = (
    part: string,
    rows: readonly { name: string; garments: number; amount: number; returned: number }[],
  ): Row[] =>
    rows.flatMap(({ name, garments, amount, returned }): Row[] => [
      [part, name, "garments sold", garments, "garments"],
      money(part, name, "sold for, before tax", amount),
      [part, name, "garments returned", returned, "garments"],
    ]);
  const rows: Row[] = [
    ...account.skus.flatMap((piece) => pieceRows("Blanks", piece.sku, piece, money)),
    ...account.transfers.flatMap((piece) => pieceRows("Transfers", piece.name, piece, money)),
    ...soldRows("Sales by offer", sales.offers),
    ...soldRows("Sales by colour", sales.colours),
    ...soldRows("Sales by size", sales.sizes),
    ...sales.choices.flatMap(({ name, colourName, sizeName, garments, asked, unmet }): Row[] => {
      const item = `${name}, ${colourName}, ${sizeName}`;
      return [
        ["Choices", item, "garments sold", garments, "garments"],
        ["Choices", item, "garments asked for", asked, "garments"],
        ["Choices", item, "of those not to be had", unmet, "garments"],
      ];
    }),
    ...sales.hours.flatMap(({ from, orders, garments, amount }): Row[] => [
      ["Sales by hour", from, "orders", orders, "orders"],
      ["Sales by hour", from, "garments sold", garments, "garments"],
      money("Sales by hour", from, "sold for, before tax", amount),
    ]),
    ...sales.tenders.flatMap(({ tender, payments, amount, returns, givenBack }): Row[] => [
      ["Takings", tender, "payments", payments, "payments"],
      money("Takings", tender, "taken, tax included", amount),
      ["Takings", tender, "returns", returns, "payments"],
      money("Takings", tender, "given back, tax included", givenBack),
    ]),
    ...drawerRows(account, money),
    ...MONEY.map(([figure, words]): Row => money("Money", words, "amount", account.money[figure])),
    ["Money", "Open", "time", account.money.openHours, "hours"],
    ["Waste", "Blanks spoiled", "pieces", waste.blanks, "pieces"],
    ["Waste", "Transfers spoiled", "pieces", waste.transfers, "pieces"],
    ["Waste", "Missing", "pieces", waste.missing, "pieces"],
    ["Waste", "Pressed, not kept", "garments", waste.unsold, "garments"],
    ...(waste.seconds === undefined
      ? []
      : [
          ["Waste", "Sold as seconds", "garments", waste.seconds.garments, "garments"] satisfies Row,
          money("Waste", "Sold as seconds", "off the price", waste.seconds.less),
        ]),
    money("Waste", "All of it", "cost", waste.cost),
    ...account.soldOut.flatMap(({ name, colourName, sizeName, at, unmetAfter }): Row[] => {
      const item = `${name}, ${colourName}, ${sizeName}`;
      return [
        ["Sold out", item, "since", at, "time"],
        ["Sold out", item, "asked for in vain after it", unmetAfter, "garments"],
      ];
    }),
    ...(account.rack ?? []).map(({ key, name, colourName, sizeName, why }): Row => {
      const item = `${key} ${name}, ${colourName}, ${sizeName}`;
      return ["Rack", item, why, 1, "garments"];
    }),
    ["Left", "Blanks", "pieces", left.blanks, "pieces"],
    ["Left", "Transfers", "pieces", left.transfers, "pieces"],
    money("Left", "All of it", "cost", left.cost),
    money("Left", "All of it", "worth next time", left.worthNextTime),
    ["Waits", "Promised", "orders", waits.promised, "orders"],
    ["Waits", "Kept", "orders", waits.kept, "orders"],
    ["Waits", "Half waited at most", "wait", waits.medianMinutes, "minutes"],
    ["Waits", "Nine of ten waited at most", "wait", waits.p90Minutes, "minutes"],
  ];
  return csvOf(
    COLUMNS,
    rows.map((row) => [account.day, ...row]),
  );
}

const MONEY = [
  ["sales", "Sales, before tax"],
  ["difference", "Paid beyond the price"],
  ["givenBack", "Given back"],
  ["tax", "Tax collected"],
  ["blanks", "Blanks used"],
  ["transfers", "Transfers used"],
  ["fees", "Fees"],
  ["wages", "Wages"],
  ["cardFees", "Card fees"],
  ["profit", "Profit"],
  ["profitPerHour", "Profit per hour open"],
] as const;

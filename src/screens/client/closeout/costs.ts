/** The table of what a day cost: a row for each blank and design, the fees, the wages, the card's share. */

import type { Closeout } from "../../../model/accounts/closeout.ts";
import { MINOR_DIGITS } from "../../../model/basics/minor-digits.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import { minorUnitsTyped } from "../crew/words/money.ts";
import { byId, element } from "../kit/dom.ts";

const FEES = ["Pitch", "Power", "Travel", "Permit"];

type Field = { readonly id: string; readonly label: string; readonly value: string; readonly wide?: boolean };

function field({ id, label, value, wide = false }: Field): HTMLElement {
  const input = element("input", {
    id,
    value,
    inputmode: wide ? "text" : "decimal",
    autocomplete: "off",
    maxlength: 40,
    "aria-label": label,
  });
  return element("td", wide ? { colspan: 2 } : {}, input);
}

/** A row: what it is for in words, or as a field of its own, and its figures. */
const row = (heading: string | HTMLElement, ...cells: readonly HTMLElement[]): HTMLElement =>
  element(
    "tr",
    {},
    typeof heading === "string" ? element("th", { scope: "row" }, heading) : heading,
    ...cells,
    ...(cells.length < 2 && cells[0]?.hasAttribute("colspan") !== true ? [element("td")] : []),
  );

const group = (title: string, second: string, third: string, ...rows: readonly HTMLElement[]): HTMLElement =>
  element(
    "tbody",
    {},
    element(
      "tr",
      { class: "heads" },
      ...[title, second, third].map((one, at) =>
        one === "" ? element("td") : element("th", { scope: at === 0 ? "rowgroup" : "col" }, one),
      ),
    ),
    ...rows,
  );

/** Minor units as they are typed: "4.10"; nothing for what is not known. */
function typed(amount: number | undefined, account: Closeout): string {
  if (amount === undefined) return "";
  const digits = MINOR_DIGITS[account.currency];
  return (amount / 10 ** digits).toFixed(digits);
}

/** Draws the form with this day's costs, or with those of the day before to begin from. */
export function showCosts(form: HTMLFormElement, account: Closeout, menu: Menu): void {
  const costs = account.costs ?? account.earlierCosts;
  const blanks = menu.blanks.flatMap((blank) => {
    const lines = costs?.blanks.filter((line) => line.blank === blank.id) ?? [];
    const general = lines.find(({ size }) => size === undefined);
    const own = lines.filter(({ size }) => size !== undefined);
    return [
      row(
        blank.name,
        field({
          id: `blank ${blank.id}`,
          label: `${blank.name}, each`,
          value: typed(general?.cost, account),
        }),
        field({
          id: `worth ${blank.id}`,
          label: `${blank.name}, worth next time, %`,
          value: String(general?.worthPercent ?? 80),
        }),
      ),
      ...(blank.sizes.length < 2
        ? []
        : [
            row(
              "Sizes at another cost",
              field({
                id: `sizes ${blank.id}`,
                label: `${blank.name}, sizes at another cost, such as 2XL 5.60, 3XL 6.40`,
                value: own.map(({ size, cost }) => `${size} ${typed(cost, account)}`).join(", "),
                wide: true,
              }),
            ),
          ]),
    ];
  });
  const transfers = menu.designs.map((design) => {
    const line = costs?.transfers.find((one) => one.design === design.id);
    return row(
      design.name,
      field({
        id: `transfer ${design.id}`,
        label: `${design.name} transfer, each`,
        value: typed(line?.cost, account),
      }),
      field({
        id: `kept ${design.id}`,
        label: `${design.name} transfer, worth next time, %`,
        value: String(line?.worthPercent ?? 0),
      }),
    );
  });
  const fees = costs?.fees.length ? costs.fees : FEES.map((name) => ({ name, amount: undefined }));
  const feeRow = (name: string, amount: number | undefined, at: number): HTMLElement =>
    row(
      field({ id: `fee-name ${at}`, label: `Fee ${at + 1}, what for`, value: name }),
      field({ id: `fee ${at}`, label: `Fee ${at + 1}, amount`, value: typed(amount, account) }),
    );
  const { wages, cardFee } = costs ?? {};
  const one = (id: string, label: string, value: string): HTMLElement =>
    row(label, field({ id, label, value }));
  const table = element(
    "table",
    { "aria-labelledby": "costs-title" },
    group("Blanks", "Each", "Worth next time, %", ...blanks),
    group("Transfers", "Each", "Worth next time, %", ...transfers),
    group(
      "Fees",
      "Amount",
      "",
      ...fees.map(({ name, amount }, at) => feeRow(name, amount, at)),
      feeRow("", undefined, fees.length),
    ),
    group(
      "Wages",
      "",
      "",
      one("people", "People", wages === undefined ? "" : String(wages.people)),
      one("paid-hours", "Hours of each", wages === undefined ? "" : String(wages.hours)),
      one("hourly", "Pay of an hour", typed(wages?.hourly, account)),
    ),
    group(
      "Card fees",
      "",
      "",
      one(
        "card-share",
        "Share of each payment, %",
        cardFee === undefined ? "" : String(cardFee.partsPerMillion / 10_000),
      ),
      one("card-each", "And for each payment", typed(cardFee?.each, account)),
    ),
  );
  form.replaceChildren(
    table,
    element("p", { id: "costs-faults", role: "alert" }),
    element("button", { type: "submit" }, "Keep the costs"),
  );
}

const fieldText = (id: string): string =>
  (document.getElementById(id) as HTMLInputElement | null)?.value.trim() ?? ""; // the form's own fields

/** The costs as typed, or what cannot be read of them and where. */
export function costsTyped(
  account: Closeout,
  menu: Menu,
): { readonly costs: object } | { readonly fault: string } {
  const faults: string[] = [];
  const sum = (text: string, what: string): number => {
    const amount = minorUnitsTyped(text, account.currency);
    if (amount === null) faults.push(`“${text}” for ${what} is no sum of money, such as 4.10`);
    return amount ?? 0;
  };
  const number = (text: string, what: string, most: number): number => {
    const value = Number(text.replace(",", "."));
    const good = text !== "" && Number.isFinite(value) && value >= 0 && value <= most;
    if (!good) faults.push(`“${text}” for ${what} is no number from 0 to ${most}`);
    return good ? value : 0;
  };
  const percent = (id: string, what: string): number => Math.round(number(fieldText(id) || "0", what, 100));
  const blanks = menu.blanks.flatMap(({ id, name, sizes }) => {
    const worthPercent = percent(`worth ${id}`, `what a ${name} is worth next time`);
    const general = fieldText(`blank ${id}`);
    const own = fieldText(`sizes ${id}`)
      .split(/\s*[,;]\s+|\s*;\s*/)
      .filter((part) => part !== "")
      .flatMap((part) => {
        const [size = "", cost = ""] = part.split(/\s+/);
        if (!sizes.some((one) => one.id === size)) {
          faults.push(`“${size}” is no size of ${name}`);
          return [];
        }
        return [{ blank: id, size, cost: sum(cost, `${name}, ${size}`), worthPercent }];
      });
    return [...(general === "" ? [] : [{ blank: id, cost: sum(general, name), worthPercent }]), ...own];
  });
  const transfers = menu.designs.flatMap(({ id, name }) => {
    const cost = fieldText(`transfer ${id}`);
    const worthPercent = percent(`kept ${id}`, `what a ${name} transfer is worth next time`);
    return cost === "" ? [] : [{ design: id, cost: sum(cost, `the ${name} transfer`), worthPercent }];
  });
  const rows = document.querySelectorAll('#costs [id^="fee "]').length;
  const fees = Array.from({ length: rows }, (_, at) => at).flatMap((at) => {
    const [name, amount] = [fieldText(`fee-name ${at}`), fieldText(`fee ${at}`)];
    if (amount === "") return [];
    if (name === "") faults.push("a fee has an amount and no name");
    return [{ name, amount: sum(amount, name) }];
  });
  const paid = ["people", "paid-hours", "hourly"].some((id) => fieldText(id) !== "");
  const wages = paid
    ? {
        wages: {
          people: Math.round(number(fieldText("people"), "people", 60)),
          hours: number(fieldText("paid-hours"), "hours", 48),
          hourly: sum(fieldText("hourly"), "the pay of an hour"),
        },
      }
    : {};
  const byCard = fieldText("card-share") !== "" || fieldText("card-each") !== "";
  const cardFee = byCard
    ? {
        cardFee: {
          partsPerMillion: Math.round(
            number(fieldText("card-share") || "0", "the card’s share", 100) * 10_000,
          ),
          each: fieldText("card-each") === "" ? 0 : sum(fieldText("card-each"), "each card payment"),
        },
      }
    : {};
  const [fault] = faults;
  return fault === undefined ? { costs: { blanks, transfers, fees, ...wages, ...cardFee } } : { fault };
}

export const costsForm = (): HTMLFormElement => byId<HTMLFormElement>("costs");

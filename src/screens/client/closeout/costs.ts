/** The costs of a day: a row for each blank and design, the fees, the wages, the card's share. Pure. */
import type { Closeout } from "../../../model/accounts/closeout.ts";
import { MINOR_DIGITS } from "../../../model/basics/minor-digits.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import { minorUnitsTyped } from "../crew/words/money.ts";

const FEES = ["Pitch", "Power", "Travel", "Permit"];

export type CostField = {
  readonly id: string;
  readonly label: string;
  /** As it was kept. */
  readonly value: string;
  /** It takes words as well, and the width of two. */
  readonly wide?: true;
};
/** A row's name (words, or a field of its own), and its figures. */
type CostRow = { readonly heading: string | CostField; readonly cells: readonly CostField[] };
export type CostForm = readonly {
  readonly title: string;
  readonly heads: readonly string[];
  readonly rows: readonly CostRow[];
}[];
/** The values typed since, by the fields' ids. */
export type Written = Readonly<Record<string, string>>;

const fieldsOf = ({ heading, cells }: CostRow): readonly CostField[] =>
  typeof heading === "string" ? cells : [heading, ...cells];

/** Minor units as typed: "4.10"; empty if unknown. */
function typed(amount: number | undefined, account: Closeout): string {
  if (amount === undefined) return "";
  const digits = MINOR_DIGITS[account.currency];
  return (amount / 10 ** digits).toFixed(digits);
}

/** The form with this day's costs, or with those of the day before to begin from. */
export function costForm(account: Closeout, menu: Menu): CostForm {
  const costs = account.costs ?? account.earlierCosts;
  const blanks = menu.blanks.flatMap(({ id, name, sizes }): readonly CostRow[] => {
    const lines = costs?.blanks.filter(({ blank }) => blank === id) ?? [];
    const general = lines.find(({ size }) => size === undefined);
    const own = lines.filter(({ size }) => size !== undefined);
    const each = {
      heading: name,
      cells: [
        { id: `blank ${id}`, label: `${name}, each`, value: typed(general?.cost, account) },
        {
          id: `worth ${id}`,
          label: `${name}, worth next time, %`,
          value: String(general?.worthPercent ?? 80),
        },
      ],
    };
    if (sizes.length < 2) return [each];
    const others = {
      id: `sizes ${id}`,
      label: `${name}, sizes at another cost, such as 2XL 5.60, 3XL 6.40`,
      value: own.map(({ size, cost }) => `${size} ${typed(cost, account)}`).join(", "),
      wide: true,
    } as const;
    return [each, { heading: "Sizes at another cost", cells: [others] }];
  });
  const transfers = menu.designs.map(({ id, name }): CostRow => {
    const line = costs?.transfers.find(({ design }) => design === id);
    return {
      heading: name,
      cells: [
        { id: `transfer ${id}`, label: `${name} transfer, each`, value: typed(line?.cost, account) },
        {
          id: `kept ${id}`,
          label: `${name} transfer, worth next time, %`,
          value: String(line?.worthPercent ?? 0),
        },
      ],
    };
  });
  const known = costs?.fees.length ? costs.fees : FEES.map((name) => ({ name, amount: undefined }));
  const fees = [...known, { name: "", amount: undefined }].map(
    ({ name, amount }, at): CostRow => ({
      heading: { id: `fee-name ${at}`, label: `Fee ${at + 1}, what for`, value: name },
      cells: [{ id: `fee ${at}`, label: `Fee ${at + 1}, amount`, value: typed(amount, account) }],
    }),
  );
  const { wages, cardFee } = costs ?? {};
  const one = (id: string, label: string, value: number | string | undefined): CostRow => ({
    heading: label,
    cells: [{ id, label, value: String(value ?? "") }],
  });
  const share = cardFee === undefined ? undefined : cardFee.partsPerMillion / 10_000;
  return [
    { title: "Blanks", heads: ["Each", "Leftover value, % of cost"], rows: blanks },
    { title: "Transfers", heads: ["Each", "Leftover value, % of cost"], rows: transfers },
    { title: "Fees", heads: ["Amount"], rows: fees },
    {
      title: "Wages",
      heads: [],
      rows: [
        one("people", "People", wages?.people),
        one("paid-hours", "Hours of each", wages?.hours),
        one("hourly", "Pay of an hour", typed(wages?.hourly, account)),
      ],
    },
    {
      title: "Card fees",
      heads: [],
      rows: [
        one("card-share", "Share of each payment, %", share),
        one("card-each", "Fixed fee per payment", typed(cardFee?.each, account)),
      ],
    },
  ];
}

/** The costs as typed, or the values that cannot be read, with their places. */
export function costsTyped(
  form: CostForm,
  written: Written,
  account: Closeout,
  menu: Menu,
): { readonly costs: object } | { readonly fault: string } {
  const faults: string[] = [];
  const fields = new Map(
    form.flatMap(({ rows }) => rows.flatMap(fieldsOf)).map((field) => [field.id, field]),
  );
  const fieldText = (id: string): string => (written[id] ?? fields.get(id)?.value ?? "").trim();
  const sum = (text: string, what: string): number => {
    const amount = minorUnitsTyped(text, account.currency);
    if (amount === null) faults.push(`${what}: “${text}” isn’t an amount. Enter one, e.g. 4.10`);
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
          faults.push(`“${size}” isn’t a size of ${name}`);
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
  const rows = [...fields.keys()].filter((id) => id.startsWith("fee "));
  const fees = [...rows.keys()].flatMap((at) => {
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

/** The slip: the lines so far, what they come to, and the paper number where it was written on paper. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { Tender } from "../../../model/orders/order.ts";
import { bill } from "../../../stall/stock/bill.ts";
import type { SlipLine, Taken } from "../crew/offline.ts";
import { moneyWords } from "../crew/words/money.ts";
import { byId, element } from "../kit/dom.ts";
import type { Wanted } from "./acts.ts";
import { changeDue, takerName } from "./cash.ts";
import { nextPaperNumber, paperFrom } from "./paper.ts";

/** More than the stall takes in one order. */
const TOO_MANY = 64;

export type Slip = {
  readonly add: (line: SlipLine) => void;
  readonly show: () => void;
  /** The slip was taken: an empty one, with the next paper number ready where this was a paper one. */
  readonly clear: (paper: number | null) => void;
};

const same = (one: SlipLine, other: SlipLine): boolean =>
  one.offer === other.offer && one.colour === other.colour && one.size === other.size;

/** `place` is given the order, and what the screen shows of it. */
export function slip(menu: () => Menu | null, place: (wanted: Wanted, taken: Taken) => void): Slip {
  let lines: readonly SlipLine[] = [];
  const name = byId<HTMLInputElement>("name");
  const paper = byId<HTMLDetailsElement>("paper");
  const paperNumber = byId<HTMLInputElement>("paper-number");
  const paperTime = byId<HTMLInputElement>("paper-time");
  const given = byId<HTMLInputElement>("slip-given");
  const missing = (text: string): void => {
    byId("slip-missing").textContent = text;
  };

  const showChange = (): void => {
    const whole = menu();
    byId("slip-change").textContent =
      whole === null || lines.length === 0
        ? ""
        : changeDue(given.value, bill(lines, whole.rules).total, whole.currency);
  };

  const sums = (): void => {
    const whole = menu();
    if (whole === null) return;
    const tracked = whole.rules.payment !== "not-tracked";
    byId("slip-pay").hidden = !tracked;
    byId("place").textContent = tracked ? "Take the order, not paid yet" : "Take the order";
    byId("place").classList.toggle("main", !tracked);
    showChange();
    const money = (amount: number): string => moneyWords(amount, whole.currency);
    const { tax, total } = bill(lines, whole.rules);
    const row = (label: string, sum: string, kind = "") => [
      element("dt", { class: kind }, label),
      element("dd", { class: kind }, sum),
    ];
    const { taxPartsPerMillion, taxInPrice } = whole.rules;
    const rate = `${taxPartsPerMillion / 10_000} %`;
    const sum = row("Total", money(total), "total");
    byId("sums").replaceChildren(
      ...(taxPartsPerMillion === 0
        ? sum
        : taxInPrice
          ? [...sum, ...row(`Includes ${rate} sales tax`, money(tax))]
          : [...row("Garments", money(total - tax)), ...row(`Sales tax ${rate}`, money(tax)), ...sum]),
    );
  };

  const show = (): void => {
    byId("lines").replaceChildren(
      ...(lines.length === 0 ? [element("li", {}, "Nothing on it yet.")] : []),
      ...lines.map((line) =>
        element(
          "li",
          {},
          element("span", {}, `${line.quantity} × ${line.name}`),
          element(
            "button",
            {
              type: "button",
              "aria-label": `Take out ${line.name}`,
              onclick: () => {
                lines = lines.filter((other) => other !== line);
                show();
              },
            },
            "Take out",
          ),
        ),
      ),
    );
    sums();
  };

  function take(tender: Tender | null): void {
    const whole = menu();
    if (whole === null) return missing("This tablet has not seen the menu yet. It needs a signal first.");
    if (lines.length === 0) return missing("Add a garment first.");
    if (lines.reduce((sum, { quantity }) => sum + quantity, 0) >= TOO_MANY)
      return missing(`At most ${TOO_MANY - 1} garments in an order. Make two of it.`);
    const written = paper.open ? paperFrom(paperNumber.value, paperTime.value, new Date()) : null;
    if (typeof written === "string") return missing(written);
    missing("");
    const who = name.value.trim();
    const wanted: Wanted = {
      lines: lines.map(({ offer, colour, size, quantity }) => ({ offer, colour, size, quantity })),
      ...(who === "" ? {} : { name: who }),
      ...(written === null ? {} : { paper: written }),
    };
    const { total, tax } = bill(lines, whole.rules);
    place(wanted, { lines, name: who || null, total, tax, tender, by: tender === null ? null : takerName() });
  }

  byId("place").addEventListener("click", () => take(null));
  for (const button of document.querySelectorAll<HTMLButtonElement>("[data-take]")) {
    const tender = button.dataset["take"] as Tender; // as the shell has them
    button.addEventListener("click", () => take(tender));
  }
  given.addEventListener("input", showChange);

  show();
  return {
    add: (line) => {
      const before = lines.find((other) => same(line, other));
      lines =
        before === undefined
          ? [...lines, line]
          : lines.map((other) =>
              other === before ? { ...before, quantity: before.quantity + line.quantity } : other,
            );
      missing("");
      show();
    },
    show,
    clear: (taken) => {
      lines = [];
      name.value = "";
      given.value = "";
      paperTime.value = "";
      paperNumber.value = taken === null ? "" : nextPaperNumber(taken);
      paper.open = taken !== null;
      missing("");
      show();
    },
  };
}

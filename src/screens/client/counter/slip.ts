/** The slip: the lines so far, what they come to, and the paper number where it was written on paper. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import { bill } from "../../../stall/stock/bill.ts";
import { moneyWords } from "../crew/words/money.ts";
import { byId, element } from "../kit/dom.ts";
import type { Wanted } from "./acts.ts";
import type { SlipLine } from "./pad.ts";
import { nextPaperNumber, paperFrom } from "./paper.ts";

export type Slip = {
  readonly add: (line: SlipLine) => void;
  readonly show: () => void;
  /** The slip was taken: an empty one, with the next paper number ready where this was a paper one. */
  readonly clear: (paper: number | null) => void;
};

const same = (one: SlipLine, other: SlipLine): boolean =>
  one.offer === other.offer && one.colour === other.colour && one.size === other.size;

/** `place` is given the order, and its lines as a person would say them. */
export function slip(
  menu: () => Menu | null,
  place: (wanted: Wanted, lines: readonly string[]) => void,
): Slip {
  let lines: readonly SlipLine[] = [];
  const name = byId<HTMLInputElement>("name");
  const paper = byId<HTMLDetailsElement>("paper");
  const paperNumber = byId<HTMLInputElement>("paper-number");
  const paperTime = byId<HTMLInputElement>("paper-time");
  const missing = (text: string): void => {
    byId("slip-missing").textContent = text;
  };

  const sums = (): void => {
    const whole = menu();
    if (whole === null) return;
    const money = (amount: number): string => moneyWords(amount, whole.currency);
    const { tax, total } = bill(lines, whole.rules);
    const row = (label: string, sum: string, kind = "") => [
      element("dt", { class: kind }, label),
      element("dd", { class: kind }, sum),
    ];
    byId("sums").replaceChildren(
      ...(whole.rules.taxPartsPerMillion === 0
        ? []
        : [
            ...row("Garments", money(total - tax)),
            ...row(`Sales tax ${whole.rules.taxPartsPerMillion / 10_000} %`, money(tax)),
          ]),
      ...row("Total", money(total), "total"),
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

  byId("place").addEventListener("click", () => {
    if (lines.length === 0) return missing("Add a garment first.");
    const taken = paper.open ? paperFrom(paperNumber.value, paperTime.value, new Date()) : null;
    if (typeof taken === "string") return missing(taken);
    missing("");
    const who = name.value.trim();
    const wanted: Wanted = {
      lines: lines.map(({ offer, colour, size, quantity }) => ({ offer, colour, size, quantity })),
      ...(who === "" ? {} : { name: who }),
      ...(taken === null ? {} : { paper: taken }),
    };
    place(
      wanted,
      lines.map((line) => `${line.quantity} × ${line.name}`),
    );
    return undefined;
  });

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
      paperTime.value = "";
      paperNumber.value = taken === null ? "" : nextPaperNumber(taken);
      paper.open = taken !== null;
      missing("");
      show();
    },
  };
}

/** Figures as a crew reads them, and the small pieces every result is drawn from. */

import { minorDigits } from "../../../planning/request/given.ts";
import { inPercent } from "../../../planning/words/amounts.ts";
import { honestStep } from "../../../planning/words/summary.ts";
import { element } from "../kit/dom.ts";
import { spelt } from "../kit/spelling.ts";

/** An amount in whole units: nobody plans a day to the cent. */
export function about(minor: number, currency: string): string {
  const form = new Intl.NumberFormat("en", { style: "currency", currency, maximumFractionDigits: 0 });
  // A separate minus sign, joined to its amount, so that a loss is not overlooked; and no "-$0".
  const words = form.format(Math.abs(minor) / 10 ** minorDigits(currency));
  return Math.round(minor / 10 ** minorDigits(currency)) < 0 ? `−\u2060${words}` : words;
}

export const whole = (value: number): string => Math.round(value).toLocaleString("en");

/** A count that imagined days know to about one part in fifty. */
export function roughly(value: number): string {
  const step = honestStep(value / 50);
  return whole(Math.round(value / step) * step);
}

/** A chance in words of ten and hundred, never a bare 0 or 100 %. */
export function odds(chance: number): string {
  if (chance > 0 && chance < 0.01) return "under 1 %";
  if (chance < 1 && chance > 0.99) return "over 99 %";
  return inPercent(chance);
}

/** A bar whose length the style sheet takes from --from and --share, in parts of its track. */
export function bar(share: number, from = 0, kind = ""): HTMLElement {
  const made = element("span", { class: `bar ${kind}`.trim(), "aria-hidden": "true" });
  made.style.setProperty("--share", String(Math.max(0, Math.min(1, share))));
  made.style.setProperty("--from", String(Math.max(0, Math.min(1, from))));
  return element("span", { class: "track", "aria-hidden": "true" }, made);
}

/** A column of figures by its name, or one of words; the first column is of words. */
type Column = string | { readonly words: string };
type Cell = string | Node;

/**
 * A table that scrolls alone if it is too wide; the first cell of each row is its heading. A table of long words is
 * `stacked`: a list of its rows on a phone.
 */
export function tableOf(
  caption: string,
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  kind: "wide" | "wide stacked" = "wide",
): HTMLElement {
  const named = columns.map((column) => (typeof column === "string" ? column : column.words));
  const number = (at: number) => (at > 0 && typeof columns[at] === "string" ? { class: "number" } : {});
  const table = element(
    "table",
    {},
    element("caption", {}, caption),
    element(
      "thead",
      {},
      element(
        "tr",
        {},
        ...named.map((name, at) => element("th", { scope: "col", ...number(at) }, spelt(name))),
      ),
    ),
    element(
      "tbody",
      {},
      ...rows.map((row) =>
        element(
          "tr",
          {},
          ...row.map((cell, at) =>
            at === 0
              ? element("th", { scope: "row" }, cell)
              : element("td", { ...number(at), "data-column": spelt(named[at] ?? "") }, cell),
          ),
        ),
      ),
    ),
  );
  return element("section", { class: kind, tabindex: 0, "aria-label": caption }, table);
}

/** A list of sentences. */
export const sentences = (each: readonly string[], kind = "told"): HTMLElement =>
  element("ul", { class: kind }, ...each.map((one) => element("li", {}, spelt(one))));

/** Cautions of danger: never without their heading. */
export const cautions = (each: readonly string[]): HTMLElement =>
  element("section", { class: "notice cautions" }, element("h3", {}, "Take care"), sentences(each));

/** What few need on a screen: under a line that opens it. */
export const folded = (summary: string, ...inside: readonly Node[]): HTMLElement =>
  element("details", {}, element("summary", {}, spelt(summary)), ...inside);

/** Facts with their names. */
export const facts = (each: readonly (readonly [name: string, value: string])[]): HTMLElement =>
  element(
    "dl",
    { class: "figures-row" },
    ...each.map(([name, value]) => element("div", {}, element("dt", {}, name), element("dd", {}, value))),
  );

/** Each word once, in the order in which they come first. */
export const unique = (all: readonly string[]): string[] => [...new Set(all)];

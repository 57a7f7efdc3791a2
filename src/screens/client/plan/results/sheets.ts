/** Gang sheets: what to order, how good it is, and each layout drawn to scale. */
import type { SheetPlan } from "../../../../model/planning/sheets.ts";
import { cutList } from "../../../../planning/sheets/cut-list.ts";
import { drawLayout } from "../../../../planning/sheets/drawing.ts";
import { inMoney, inPercent } from "../../../../planning/words/amounts.ts";
import { element } from "../../kit/dom.ts";
import { folded, sentences, tableOf } from "../figures.ts";
import { csvButton, printButton } from "../printing.ts";

export function drawSheets(plan: SheetPlan, names: ReadonlyMap<string, string>): HTMLElement[] {
  const sum = (minor: number) => inMoney(minor, plan.currency);
  const named = (id: string) => names.get(id) ?? id;
  const { bound, oneDesignASheet: plain, cost } = plan;
  const good = bound.proven
    ? "No plan does better: this is proven."
    : bound.measure === "cost"
      ? `The transfers alone would fill sheets for ${sum(bound.limit)}; what does not fit together costs the rest.`
      : `No plan can be worth more than ${Math.round(bound.limit)}; this one is within ${inPercent(bound.gap)} of that.`;
  const saving =
    plain === null
      ? []
      : [
          `One design a sheet would take ${plain.sheets} sheets for ${sum(plain.cost)}: ganging saves ${plain.savedSheets} sheets and ${sum(plain.savedMoney)}.`,
        ];
  return [
    element(
      "p",
      { class: "verdict" },
      `Order ${plan.sheets} sheets in ${plan.layouts.length} ${plan.layouts.length === 1 ? "layout" : "layouts"} for ${sum(cost.total)}.`,
    ),
    sentences([good, ...saving, ...plan.notes]),
    tableOf(
      "Transfers the sheets give",
      ["Design", "Wanted", "Given", "Spare", "Missing"],
      plan.transfers.map(({ design, wanted, made, spare, missing }) => [
        named(design),
        ...[wanted, made, spare, missing].map(String),
      ]),
    ),
    element(
      "div",
      { class: "row no-print" },
      csvButton("Save the cut list (CSV)", "cut-list.csv", () => cutList(plan, names)),
      printButton("Print at true size"),
    ),
    ...plan.layouts.map((layout) =>
      element(
        "figure",
        { class: "layout" },
        drawn(drawLayout(layout, names)),
        element(
          "figcaption",
          {},
          `Layout ${layout.layout}: ${layout.copies} copies at ${sum(layout.pricePerSheet)}, ${inPercent(layout.fill)} of the sheet printed.`,
          ...(layout.room.length === 0 ? [] : [roomLeft(layout, named)]),
        ),
      ),
    ),
  ];
}

/** Pieces that would still fit on the sheet, each kind once. */
function roomLeft({ room }: SheetPlan["layouts"][number], named: (id: string) => string): HTMLElement {
  const each = room.map(
    ({ design, use, width, height }) =>
      `${named(design)} at ${use === "pocket" ? "pocket" : "cap-front"} size, ${width.toFixed(2)} × ${height.toFixed(2)} in`,
  );
  return folded("In the room left, one of these would fit", sentences([...new Set(each)]));
}

/** A drawing's text as an element of this page; nothing in it is ever run. */
export function drawn(svg: string): Node {
  const { documentElement } = new DOMParser().parseFromString(svg, "image/svg+xml");
  return document.importNode(documentElement, true);
}

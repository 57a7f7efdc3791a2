/** Drawing the stalls' table: sorted as asked, redrawn whole at each report. */
import type { StallPace } from "../../../model/throughput.ts";
import { byId, element } from "../kit/dom.ts";
import { COLUMNS, type Column, type Order, sorted } from "./columns.ts";
import { signsOf } from "./signs.ts";

function cell(column: Column, stall: StallPace, now: number): HTMLTableCellElement {
  if (column.id === "stall") return element("th", { scope: "row" }, column.text(stall, now));
  if (column.id === "sign") {
    const signs = signsOf(stall, now).map((sign) =>
      element("span", { class: `sign ${sign.replaceAll(" ", "-")}` }, sign),
    );
    return element("td", {}, ...signs);
  }
  return element("td", column.isNumber ? { class: "number" } : {}, column.text(stall, now));
}

export type StallTable = { readonly draw: (stalls: readonly StallPace[], now: number) => void };

/** The table, at first with the stall that most needs a look on top. */
export function stallTable(): StallTable {
  const table = byId<HTMLTableElement>("stalls");
  const [body] = table.tBodies;
  if (body === undefined) throw new Error("the stalls' table has no body");
  let order: Order | null = null;
  let shown: readonly StallPace[] = [];
  let asOf = 0;

  const rows = (): void => {
    const inOrder = order === null ? shown : sorted(shown, order, asOf);
    body.replaceChildren(
      ...inOrder.map((stall) => element("tr", {}, ...COLUMNS.map((column) => cell(column, stall, asOf)))),
    );
  };

  const headings = COLUMNS.map((column) => {
    const heading = element(
      "th",
      { scope: "col", class: column.isNumber ? "number" : "" },
      element("button", { type: "button", onclick: () => sortBy(column) }, column.heading),
    );
    return { column, heading };
  });

  const sortBy = (column: Column): void => {
    const again = order?.column === column;
    order = { column, descending: again ? !order?.descending : column.greatestFirst };
    for (const { column: other, heading } of headings) {
      if (other !== column) heading.removeAttribute("aria-sort");
      else heading.setAttribute("aria-sort", order.descending ? "descending" : "ascending");
    }
    rows();
  };

  table.tHead?.append(element("tr", {}, ...headings.map(({ heading }) => heading)));
  const first = COLUMNS.find(({ id }) => id === "sign");
  if (first !== undefined) sortBy(first);
  return {
    draw(stalls, now) {
      shown = stalls;
      asOf = now;
      rows();
    },
  };
}

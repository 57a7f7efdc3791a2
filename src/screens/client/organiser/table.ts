/** Drawing the stalls' table: sorted as asked; rows are kept, so that a poll takes the focus from nothing. */
import type { StallPace } from "../../../model/fair/throughput.ts";
import { byId, element } from "../kit/dom.ts";
import { COLUMNS, type Column, type Order, sorted } from "./columns.ts";
import { type Moment, signsOf } from "./signs.ts";

export type StallTable = {
  readonly draw: (stalls: readonly StallPace[], moment: Moment, chosen: string | null) => void;
};

/** So many rows are drawn at once; where there are more, the rest follows when these are on the screen. */
const AT_ONCE = 50;

type Row = { readonly row: HTMLTableRowElement; readonly cells: readonly HTMLTableCellElement[] };

const classOf = ({ isNumber, isNow, isFurther }: Column): string =>
  [isNumber ? "number" : "", isNow ? "now" : "", isFurther ? "further" : ""]
    .filter((name) => name !== "")
    .join(" ");

function fillSigns(cell: HTMLElement, stall: StallPace, moment: Moment): void {
  const signs = signsOf(stall, moment);
  if (cell.dataset["signs"] === signs.join()) return;
  cell.dataset["signs"] = signs.join();
  cell.replaceChildren(
    ...signs.map((sign) => element("span", { class: `sign ${sign.replaceAll(" ", "-")}` }, sign)),
  );
}

function fill(cell: HTMLElement, column: Column, stall: StallPace, moment: Moment): void {
  if (column.id === "sign") return fillSigns(cell, stall, moment);
  const place = column.id === "stall" ? (cell.firstElementChild ?? cell) : cell;
  const text = column.text(stall, moment);
  if (place.textContent !== text) place.textContent = text;
}

/** The table, at first with the stall that most needs a look on top; a stall's name chooses it. */
export function stallTable(choose: (stall: string) => void): StallTable {
  const table = byId<HTMLTableElement>("stalls");
  const [body] = table.tBodies;
  if (body === undefined) throw new Error("the stalls' table has no body");
  const rows = new Map<string, Row>();
  let order: Order | null = null;
  let shown: readonly StallPace[] = [];
  let at: Moment = { now: 0, open: true };
  let picked: string | null = null;

  const rowOf = (stall: string): Row => {
    const before = rows.get(stall);
    if (before !== undefined) return before;
    const cells = COLUMNS.map((column) =>
      column.id === "stall"
        ? element("th", { scope: "row" }, element("button", { type: "button", onclick: () => choose(stall) }))
        : element("td", { class: classOf(column) }),
    );
    const made = { row: element("tr", {}, ...cells), cells };
    rows.set(stall, made);
    return made;
  };

  const draw = (): void => {
    const focused = document.activeElement;
    const inOrder = order === null ? shown : sorted(shown, order, at);
    const drawn = inOrder.map((stall) => {
      const { row, cells } = rowOf(stall.stall);
      for (const [index, column] of COLUMNS.entries()) {
        const cell = cells[index];
        if (cell !== undefined) fill(cell, column, stall, at);
      }
      cells[0]?.firstElementChild?.setAttribute("aria-pressed", String(stall.stall === picked));
      return row;
    });
    if (body.rows.length === 0 && drawn.length > AT_ONCE) {
      body.append(...drawn.slice(0, AT_ONCE));
      requestAnimationFrame(() => setTimeout(draw));
      return;
    }
    const same = drawn.length === body.rows.length && drawn.every((row, n) => body.rows[n] === row);
    if (same) return;
    body.replaceChildren(...drawn);
    if (focused instanceof HTMLElement && body.contains(focused)) focused.focus({ preventScroll: true });
  };

  const headings = COLUMNS.map((column) => {
    const heading = element(
      "th",
      { scope: "col", class: classOf(column) },
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
    draw();
  };

  byId("more-columns").addEventListener("click", ({ currentTarget }) => {
    const every = table.classList.toggle("every");
    if (currentTarget instanceof Element) currentTarget.setAttribute("aria-pressed", String(every));
  });
  table.tHead?.append(element("tr", {}, ...headings.map(({ heading }) => heading)));
  const first = COLUMNS.find(({ id }) => id === "sign");
  if (first !== undefined) sortBy(first);
  return {
    draw(stalls, moment, chosen) {
      shown = stalls;
      at = moment;
      picked = chosen;
      draw();
    },
  };
}

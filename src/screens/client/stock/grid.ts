/** One table drawn: fields to type counts into, moved about by the keyboard, with what is promised and free. */
import { byId, element } from "../kit/dom.ts";
import { giveFile } from "../kit/file.ts";
import { isCount, readSheet, sheetOf } from "./sheet.ts";
import type { Counts, Table } from "./tables.ts";

export type Grid = {
  readonly table: Table;
  readonly node: HTMLElement;
  /** Shows what was typed and what there is, in every cell and total. */
  readonly refresh: () => void;
};

export type GridSettings = {
  readonly counts: (piece: string) => Counts;
  readonly typed: (piece: string) => string;
  readonly type: (cells: ReadonlyMap<string, string>) => void;
  /** What a cell would come to: typed where it was, else what there is. */
  readonly becomes: (piece: string) => number;
  /** Why what was typed cannot be taken; null if it can. */
  readonly wrong: (piece: string) => string | null;
  readonly say: (text: string | null) => void;
};

const MOVES: Readonly<Record<string, readonly [down: number, across: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  Enter: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/** Whether an arrow key would leave the text of a field rather than move within it. */
const atEdge = (field: HTMLInputElement, key: string): boolean =>
  key === "ArrowLeft"
    ? field.selectionEnd === 0
    : key !== "ArrowRight" || field.selectionStart === field.value.length;

export function gridOf(table: Table, { counts, typed, type, becomes, wrong, say }: GridSettings): Grid {
  const { key, title, down, across, piece } = table;
  const cells = new Map<string, { readonly field: HTMLInputElement; readonly note: HTMLElement }>();
  const idAt = (row: number, column: number): string => `cell-${key}-${row}-${column}`;

  const cell = (row: number, column: number): HTMLElement => {
    const [line, head] = [down.heads[row], across.heads[column]];
    if (line === undefined || head === undefined) return element("td");
    const one = piece(line.id, head.id);
    const note = element("span", { id: `${idAt(row, column)}-note`, class: "note" });
    const field = element("input", {
      id: idAt(row, column),
      inputmode: "numeric",
      autocomplete: "off",
      maxlength: 5,
      "aria-label": key === "transfers" ? `${line.name} transfers` : `${title}, ${line.name}, ${head.name}`,
      "aria-describedby": `${idAt(row, column)}-note`,
    });
    field.addEventListener("input", () => type(new Map([[one, field.value]])));
    field.addEventListener("focus", () => field.select());
    field.addEventListener("keydown", (event) => {
      const move = MOVES[event.key];
      const whole = field.selectionStart === 0 && field.selectionEnd === field.value.length;
      if (move === undefined || !(whole || atEdge(field, event.key))) return;
      const next = document.getElementById(idAt(row + move[0], column + move[1]));
      if (next === null) return;
      event.preventDefault();
      next.focus();
    });
    field.addEventListener("paste", (event) => {
      const text = event.clipboardData?.getData("text") ?? "";
      if (!/[\t\n,;]/.test(text.trim())) return;
      event.preventDefault();
      const pasted = readSheet(text, table, { down: row, across: column });
      type(pasted.cells);
      const bad = [...pasted.cells.values()].filter((one) => !isCount(one)).length;
      const marked =
        bad === 0 ? "" : ` ${bad === 1 ? "1 cell is" : `${bad} cells are`} marked: no whole number.`;
      say(`${pasted.cells.size - bad} counts were pasted.${marked} ${pasted.faults.join(" ")}`.trim());
    });
    cells.set(one, { field, note });
    return element("td", {}, field, note);
  };

  const total = (id: string): HTMLElement =>
    element("td", { id: `total-${key}-${id}`, class: "number total" });
  const wide = across.heads.length > 1;
  const grid = element(
    "table",
    {},
    element("caption", { class: "offstage" }, `${title}: ${down.what} down, ${across.what} across`),
    element(
      "thead",
      {},
      element(
        "tr",
        {},
        element("th", { scope: "col" }, down.what),
        ...across.heads.map(({ name }) => element("th", { scope: "col" }, name)),
        wide ? element("th", { scope: "col", class: "number" }, "Total") : null,
      ),
    ),
    element(
      "tbody",
      {},
      ...down.heads.map(({ id, name }, row) =>
        element(
          "tr",
          {},
          element("th", { scope: "row" }, name),
          ...across.heads.map((_, column) => cell(row, column)),
          wide ? total(`row-${id}`) : null,
        ),
      ),
      element(
        "tr",
        { class: "totals" },
        element("th", { scope: "row" }, "Total"),
        ...across.heads.map(({ id }) => total(`column-${id}`)),
        wide ? total("all") : null,
      ),
    ),
  );

  const shown = (one: string): string => (typed(one) === "" ? String(counts(one).onHand) : typed(one));
  const copy = async (): Promise<void> => {
    const text = sheetOf(table, shown, "\t");
    await navigator.clipboard?.writeText(text).catch(() => null);
    byId<HTMLTextAreaElement>("copied").value = text;
    byId("copied-part").hidden = false;
    byId<HTMLTextAreaElement>("copied").select();
    say(
      "The table is copied, where the browser may; it stands at the foot of the page too, to copy by hand.",
    );
  };
  const node = element(
    "div",
    { class: key === "transfers" ? "stock-table transfers" : "stock-table" },
    element("h2", { id: `title-${key}` }, title),
    element("div", { class: "wide", tabindex: 0, role: "region", "aria-labelledby": `title-${key}` }, grid),
    element(
      "p",
      { class: "row" },
      element("button", { type: "button", onclick: () => void copy() }, "Copy for a spreadsheet"),
      element(
        "button",
        { type: "button", onclick: () => giveFile(`${key}.csv`, "text/csv", sheetOf(table, shown, ",")) },
        "As a csv file",
      ),
    ),
  );

  const put = (id: string, pieces: number): void => {
    const place = node.querySelector(`[id="total-${key}-${id}"]`);
    if (place !== null) place.textContent = String(pieces);
  };
  return {
    table,
    node,
    refresh() {
      for (const [one, { field, note }] of cells) {
        const { onHand, promised, free } = counts(one);
        if (field.value !== typed(one)) field.value = typed(one);
        field.placeholder = String(onHand);
        note.textContent = promised === 0 ? `${free} free` : `${promised} promised, ${free} free`;
        const low = becomes(one) < promised;
        field.classList.toggle("below", low);
        if (low) note.textContent += " · below what is promised";
        const why = wrong(one);
        note.classList.toggle("fault", why !== null);
        if (why === null) field.removeAttribute("aria-invalid");
        else {
          field.setAttribute("aria-invalid", "true");
          note.textContent = why;
        }
      }
      const sum = (pieces: readonly string[]): number => pieces.reduce((all, one) => all + becomes(one), 0);
      for (const { id } of down.heads) put(`row-${id}`, sum(across.heads.map((head) => piece(id, head.id))));
      for (const { id } of across.heads)
        put(`column-${id}`, sum(down.heads.map((line) => piece(line.id, id))));
      put("all", sum(down.heads.flatMap((line) => across.heads.map((head) => piece(line.id, head.id)))));
    },
  };
}

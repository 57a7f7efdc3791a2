/** Rows of a section: shut until one is looked at, so that forty designs are a list and not a wall. */
import { element } from "../../kit/dom.ts";
import { idOf } from "./field.ts";

export type Row = {
  readonly pointer: string;
  /** The same for the same entry, wherever it stands. */
  readonly key: string;
  readonly title: string;
  readonly note: string;
  readonly fill: () => readonly Node[];
  readonly remove: () => void;
};

/** More rows than this are looked for by typing. */
const LOOKED_FOR = 8;

function drawRow({ pointer, key, title, note, fill, remove }: Row, open: boolean): HTMLElement {
  const details = element("details", { class: "entry", "data-key": key, "data-pointer": pointer });
  const inside = element("div", { class: "inside" });
  const fillOnce = (): void => {
    if (inside.childElementCount > 0) return;
    inside.append(
      ...fill(),
      element("p", {}, element("button", { type: "button", onclick: remove }, `Take “${title || "it"}” out`)),
    );
  };
  details.append(
    element(
      "summary",
      {},
      element("b", {}, title === "" ? "(no name yet)" : title),
      element("span", { class: "note" }, ` ${note} `),
      element("span", { id: `${idOf(pointer)}-sum`, class: "fault" }),
    ),
    inside,
  );
  details.addEventListener("fill", fillOnce);
  details.addEventListener("toggle", () => details.open && fillOnce());
  if (open) {
    details.open = true;
    fillOnce();
  }
  return details;
}

/** The rows, with a field to find one where there are many. */
export function drawRows(rows: readonly Row[], open: ReadonlySet<string>, what: string): readonly Node[] {
  const drawn = rows.map((row) => drawRow(row, open.has(row.key)));
  const list = element("div", { class: "entries" }, ...drawn);
  if (rows.length <= LOOKED_FOR) return [list];
  const find = element("input", {
    type: "search",
    "aria-label": `Find among ${rows.length} ${what}`,
    placeholder: `Find among ${rows.length} ${what}`,
    oninput: () => {
      const wanted = find.value.trim().toLowerCase();
      rows.forEach((row, index) => {
        const entry = drawn[index];
        if (entry !== undefined) entry.hidden = !`${row.title} ${row.note}`.toLowerCase().includes(wanted);
      });
    },
  });
  return [find, list];
}

/** The keys of the rows that stand open. */
export const openRows = (root: ParentNode): ReadonlySet<string> =>
  new Set(
    [...root.querySelectorAll<HTMLDetailsElement>("details.entry[open]")].map(
      ({ dataset }) => dataset["key"] ?? "",
    ),
  );

/** Opens the row that a pointer lies in and goes to its field. */
export function reveal(pointer: string): void {
  const rows = [...document.querySelectorAll<HTMLDetailsElement>("details.entry")];
  const row = rows.find(({ dataset }) => {
    const at = dataset["pointer"] ?? "none";
    return pointer === at || pointer.startsWith(`${at}/`);
  });
  if (row !== undefined) {
    row.hidden = false;
    row.dispatchEvent(new Event("fill"));
    row.open = true;
  }
  const place =
    document.getElementById(idOf(pointer)) ??
    row?.querySelector("summary") ??
    document.getElementById(`${idOf(pointer)}-section`);
  const advanced = place?.closest("details");
  if (advanced != null) advanced.open = true;
  place?.focus();
  place?.scrollIntoView({ block: "center" });
}

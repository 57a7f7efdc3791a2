/** A list in a request that grows and shrinks: each row's fields, a button that takes it out, one that adds. */
import { element } from "../kit/dom.ts";
import { type Json, rowsAt } from "../kit/json-pointer.ts";
import { type Change, drawFields, type Field, idOf } from "./field.ts";

export type Row = {
  readonly at: string;
  /** What a person calls it. */
  readonly name: string;
  /** Its main figures in a few words, read while it is shut. */
  readonly digest?: string;
  readonly fields: readonly Field[];
  readonly rows?: readonly Rows[];
};

export type Rows = {
  readonly pointer: string;
  /** What one of them is called, with its article: "an offer". */
  readonly one: string;
  /** What a new row starts as. */
  readonly fresh: Json;
  readonly each: readonly Row[];
  /** Few figures a row: all stand open in one line. */
  readonly short?: boolean;
  /** One line about the list. */
  readonly help?: string;
  /** The list may be left out of the request altogether. */
  readonly optional?: boolean;
};

/** Every field of the rows, each with its row's name before its label, for a list of faults. */
export const fieldsIn = (lists: readonly Rows[]): readonly Field[] =>
  lists.flatMap(({ each }) =>
    each.flatMap(({ name, fields, rows = [] }) =>
      [...fields, ...fieldsIn(rows)].map((field) => ({ ...field, label: `${name}: ${field.label}` })),
    ),
  );

export function drawRows(list: Rows, part: string, request: Json, change: Change): HTMLElement {
  const { pointer, one, fresh, each, short = false, help, optional = false } = list;
  const now = rowsAt(request, pointer);
  const add = (): void => {
    change(pointer, [...now, fresh], true);
    const first = document.querySelector<HTMLElement>(
      `[data-row="${CSS.escape(`${part} ${pointer}/${now.length}`)}"]`,
    );
    if (first instanceof HTMLDetailsElement) first.open = true;
    first?.querySelector<HTMLElement>("input, select")?.focus();
  };
  const without = (index: number) => (): void => {
    const left = now.filter((_, at) => at !== index);
    change(pointer, left.length === 0 && optional ? undefined : left, true);
    document.getElementById(`${idOf(part, pointer)}-add`)?.focus();
  };
  return element(
    "div",
    { class: short ? "rows short" : "rows" },
    ...(help === undefined ? [] : [element("p", { class: "help" }, help)]),
    ...each.map((row, index) => drawRow(row, without(index), { part, request, change, short })),
    element(
      "button",
      { type: "button", class: "add", id: `${idOf(part, pointer)}-add`, onclick: add },
      `Add ${one}`,
    ),
  );
}

type Drawing = {
  readonly part: string;
  readonly request: Json;
  readonly change: Change;
  readonly short: boolean;
};

function drawRow(row: Row, takeOut: () => void, { part, request, change, short }: Drawing): HTMLElement {
  const { at, name, digest = "", fields, rows = [] } = row;
  const mark = { "data-row": `${part} ${at}` };
  const inside = [
    ...drawFields(fields, at, part, request, change),
    ...rows.map((list) => drawRows(list, part, request, change)),
    element("button", { type: "button", class: "out-with", onclick: takeOut }, `Take out ${name}`),
  ];
  if (short)
    return element(
      "fieldset",
      { class: "item", ...mark },
      element("legend", { class: "offstage" }, name),
      ...inside,
    );
  return element(
    "details",
    { class: "item", ...mark },
    element("summary", {}, name, element("span", { class: "digest" }, digest === "" ? "" : ` ${digest}`)),
    element("fieldset", {}, element("legend", { class: "offstage" }, name), ...inside),
  );
}

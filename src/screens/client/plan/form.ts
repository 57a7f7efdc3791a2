/** A part's form: its groups of fields and lists, and the faults of its request shown beside them and listed above. */
import { element } from "../kit/dom.ts";
import type { Json } from "../kit/json-pointer.ts";
import { type Change, drawFields, type Field, idOf } from "./field.ts";
import { drawRows, fieldsIn, type Rows } from "./rows.ts";

export type Fault = { readonly pointer: string; readonly detail: string; readonly mend: string };

export type Group = {
  readonly legend: string;
  readonly fields?: readonly Field[];
  readonly rows?: readonly Rows[];
  /** Shut until somebody wants to look closer. */
  readonly closer?: boolean;
  /** Leads to the entry that loads a file into this group. */
  readonly loads?: string;
};

export type Form = {
  readonly draw: (request: Json) => void;
  readonly showFaults: (faults: readonly Fault[]) => void;
};

export type FormPlaces = { readonly fields: HTMLElement; readonly faults: HTMLElement };

/** `change` takes a new value and gives the request with it. */
export function formFor(
  part: string,
  { fields, faults: list }: FormPlaces,
  groupsOf: (request: Json) => readonly Group[],
  change: (pointer: string, value: Json | undefined) => Json,
): Form {
  let groups: readonly Group[] = [];

  const changed: Change = (pointer, value, rebuilds) => {
    const request = change(pointer, value);
    if (!rebuilds) return;
    const focused = document.activeElement?.id ?? "";
    draw(request);
    document.getElementById(focused)?.focus();
  };

  const draw = (request: Json): void => {
    const stood = new Map(
      [...fields.querySelectorAll("details")].map((one) => [nameOf(one), one.open] as const),
    );
    groups = groupsOf(request);
    fields.replaceChildren(...groups.map((group) => drawGroup(group, part, request, changed)));
    for (const one of fields.querySelectorAll("details")) one.open = stood.get(nameOf(one)) ?? one.open;
  };

  return {
    draw,
    showFaults(faults) {
      for (const told of fields.querySelectorAll(".fault")) told.textContent = "";
      for (const entry of fields.querySelectorAll("[aria-invalid]")) entry.removeAttribute("aria-invalid");
      list.hidden = faults.length === 0;
      if (faults.length === 0) {
        list.replaceChildren();
        return;
      }
      const all = groups.flatMap((group) => [...(group.fields ?? []), ...fieldsIn(group.rows ?? [])]);
      list.replaceChildren(
        element(
          "p",
          {},
          faults.length === 1 ? "One thing stands in the way:" : `${faults.length} things stand in the way:`,
        ),
        element("ul", {}, ...faults.map((fault) => drawFault(part, fault, all))),
      );
    },
  };
}

/** What stays the same of a part of the form when it is drawn anew: a row's place, or a group's name. */
const nameOf = (one: HTMLElement): string =>
  one.dataset["row"] ?? one.querySelector("summary")?.textContent ?? "";

function drawGroup(
  { legend, fields = [], rows = [], closer = false, loads }: Group,
  part: string,
  request: Json,
  change: Change,
) {
  return element(
    "details",
    { open: !closer },
    element("summary", {}, legend),
    element(
      "fieldset",
      {},
      element("legend", { class: "offstage" }, legend),
      ...(fields.length === 0 ? [] : drawFields(fields, legend, part, request, change)),
      ...rows.map((list) => drawRows(list, part, request, change)),
      ...(loads === undefined ? [] : [element("label", { class: "button", for: "load" }, loads)]),
    ),
  );
}

/** The field a fault is about: the very one, else one inside what it names, else the one that holds it. */
function fieldFor(pointer: string, all: readonly Field[]): Field | undefined {
  return (
    all.find((one) => one.pointer === pointer) ??
    all.find((one) => one.pointer.startsWith(`${pointer}/`)) ??
    all.find((one) => pointer.startsWith(`${one.pointer}/`))
  );
}

/** The fault in the list, leading to the field it is about where the form has one; told there as well. */
function drawFault(part: string, { pointer, detail, mend }: Fault, all: readonly Field[]): HTMLElement {
  const field = fieldFor(pointer, all);
  const words = `${detail}; ${mend}.`;
  if (field === undefined) return element("li", {}, element("code", {}, pointer), ` ${words}`);
  const id = idOf(part, field.pointer);
  const entry = document.getElementById(id);
  const beside = document.getElementById(`${id}-fault`);
  if (entry !== null && beside !== null) {
    entry.setAttribute("aria-invalid", "true");
    beside.textContent = `${beside.textContent} ${words}`.trim();
    for (
      let shut = entry.closest("details");
      shut !== null;
      shut = shut.parentElement?.closest("details") ?? null
    )
      shut.open = true;
  }
  const toField = (event: Event): void => {
    event.preventDefault();
    entry?.focus();
  };
  return element("li", {}, element("a", { href: `#${id}`, onclick: toField }, field.label), ` ${words}`);
}

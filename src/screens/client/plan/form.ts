/** A part's form: its groups of fields, and the faults of its request shown beside them and listed above. */
import { element } from "../kit/dom.ts";
import { drawField, type Group, idOf } from "./field.ts";
import type { Json } from "./pointer.ts";

export type Fault = { readonly pointer: string; readonly detail: string; readonly mend: string };

export type Form = {
  readonly draw: (request: Json) => void;
  readonly showFaults: (faults: readonly Fault[]) => void;
};

export type FormPlaces = { readonly fields: HTMLElement; readonly faults: HTMLElement };

export function formFor(
  part: string,
  { fields, faults: list }: FormPlaces,
  groupsOf: (request: Json) => readonly Group[],
  change: (pointer: string, value: Json | undefined) => void,
): Form {
  let groups: readonly Group[] = [];
  return {
    draw(request) {
      const open = new Set(
        [...fields.querySelectorAll("details[open]")].map((one) => one.querySelector("summary")?.textContent),
      );
      groups = groupsOf(request);
      fields.replaceChildren(
        ...groups.map(({ legend, fields: each, closer = false }) => {
          const drawn = element(
            "div",
            { class: "fields" },
            ...each.map((field) => drawField(field, part, request, change)),
          );
          return element(
            "details",
            { open: !closer || open.has(legend) },
            element("summary", {}, legend),
            element("fieldset", {}, element("legend", { class: "offstage" }, legend), drawn),
          );
        }),
      );
    },
    showFaults(faults) {
      for (const told of fields.querySelectorAll(".fault")) told.textContent = "";
      for (const entry of fields.querySelectorAll("[aria-invalid]")) entry.removeAttribute("aria-invalid");
      const all = groups.flatMap((group) => group.fields);
      list.hidden = faults.length === 0;
      if (faults.length === 0) {
        list.replaceChildren();
        return;
      }
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

/** The fault in the list, leading to the field it is about where the form has one; told there as well. */
function drawFault(
  part: string,
  { pointer, detail, mend }: Fault,
  all: readonly Group["fields"][number][],
): HTMLElement {
  const field =
    all.find((one) => one.pointer === pointer) ?? all.find((one) => one.pointer.startsWith(`${pointer}/`));
  const words = `${detail}; ${mend}.`;
  if (field === undefined) return element("li", {}, element("code", {}, pointer), ` ${words}`);
  const id = idOf(part, field.pointer);
  const entry = document.getElementById(id);
  const beside = document.getElementById(`${id}-fault`);
  if (entry !== null && beside !== null) {
    entry.setAttribute("aria-invalid", "true");
    beside.textContent = `${beside.textContent} ${words}`.trim();
    const group = entry.closest("details");
    if (group !== null) group.open = true;
  }
  const toField = (event: Event): void => {
    event.preventDefault();
    entry?.focus();
  };
  return element("li", {}, element("a", { href: `#${id}`, onclick: toField }, field.label), ` ${words}`);
}

/** One number or word of a request: its label, its unit and one line of help, and the faults found with it. */
import { element } from "../kit/dom.ts";
import { type Json, valueAt } from "./pointer.ts";

export type Field = {
  readonly pointer: string;
  readonly label: string;
  /** What the figure is counted in; shown behind the label. */
  readonly unit?: string;
  readonly help: string;
  /** Words to choose from, each with the value it stands for. */
  readonly choices?: readonly (readonly [words: string, value: Json])[];
};

export type Group = {
  readonly legend: string;
  readonly fields: readonly Field[];
  /** Shut until somebody wants to look closer. */
  readonly closer?: boolean;
};

/** A figure where it is one, else the words as typed: the planner says what is wrong with them. */
export function typed(text: string): Json | undefined {
  const trimmed = text.trim();
  if (trimmed === "") return undefined;
  return /^-?(?:\d+\.?\d*|\.\d+)$/.test(trimmed) ? Number(trimmed) : trimmed;
}

const shown = (value: Json | undefined): string =>
  value === undefined || value === null
    ? ""
    : typeof value === "object"
      ? JSON.stringify(value)
      : String(value);

/** The field drawn; `change` is told what was typed. */
export function drawField(
  field: Field,
  part: string,
  request: Json,
  change: (pointer: string, value: Json | undefined) => void,
): HTMLElement {
  const { pointer, label, unit, help, choices } = field;
  const id = idOf(part, pointer);
  const value = valueAt(request, pointer);
  const described = { id, "aria-describedby": `${id}-help ${id}-fault` };
  const entry =
    choices === undefined
      ? element("input", {
          ...described,
          type: "text",
          autocomplete: "off",
          spellcheck: "false",
          value: shown(value),
          oninput: (event) => change(pointer, typed((event.target as HTMLInputElement).value)), // the input made here
        })
      : element(
          "select",
          {
            ...described,
            onchange: (event) =>
              change(pointer, choices[(event.target as HTMLSelectElement).selectedIndex]?.[1]), // the select made here
          },
          ...choices.map(([words, one]) => element("option", { selected: one === value }, words)),
        );
  return element(
    "div",
    { class: "field" },
    element(
      "label",
      { for: id },
      label,
      ...(unit === undefined ? [] : [element("span", { class: "unit" }, ` ${unit}`)]),
    ),
    entry,
    element("p", { id: `${id}-help`, class: "help" }, help),
    element("p", { id: `${id}-fault`, class: "fault" }),
  );
}

export const idOf = (part: string, pointer: string): string =>
  `${part}-${pointer.replace(/^#?\//, "").replaceAll(/[^A-Za-z0-9]+/g, "-")}`;

/** One number or word of a request: its label, its unit and one line of help, and the faults found with it. */
import { element } from "../kit/dom.ts";
import { type Json, valueAt } from "../kit/json-pointer.ts";
import { PLAIN, type Writing } from "./writings.ts";

export type Field = {
  readonly pointer: string;
  readonly label: string;
  /** What the figure is counted in; shown behind the label. */
  readonly unit?: string;
  readonly help: string;
  /** How it is written; as figures and words where left out. */
  readonly writing?: Writing;
  /** Words to choose from, each with the value it stands for; undefined takes the field out. */
  readonly choices?: readonly Choice[];
  /** Which of the choices stands, where that is not told by the value itself. */
  readonly chosen?: number;
  /** Other fields come or go with it. */
  readonly rebuilds?: boolean;
  /** Taken only once it is left: other places of the request follow it. */
  readonly settles?: boolean;
  /** Few need it: it stands under More. */
  readonly more?: boolean;
  /** What the plan gives here as long as nothing is typed. */
  readonly fromPlan?: Json;
};

export type Choice = readonly [words: string, value: Json | undefined];

/** Told of a new value; `rebuilds` where the form has to be drawn anew. */
export type Change = (pointer: string, value: Json | undefined, rebuilds: boolean) => void;

/** Fields in their order, those that few need under More; `of` names the place they belong to. */
export function drawFields(
  fields: readonly Field[],
  of: string,
  part: string,
  request: Json,
  change: Change,
): HTMLElement[] {
  const grid = (some: readonly Field[]): HTMLElement =>
    element("div", { class: "fields" }, ...some.map((field) => drawField(field, part, request, change)));
  const more = fields.filter((field) => field.more === true);
  const shown = grid(fields.filter((field) => field.more !== true));
  if (more.length === 0) return [shown];
  return [
    shown,
    element("details", { "data-row": `${part} ${of} more` }, element("summary", {}, "More"), grid(more)),
  ];
}

/** The field drawn; `change` is told what was typed. */
function drawField(field: Field, part: string, request: Json, change: Change): HTMLElement {
  const { pointer, label, unit, help } = field;
  const id = idOf(part, pointer);
  return element(
    "div",
    { class: "field" },
    element(
      "label",
      { for: id },
      label,
      ...(unit === undefined ? [] : [element("span", { class: "unit" }, ` ${unit}`)]),
    ),
    field.choices === undefined ? entry(field, id, request, change) : choice(field, id, request, change),
    element("p", { id: `${id}-help`, class: "help" }, help, ...origin(field, request, change)),
    element("p", { id: `${id}-fault`, class: "fault" }),
  );
}

/** Says that the plan gives the figure; once something else is typed, a button takes the plan's again. */
function origin(
  { pointer, fromPlan, writing = PLAIN }: Field,
  request: Json,
  change: Change,
): (Node | string)[] {
  if (fromPlan === undefined) return [];
  if (valueAt(request, pointer) === undefined) return [" ", element("b", {}, "From the plan.")];
  const back = (): void => change(pointer, undefined, true);
  return [
    " ",
    element(
      "button",
      { type: "button", class: "link", onclick: back },
      `Take the plan’s: ${writing.shown(fromPlan)}`,
    ),
  ];
}

const described = (id: string) => ({ id, "aria-describedby": `${id}-help ${id}-fault` });

function entry(
  { pointer, writing = PLAIN, settles, rebuilds = false, fromPlan }: Field,
  id: string,
  request: Json,
  change: Change,
) {
  let now = valueAt(request, pointer) ?? fromPlan;
  const take = (event: Event): void => {
    const { value } = event.target as HTMLInputElement; // the input made here
    const before = now;
    now = writing.read(value, before);
    if (settles === true && now === undefined) now = before;
    else change(pointer, now, rebuilds || settles === true || fromPlan !== undefined);
  };
  return element("input", {
    ...described(id),
    type: "text",
    autocomplete: "off",
    spellcheck: "false",
    value: writing.shown(now),
    // What is typed over the plan's figure says so once it is left, not at each key.
    ...(settles === true || fromPlan !== undefined ? { onchange: take } : { oninput: take }),
  });
}

function choice(
  { pointer, choices = [], chosen, rebuilds = false }: Field,
  id: string,
  request: Json,
  change: Change,
) {
  const value = valueAt(request, pointer);
  const standing = chosen ?? choices.findIndex(([, one]) => one === value);
  return element(
    "select",
    {
      ...described(id),
      onchange: (event) =>
        change(pointer, choices[(event.target as HTMLSelectElement).selectedIndex]?.[1], rebuilds), // the select made here
    },
    ...choices.map(([words], at) => element("option", { selected: at === standing }, words)),
  );
}

export const idOf = (part: string, pointer: string): string =>
  `${part}-${pointer.replace(/^#?\//, "").replaceAll(/[^A-Za-z0-9]+/g, "-")}`;

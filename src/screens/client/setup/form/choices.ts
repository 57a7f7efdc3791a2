/** The colours or sizes of a blank: a line each, and one field that takes several at once. */
import { guessedSwatch } from "../../../../model/garment/swatch.ts";
import { element } from "../../kit/dom.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import { listed } from "../../start/short-name.ts";
import { newColour, newSize } from "./adding.ts";
import { type Desk, drawCell, type Field, idOf } from "./field.ts";
import { otherName } from "./sections.ts";

export type Choices = {
  readonly list: "colours" | "sizes";
  /** The blank's place. */
  readonly at: string;
  readonly desk: Desk;
  readonly menu: Json;
  readonly add: (entries: readonly Json[]) => void;
  readonly remove: (index: number) => void;
};

const WORDS = {
  colours: {
    one: "Colour",
    add: "Add colours",
    help: "Several at once, with commas between: navy, sand, black. Enter adds them.",
  },
  sizes: {
    one: "Size",
    add: "Add sizes",
    help: "Several at once, with commas between: S, M, L. Enter adds them.",
  },
} as const;

export function drawChoices({ list, at, desk, menu, add, remove }: Choices): HTMLElement {
  const places = rowsAt(menu, `${at}/${list}`).map((_, index) => `${at}/${list}/${index}`);
  const words = WORDS[list];
  const addId = `${idOf(`${at}/${list}`)}-add`;
  const field = element("input", { id: addId, autocomplete: "off", "aria-describedby": `${addId}-help` });
  const addTyped = (): void => {
    const taken = places.map((place) => String(valueAt(menu, `${place}/id`)));
    const entries: Json[] = [];
    for (const name of listed(field.value)) {
      const known = [...taken, ...entries.map((entry) => String(valueAt(entry, "#/id")))];
      entries.push(list === "colours" ? newColour(known, name) : newSize(known, name));
    }
    if (entries.length > 0) add(entries);
  };
  field.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    addTyped();
  });
  const columns = places.length === 0 ? [] : columnsOf(places[0] ?? "", { list, desk, menu });
  const table = element(
    "table",
    {},
    element(
      "thead",
      {},
      element("tr", {}, ...columns.map(([head]) => element("th", { scope: "col" }, head)), element("td", {})),
    ),
    element("tbody", {}, ...places.map((place, at) => drawChoice(place, at, { list, desk, menu, remove }))),
  );
  return element(
    "fieldset",
    { class: "choice-list" },
    element("legend", {}, `${words.one}s`),
    element("p", { id: `${idOf(`${at}/${list}`)}-fault`, class: "fault" }),
    places.length === 0 ? null : element("div", { class: "wide choice-table" }, table),
    element("label", { for: addId }, words.add),
    element("div", { class: "pair" }, field, element("button", { type: "button", onclick: addTyped }, "Add")),
    element("p", { id: `${addId}-help`, class: "help" }, words.help),
  );
}

/** The columns of a row: what heads each, and its field. */
function columnsOf(
  place: string,
  { list, desk, menu }: Pick<Choices, "list" | "desk" | "menu">,
): readonly (readonly [head: string, field: Field])[] {
  const name = String(valueAt(menu, `${place}/name`) ?? "");
  const other = otherName(menu, place);
  const field = (part: string, head: string, more: Partial<Field> = {}) =>
    [head, { pointer: `${place}/${part}`, label: head, takes: "words", ...more }] as const;
  return [
    field("name", WORDS[list].one),
    [other.label, { ...other, help: "" }],
    ...(list === "sizes"
      ? [
          field("chestInches", "Chest laid flat, inches", { takes: "figure" }),
          field("surcharge", `Costs more by, ${desk.currency()}`, { takes: "money" }),
        ]
      : [field("swatch", "Swatch", { takes: "colour", guess: guessedSwatch(name) })]),
    field("offered", "On sale", { takes: "yes-no" }),
  ];
}

function drawChoice(
  place: string,
  index: number,
  { list, desk, menu, remove }: Pick<Choices, "list" | "desk" | "menu" | "remove">,
): HTMLElement {
  const name = String(valueAt(menu, `${place}/name`) ?? "");
  const cells = columnsOf(place, { list, desk, menu }).map(([head, field], at) =>
    element(
      at === 0 ? "th" : "td",
      at === 0 ? { scope: "row" } : {},
      drawCell(field, `${head} of ${name}`, desk),
    ),
  );
  const out = element(
    "button",
    { type: "button", "aria-label": `Take out “${name}”`, onclick: () => remove(index) },
    "Take out",
  );
  return element("tr", {}, ...cells, element("td", {}, out));
}

/** The colours or sizes of a blank: a line each, and one field that takes several at once. */
import { guessedSwatch } from "../../../../model/garment/swatch.ts";
import { element } from "../../kit/dom.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import { listed } from "../../start/short-name.ts";
import { newColour, newSize } from "./adding.ts";
import { type Desk, drawField, idOf } from "./field.ts";
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
  return element(
    "fieldset",
    { class: "choice-list" },
    element("legend", {}, `${words.one}s`),
    element("p", { id: `${idOf(`${at}/${list}`)}-fault`, class: "fault" }),
    ...places.map((place, index) => drawChoice(place, index, { list, at, desk, menu, add, remove })),
    element("label", { for: addId }, words.add),
    element("div", { class: "pair" }, field, element("button", { type: "button", onclick: addTyped }, "Add")),
    element("p", { id: `${addId}-help`, class: "help" }, words.help),
  );
}

function drawChoice(place: string, index: number, { list, desk, menu, remove }: Choices): HTMLElement {
  const name = String(valueAt(menu, `${place}/name`) ?? "");
  const chest = {
    pointer: `${place}/chestInches`,
    label: "Chest, laid flat",
    takes: "figure",
    unit: "inches",
  } as const;
  const swatch = {
    pointer: `${place}/swatch`,
    label: "Swatch",
    takes: "colour",
    guess: guessedSwatch(name),
  } as const;
  const surcharge = {
    pointer: `${place}/surcharge`,
    label: "Costs more by",
    takes: "money",
    unit: desk.currency(),
  } as const;
  return element(
    "div",
    { class: "choice-line", role: "group", "aria-label": `${WORDS[list].one} ${name}` },
    drawField({ pointer: `${place}/name`, label: WORDS[list].one, takes: "words" }, desk),
    drawField({ ...otherName(menu, place), help: "" }, desk),
    ...(list === "sizes" ? [drawField(chest, desk), drawField(surcharge, desk)] : [drawField(swatch, desk)]),
    drawField({ pointer: `${place}/offered`, label: "On sale", takes: "yes-no" }, desk),
    element(
      "button",
      { type: "button", "aria-label": `Take out “${name}”`, onclick: () => remove(index) },
      "Take out",
    ),
  );
}

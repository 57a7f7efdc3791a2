/** @jsxImportSource preact */
/** The set-up page as its state is: a checklist, the parts of the menu, its rules, the texts beside them, and the bar that saves. */

import type { ComponentChildren } from "preact";
import { type Json, rowsAt, valueAt } from "../kit/json-pointer.ts";
import { spelt } from "../kit/spelling.ts";
import { Tap } from "../parts/tap.tsx";
import type { Actions, FormContext } from "./actions.ts";
import { Begin } from "./begin.tsx";
import {
  type Entry as New,
  newBlank,
  newBundle,
  newDesign,
  newOffer,
  newPress,
  newWish,
  USUAL_WISHES,
} from "./form/adding.ts";
import { AnswersPart } from "./form/answers.tsx";
import { Entries, FaultAt, Line } from "./form/entry.tsx";
import { idOf } from "./form/field.ts";
import { type List, Rows } from "./form/rows.tsx";
import { ESSENTIAL_RULES, OTHER_RULES } from "./form/rules.ts";
import { Meanwhile } from "./saving/meanwhile.tsx";
import { SaveBar } from "./saving/review.tsx";
import { shownOf } from "./shown.ts";
import { added, leaving, type State, writing } from "./state.ts";
import { Texts } from "./trying/handset.tsx";

const Steps = ({ desk }: { readonly desk: FormContext }) => (
  <nav class="steps-rail" aria-label="Steps">
    <ol id="steps" class="tiles">
      {desk.shown.steps.map(({ part, name, isDone, says }) => (
        <li key={part} class={isDone ? "done" : ""}>
          <a class="button quiet" href={`#${part}-title`}>
            <b>{name}</b> {says}
          </a>
        </li>
      ))}
    </ol>
  </nav>
);

type PartProps = {
  readonly part: string;
  readonly title: string;
  readonly lead: string;
  readonly children?: ComponentChildren;
};

const Part = ({ part, title, lead, children }: PartProps) => (
  <section class="part" aria-labelledby={`${part}-title`}>
    <h2 id={`${part}-title`} tabIndex={-1}>
      {title}
    </h2>
    <p class="lead">{spelt(lead)}</p>
    {children}
  </section>
);

type ListPart = Omit<PartProps, "children" | "part"> & {
  readonly part: List;
  /** The label of the button that adds one; with a placeholder, a typed name adds it. */
  readonly add: string;
  readonly placeholder?: string;
  readonly make: (menu: Json, name: string) => New;
  /** Names of some that are often wanted: each adds one at a tap. */
  readonly usual?: readonly string[];
};

const LIST_PARTS: readonly ListPart[] = [
  {
    part: "blanks",
    title: "Garments",
    lead: "What you press on, in its colours and sizes.",
    add: "Add a garment",
    placeholder: "Tee",
    make: newBlank,
  },
  {
    part: "designs",
    title: "Designs",
    lead: "What is pressed on, and how hot, how long, how hard.",
    add: "Add a design",
    placeholder: "Otter",
    make: newDesign,
  },
  {
    part: "offers",
    title: "Products",
    lead: "The menu customers choose from: a design on a garment at a price.",
    add: "Add a product",
    make: newOffer,
  },
  {
    part: "presses",
    title: "Presses",
    lead: "One for each platen that stands at the stall.",
    add: "Add a press",
    make: newPress,
  },
];

function Add({ of, desk }: { readonly of: ListPart; readonly desk: FormContext }) {
  const { part, add, placeholder, make, usual = [] } = of;
  const list = `#/${part}`;
  const id = `${idOf(list)}-add`;
  const addOne = (name: string): void =>
    desk.actions.change((before) => added(writing(before, id, ""), list, make(before.draft.menu, name)));
  if (placeholder === undefined)
    return (
      <Tap id={id} onTap={() => addOne("")}>
        {add}
      </Tap>
    );
  const name = (desk.state.written[id] ?? "").trim();
  const taken = rowsAt(desk.state.draft.menu, list).map((row) => valueAt(row, "#/name"));
  return (
    <>
      <Line
        id={id}
        label={add}
        placeholder={placeholder}
        most={40}
        desk={desk}
        sends={() => name !== "" && addOne(name)}
      >
        <button type="submit">Add</button>
      </Line>
      <p class="row">
        {usual
          .filter((one) => !taken.includes(one))
          .map((one) => (
            <Tap key={one} onTap={() => addOne(one)}>
              {one}
            </Tap>
          ))}
      </p>
    </>
  );
}

function ListOf({ of, desk }: { readonly of: ListPart; readonly desk: FormContext }) {
  const { part } = of;
  return (
    <>
      <FaultAt pointer={`#/${part}`} desk={desk} />
      <Rows list={part} desk={desk} />
      <Add of={of} desk={desk} />
    </>
  );
}

const Within = ({ of, desk }: { readonly of: ListPart; readonly desk: FormContext }) => (
  <section class="within" aria-labelledby={`${of.part}-title`}>
    <h3 id={`${of.part}-title`} tabIndex={-1}>
      {of.title}
    </h3>
    <p class="lead">{of.lead}</p>
    <ListOf of={of} desk={desk} />
  </section>
);

/** Parts that a stall may leave out: within the products. */
const OPTIONAL: readonly ListPart[] = [
  {
    part: "bundles",
    title: "Bundles",
    lead: "Garments that cost less together. Every order gets the ones that save it the most.",
    add: "Add a bundle",
    placeholder: "Any 2 tees",
    make: newBundle,
  },
  {
    part: "wishes",
    title: "Wishes",
    lead: "What the counter can do to a garment beyond the menu, each with its price.",
    add: "Add a wish",
    placeholder: "Back print",
    make: newWish,
    usual: Object.keys(USUAL_WISHES),
  },
];

const Rules = ({ desk }: { readonly desk: FormContext }) => (
  <Part part="rules" title="Rules" lead="Defaults suit a small stall. The organiser sets the hours.">
    <Entries fields={ESSENTIAL_RULES} desk={desk} />
    <AnswersPart desk={desk} />
    <details class="advanced">
      <summary>Advanced</summary>
      {OTHER_RULES.map(([legend, fields]) => (
        <fieldset key={legend}>
          <legend>{legend}</legend>
          <Entries fields={fields} desk={desk} />
        </fieldset>
      ))}
    </details>
  </Part>
);

export function Setup({ state, actions }: { readonly state: State; readonly actions: Actions }) {
  const desk: FormContext = { state, shown: shownOf(state), actions };
  return (
    <>
      <Meanwhile desk={desk} />
      <div class="stack split editor" onFocusOut={() => actions.change(leaving)}>
        <Steps desk={desk} />
        <div class="form">
          <Begin desk={desk} />
          {LIST_PARTS.map((of) => (
            <Part key={of.part} part={of.part} title={of.title} lead={of.lead}>
              <ListOf of={of} desk={desk} />
              {of.part === "offers"
                ? OPTIONAL.map((one) => <Within key={one.part} of={one} desk={desk} />)
                : null}
            </Part>
          ))}
          <Rules desk={desk} />
          <Part part="check" title="Check" lead={desk.shown.readyWords} />
        </div>
        <Texts desk={desk} />
        <SaveBar desk={desk} />
      </div>
    </>
  );
}

/** @jsxImportSource preact */
/** One field of the set-up: its label, its control, and its fault beside it. */

import type { ComponentChildren } from "preact";
import { same } from "../../kit/merging.ts";
import { spelt } from "../../kit/spelling.ts";
import { at, type FormContext } from "../actions.ts";
import { chosen, typing, writing } from "../state.ts";
import { currencyOf, type Field, idOf, showField } from "./field.ts";

type Props = {
  readonly field: Field;
  readonly desk: FormContext;
  /** In a table, column and row name it for the eye; this names it for screen readers. */
  readonly named?: string;
};

/** The fault at a place of the menu. */
export const FaultAt = ({ pointer, desk }: { readonly pointer: string; readonly desk: FormContext }) => (
  <p id={`${idOf(pointer)}-fault`} class="fault">
    {desk.shown.faults.get(pointer)}
  </p>
);

export function Entry({ field, desk, named }: Props) {
  const { pointer, label, takes, unit, help, wide } = field;
  const id = idOf(pointer);
  const own = {
    id,
    "aria-label": named,
    "aria-describedby": named === undefined ? `${id}-help ${id}-fault` : `${id}-fault`,
    "aria-invalid": desk.shown.faults.has(pointer) ? ("true" as const) : undefined,
  };
  const typed = <Typed field={field} desk={desk} own={own} />;
  const fault = <FaultAt pointer={pointer} desk={desk} />;
  if (takes === "yes-no")
    return (
      <div class="ask tick">
        <label for={id}>
          {typed} {named === undefined ? spelt(label) : null}
        </label>
        {fault}
      </div>
    );
  if (named !== undefined)
    return (
      <div class="ask">
        {typed}
        {fault}
      </div>
    );
  return (
    <div class={wide ? "ask wide" : "ask"}>
      <label for={id}>
        {spelt(label)}
        {unit === undefined ? null : <span class="unit"> {unit}</span>}
      </label>
      {typed}
      <p id={`${id}-help`} class="help">
        {help === undefined ? null : spelt(help)}
      </p>
      {fault}
    </div>
  );
}

type OwnProps = { readonly field: Field; readonly desk: FormContext; readonly own: { readonly id: string } };

function Typed({ field, desk, own }: OwnProps) {
  const { pointer, takes, choices } = field;
  const { state, actions } = desk;
  const value = at(desk, pointer);
  if (choices !== undefined)
    return (
      <select
        {...own}
        onChange={({ currentTarget: { selectedIndex } }) =>
          actions.change((before) => chosen(before, pointer, choices[selectedIndex]?.[1]))
        }
      >
        {choices.map(([words, one]) => (
          <option key={words} selected={same(one, value)}>
            {words}
          </option>
        ))}
      </select>
    );
  if (takes === "yes-no")
    return (
      <input
        {...own}
        type="checkbox"
        checked={value !== false}
        onChange={({ currentTarget: { checked } }) =>
          actions.change((before) => chosen(before, pointer, checked))
        }
      />
    );
  const text = {
    ...own,
    value:
      state.typing?.pointer === pointer
        ? state.typing.text
        : showField(field, value, currencyOf(state.draft.menu)),
    onInput: ({ currentTarget }: { readonly currentTarget: HTMLInputElement }): void =>
      actions.change((before) => typing(before, field, currentTarget.value)),
  };
  return takes === "colour" ? (
    <input {...text} type="color" class="swatch" />
  ) : (
    <input
      {...text}
      type="text"
      autocomplete="off"
      spellcheck={false}
      inputMode={takes === "words" ? "text" : "decimal"}
    />
  );
}

/** Fields side by side. */
export const Entries = ({
  fields,
  desk,
}: {
  readonly fields: readonly Field[];
  readonly desk: FormContext;
}) => (
  <div class="tiles asks">
    {fields.map((field) => (
      <Entry key={field.pointer} field={field} desk={desk} />
    ))}
  </div>
);

type LineProps = {
  readonly id: string;
  readonly label: string;
  readonly desk: FormContext;
  readonly sends: () => unknown;
  readonly placeholder?: string;
  readonly most?: number;
  readonly help?: string;
  /** The button that sends it. */
  readonly children: ComponentChildren;
};

/** A line typed beside the menu, and the button that does something with it. Enter does it too. */
export function Line({ id, label, desk, sends, placeholder, most, help, children }: LineProps) {
  return (
    <form
      class="adding"
      onSubmit={(event) => {
        event.preventDefault();
        sends();
      }}
    >
      <label for={id}>{label}</label>
      <div class="pair">
        <input
          id={id}
          autocomplete="off"
          spellcheck={false}
          maxLength={most}
          placeholder={placeholder}
          aria-describedby={`${id}-help`}
          value={desk.state.written[id] ?? ""}
          onInput={({ currentTarget: { value } }) =>
            desk.actions.change((before) => writing(before, id, value))
          }
        />
        {children}
      </div>
      <p id={`${id}-help`} class="help">
        {help}
      </p>
    </form>
  );
}

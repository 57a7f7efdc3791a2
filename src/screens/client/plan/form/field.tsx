/** @jsxImportSource preact */
/** One number or word of a request: its label, its unit and one line of help, and the faults found with it. */

import { useState } from "preact/hooks";
import { type Json, valueAt } from "../../kit/json-pointer.ts";
import { spelt } from "../../kit/spelling.ts";
import { PLAIN, type Writing } from "./writings.ts";

export type Field = {
  readonly pointer: string;
  readonly label: string;
  /** The unit of the figure, shown behind the label. */
  readonly unit?: string;
  readonly help: string;
  /** How it is written; absent: as figures and words. */
  readonly writing?: Writing;
  /** The browser's own entry for a day or a time of day. */
  readonly entry?: "date" | "time";
  /** Words to choose from, with their values; undefined removes the field. */
  readonly choices?: readonly Choice[];
  /** The chosen one, if the value itself does not show it. */
  readonly chosen?: number;
  /** Taken only once it is left: other places of the request follow it. */
  readonly settles?: boolean;
  /** Few people need it: it is under More. */
  readonly more?: boolean;
  /** The plan's value for it, unless something is typed. */
  readonly fromPlan?: Json | undefined;
};

export type Choice = readonly [words: string, value: Json | undefined];

/** A part's form: its request, the handler of a new value, and the faults by the pointer of the field. */
export type FormContext = {
  readonly part: string;
  readonly request: Json;
  readonly change: (pointer: string, value: Json | undefined) => void;
  readonly faults: ReadonlyMap<string, string>;
};

export const idOf = (part: string, pointer: string): string =>
  `${part}-${pointer.replace(/^#?\//, "").replaceAll(/[^A-Za-z0-9]+/g, "-")}`;

type Props = { readonly fields: readonly Field[]; readonly desk: FormContext };

/** Fields in their order, those that few need under More. */
export function Fields({ fields, desk }: Props) {
  const more = fields.filter((field) => field.more === true);
  return (
    <>
      <Grid fields={fields.filter((field) => field.more !== true)} desk={desk} />
      {more.length === 0 ? null : (
        <details>
          <summary>More</summary>
          <Grid fields={more} desk={desk} />
        </details>
      )}
    </>
  );
}

/** Fields side by side. */
export function Grid({ fields, desk }: Props) {
  if (fields.length === 0) return null;
  return (
    <div class="fields">
      {fields.map((field) => (
        <Entry key={field.pointer} field={field} desk={desk} />
      ))}
    </div>
  );
}

function Entry({ field, desk }: { readonly field: Field; readonly desk: FormContext }) {
  const { pointer, label, unit, help } = field;
  const id = idOf(desk.part, pointer);
  const fault = desk.faults.get(pointer) ?? "";
  const own = {
    id,
    "aria-describedby": `${id}-help ${id}-fault`,
    "aria-invalid": fault === "" ? undefined : ("true" as const),
  };
  return (
    <div class="field">
      <label for={id}>
        {spelt(label)}
        {unit === undefined ? null : <span class="unit"> {unit}</span>}
      </label>
      {field.choices === undefined ? (
        <Typed field={field} desk={desk} own={own} />
      ) : (
        <Chosen field={field} desk={desk} own={own} />
      )}
      <p id={`${id}-help`} class="help">
        {spelt(help)}
        <Origin field={field} desk={desk} />
      </p>
      <p id={`${id}-fault`} class="fault">
        {fault}
      </p>
    </div>
  );
}

/** Says that the plan gives the figure; once something else is typed, a button takes the plan's again. */
function Origin({ field, desk }: { readonly field: Field; readonly desk: FormContext }) {
  const { pointer, fromPlan, writing = PLAIN } = field;
  if (fromPlan === undefined) return null;
  if (valueAt(desk.request, pointer) === undefined)
    return (
      <>
        {" "}
        <b>From the plan.</b>
      </>
    );
  return (
    <>
      {" "}
      <b>Typed over.</b>{" "}
      <button type="button" class="link" onClick={() => desk.change(pointer, undefined)}>
        Take the plan’s: {writing.shown(fromPlan)}
      </button>
    </>
  );
}

type OwnProps = {
  readonly field: Field;
  readonly desk: FormContext;
  readonly own: { readonly id: string; readonly "aria-describedby": string };
};

function Typed({ field, desk, own }: OwnProps) {
  const { pointer, writing = PLAIN, settles = false, fromPlan, entry = "text" } = field;
  const [draft, setDraft] = useState<string | null>(null);
  const now = valueAt(desk.request, pointer) ?? fromPlan;
  // What is typed over the plan's figure says so once it is left, not at each key.
  const waits = settles || fromPlan !== undefined;
  const take = (text: string): void => {
    const read = writing.read(text, now);
    if (settles && read === undefined) return;
    desk.change(pointer, read);
  };
  const typed = {
    ...own,
    autocomplete: "off",
    value: draft ?? writing.shown(now),
    onInput: ({ currentTarget: { value } }: { readonly currentTarget: HTMLInputElement }): void => {
      setDraft(value);
      if (!waits) take(value);
    },
    onChange: ({ currentTarget: { value } }: { readonly currentTarget: HTMLInputElement }): void => {
      if (waits) take(value);
      setDraft(null);
    },
  };
  if (entry === "text") return <input {...typed} type="text" spellcheck={false} />;
  return <input {...typed} type={entry} />;
}

function Chosen({ field, desk, own }: OwnProps) {
  const { pointer, choices = [], chosen } = field;
  const value = valueAt(desk.request, pointer);
  const standing = chosen ?? choices.findIndex(([, one]) => one === value);
  return (
    <select
      {...own}
      onChange={({ currentTarget }) => desk.change(pointer, choices[currentTarget.selectedIndex]?.[1])}
    >
      {choices.map(([words], at) => (
        <option key={words} selected={at === standing}>
          {spelt(words)}
        </option>
      ))}
    </select>
  );
}

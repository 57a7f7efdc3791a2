/** @jsxImportSource preact */
/** What the page's forms are made of: a labelled field, a pick among few, and the fields of an example to tap. */
import { useState } from "preact/hooks";
import { Tap } from "../parts/tap.tsx";
import { readExample } from "./example.ts";

type Labelled = { readonly id: string; readonly label: string; readonly help?: string };

type TypedProps = Labelled & {
  readonly value: string;
  readonly set: (value: string) => void;
  /** Several lines. */
  readonly lines?: number;
};

export function Typed({ id, label, help, value, set, lines }: TypedProps) {
  const shared = {
    id,
    value,
    autocomplete: "off",
    spellcheck: false,
    "aria-describedby": help === undefined ? undefined : `${id}-help`,
    onInput: ({ currentTarget }: { readonly currentTarget: { readonly value: string } }) =>
      set(currentTarget.value),
  };
  return (
    <div class="asked">
      <label for={id}>{label}</label>
      {lines === undefined ? <input {...shared} /> : <textarea {...shared} rows={lines} />}
      {help === undefined ? null : (
        <p id={`${id}-help`} class="small">
          {help}
        </p>
      )}
    </div>
  );
}

type PickedProps<T extends string> = Labelled & {
  readonly value: T;
  readonly among: readonly (readonly [value: T, label: string])[];
  readonly set: (value: T) => void;
};

export function Picked<T extends string>({ id, label, help, value, among, set }: PickedProps<T>) {
  return (
    <div class="asked">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        onChange={({ currentTarget }) => set(currentTarget.value as T)} // one of the options below
      >
        {among.map(([one, words]) => (
          <option key={one} value={one} selected={one === value}>
            {words}
          </option>
        ))}
      </select>
      {help === undefined ? null : <p class="small">{help}</p>}
    </div>
  );
}

/** Fields that are drawn: an example with more is cut, and says so. */
const MOST_FIELDS = 60;

type TappedProps<Role extends string> = {
  readonly id: string;
  readonly example: string;
  readonly roles: readonly (readonly [role: Role, name: string])[];
  /** The role of a field, if it has one. */
  readonly roleOf: (place: string) => Role | undefined;
  /** A role was given to a field, or taken from it. */
  readonly tapped: (place: string, role: Role) => void;
};

/** The fields of an example. Choose a role, then tap the field that holds it; the next open role follows by itself. */
export function TappedFields<Role extends string>({ id, example, roles, roleOf, tapped }: TappedProps<Role>) {
  const fields = readExample(example)?.fields ?? [];
  const given = (role: Role): boolean => fields.some(({ place }) => roleOf(place) === role);
  const [chosen, choose] = useState<Role | null>(null);
  const role = chosen ?? roles.find(([one]) => !given(one))?.[0] ?? roles[0]?.[0];
  if (fields.length === 0 || role === undefined) return null;
  const nameOf = (one: Role | undefined): string | undefined => roles.find(([other]) => other === one)?.[1];
  const tap = (place: string): void => {
    tapped(place, role);
    const at = roles.findIndex(([one]) => one === role);
    const next = roles.find(([one], n) => n > at && !given(one));
    choose(next?.[0] ?? role);
  };
  return (
    <fieldset id={id} class="example">
      <legend>Tap the field that holds: {nameOf(role)}</legend>
      <p class="row roles">
        {roles.map(([one, name]) => (
          <Tap key={one} pressed={one === role} onTap={() => choose(one)}>
            {name}
            {given(one) ? " ✓" : ""}
          </Tap>
        ))}
      </p>
      <ul class="ruled">
        {fields.slice(0, MOST_FIELDS).map(({ place, value }) => (
          <li key={place}>
            <Tap class="field" onTap={() => tap(place)} pressed={roleOf(place) === role}>
              <span class="place">{place}</span>
              <b>{nameOf(roleOf(place)) ?? ""}</b>
              <span class="value">{value}</span>
            </Tap>
          </li>
        ))}
      </ul>
      {fields.length > MOST_FIELDS ? (
        <p class="small">{`The first ${MOST_FIELDS} of ${fields.length} fields. Paste a shorter example.`}</p>
      ) : null}
    </fieldset>
  );
}

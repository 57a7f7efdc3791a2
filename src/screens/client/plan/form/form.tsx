/** @jsxImportSource preact */
/** A part's form: its groups of fields and lists, and the faults of its request shown beside them and listed above. */

import { useEffect, useRef } from "preact/hooks";
import type { MendableFault } from "../../../../model/basics/faults.ts";
import type { Json } from "../../kit/json-pointer.ts";
import { type Field, Fields, type FormContext, idOf } from "./field.tsx";
import { fieldsIn, RowList, type Rows } from "./rows.tsx";

export type Group = {
  readonly legend: string;
  readonly fields?: readonly Field[];
  readonly rows?: readonly Rows[];
  /** Everybody needs it: it is always open. */
  readonly essential?: boolean;
  /** Leads to the entry that loads a file into this group. */
  readonly loads?: string;
};

type Props = {
  readonly part: string;
  readonly groups: readonly Group[];
  readonly request: Json;
  readonly change: FormContext["change"];
  readonly faults: readonly MendableFault[];
};

export function Form({ part, groups, request, change, faults }: Props) {
  const all = groups.flatMap((group) => [...(group.fields ?? []), ...fieldsIn(group.rows ?? [])]);
  const found = faults.map((fault) => ({
    field: fieldFor(fault.pointer, all),
    pointer: fault.pointer,
    words: `${fault.detail}; ${fault.mend}.`,
  }));
  const byField = new Map<string, string>();
  for (const { field, words } of found)
    if (field !== undefined)
      byField.set(field.pointer, `${byField.get(field.pointer) ?? ""} ${words}`.trim());
  const desk: FormContext = { part, request, change, faults: byField };
  const place = useRef<HTMLFormElement>(null);
  // A fault is not hidden under a lid; the lid is the reader's own again after that.
  const amiss = [...byField.keys()].join(" ");
  useEffect(() => {
    if (amiss === "") return;
    for (const entry of place.current?.querySelectorAll("[aria-invalid]") ?? [])
      for (let lid = entry.closest("details"); lid !== null; lid = above(lid)) lid.open = true;
  }, [amiss]);
  return (
    <form ref={place} class="no-print" autocomplete="off" onSubmit={(event) => event.preventDefault()}>
      {found.length === 0 ? null : (
        <div id={`${part}-faults`} class="notice" role="alert">
          <p>
            {found.length === 1
              ? "One thing has to be mended first:"
              : `${found.length} things have to be mended first:`}
          </p>
          <ul>
            {found.map(({ field, pointer, words }) => (
              <li key={`${pointer} ${words}`}>
                {field === undefined ? (
                  <code>{pointer}</code>
                ) : (
                  <FieldLink id={idOf(part, field.pointer)} label={field.label} />
                )}{" "}
                {words}
              </li>
            ))}
          </ul>
        </div>
      )}
      {groups.map((group) => (
        <OneGroup key={group.legend} group={group} desk={desk} />
      ))}
    </form>
  );
}

const above = (lid: HTMLElement): HTMLDetailsElement | null => lid.parentElement?.closest("details") ?? null;

function FieldLink({ id, label }: { readonly id: string; readonly label: string }) {
  return (
    <button type="button" class="link" onClick={() => document.getElementById(id)?.focus()}>
      {label}
    </button>
  );
}

function OneGroup({ group, desk }: { readonly group: Group; readonly desk: FormContext }) {
  const { legend, fields = [], rows = [], essential = false, loads } = group;
  const inside = (
    <fieldset>
      <legend class="offstage">{legend}</legend>
      <Fields fields={fields} desk={desk} />
      {rows.map((list) => (
        <RowList key={list.pointer} list={list} desk={desk} />
      ))}
      {loads === undefined ? null : (
        <label class="button" for="load">
          {loads}
        </label>
      )}
    </fieldset>
  );
  if (essential) return inside;
  return (
    <details>
      <summary>{legend}</summary>
      {inside}
    </details>
  );
}

/** The field of a fault: the exact one, else one inside the place it names, else the one that contains it. */
function fieldFor(pointer: string, all: readonly Field[]): Field | undefined {
  return (
    all.find((one) => one.pointer === pointer) ??
    all.find((one) => one.pointer.startsWith(`${pointer}/`)) ??
    all.find((one) => pointer.startsWith(`${one.pointer}/`))
  );
}

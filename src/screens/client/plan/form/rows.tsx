/** @jsxImportSource preact */
/** A list in a request that grows and shrinks: each row's fields, a button that takes it out, one that adds. */

import { useEffect, useRef } from "preact/hooks";
import { type Json, rowsAt } from "../../kit/json-pointer.ts";
import { spelt } from "../../kit/spelling.ts";
import { type Field, Fields, type FormContext, Grid, idOf } from "./field.tsx";

export type Row = {
  readonly at: string;
  /** Its name for a person. */
  readonly name: string;
  /** Its main figures in a few words, read while it is shut. */
  readonly digest?: string;
  readonly fields: readonly Field[];
  readonly rows?: readonly Rows[];
};

export type Rows = {
  readonly pointer: string;
  /** One of them with its article: "an offer". */
  readonly one: string;
  /** The start value of a new row. */
  readonly fresh: Json;
  readonly each: readonly Row[];
  /** Few figures a row: they are in one line, the rest under More. */
  readonly short?: boolean;
  /** One line about the list. */
  readonly help?: string;
  /** The list may be left out of the request altogether. */
  readonly optional?: boolean;
};

/** Every field of the rows, each with its row's name before its label, for a list of faults. */
export const fieldsIn = (lists: readonly Rows[]): readonly Field[] =>
  lists.flatMap(({ each }) =>
    each.flatMap(({ name, fields, rows = [] }) =>
      [...fields, ...fieldsIn(rows)].map((field) => ({ ...field, label: `${name}: ${field.label}` })),
    ),
  );

type Props = { readonly list: Rows; readonly desk: FormContext };

export function RowList({ list, desk }: Props) {
  const { pointer, one, fresh, each, short = false, help, optional = false } = list;
  const now = rowsAt(desk.request, pointer);
  const place = useRef<HTMLDivElement>(null);
  /** The number of rows once an added one is drawn, which then gets the focus; 0: none was added. */
  const awaited = useRef(0);
  useEffect(() => {
    // The effect of an earlier drawing may come after the tap: the row is not there yet.
    if (awaited.current === 0 || each.length < awaited.current) return;
    awaited.current = 0;
    const last = [...(place.current?.querySelectorAll<HTMLElement>(":scope > [data-row]") ?? [])].at(-1);
    if (last instanceof HTMLDetailsElement) last.open = true;
    last?.querySelector<HTMLElement>("input, select")?.focus();
  });
  const takeOut = (index: number) => (): void => {
    const left = now.filter((_, at) => at !== index);
    desk.change(pointer, left.length === 0 && optional ? undefined : left);
    document.getElementById(`${idOf(desk.part, pointer)}-add`)?.focus();
  };
  return (
    <div class={short ? "rows short" : "rows"} ref={place}>
      {help === undefined ? null : <p class="help">{spelt(help)}</p>}
      {each.map((row, index) => (
        <OneRow key={row.at} row={row} desk={desk} short={short} takeOut={takeOut(index)} />
      ))}
      <button
        type="button"
        class="add"
        id={`${idOf(desk.part, pointer)}-add`}
        onClick={() => {
          awaited.current = each.length + 1;
          desk.change(pointer, [...now, fresh]);
        }}
      >
        {spelt(`Add ${one}`)}
      </button>
    </div>
  );
}

type RowProps = {
  readonly row: Row;
  readonly desk: FormContext;
  readonly short: boolean;
  readonly takeOut: () => void;
};

function OneRow({ row, desk, short, takeOut }: RowProps) {
  const { at, name, digest = "", fields, rows = [] } = row;
  const mark = `${desk.part} ${at}`;
  const out = (
    <button type="button" class="quiet out-with" onClick={takeOut}>
      Remove {name}
    </button>
  );
  const lists = rows.map((list) => <RowList key={list.pointer} list={list} desk={desk} />);
  if (short) {
    const more = fields.filter((field) => field.more === true);
    return (
      <fieldset class="item" data-row={mark}>
        <legend class="offstage">{name}</legend>
        <Grid fields={fields.filter((field) => field.more !== true)} desk={desk} />
        {more.length + rows.length === 0 ? (
          out
        ) : (
          <details>
            <summary>
              More<span class="offstage"> about {name}</span>
            </summary>
            <Grid fields={more} desk={desk} />
            {lists}
            {out}
          </details>
        )}
      </fieldset>
    );
  }
  return (
    <details class="item" data-row={mark}>
      <summary>
        {name}
        <span class="digest">{digest === "" ? "" : ` ${digest}`}</span>
      </summary>
      <fieldset>
        <legend class="offstage">{name}</legend>
        <Fields fields={fields} desk={desk} />
        {lists}
        {out}
      </fieldset>
    </details>
  );
}

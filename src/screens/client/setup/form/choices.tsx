/** @jsxImportSource preact */
/** The colours or sizes of a blank: a line each, and one field that takes several at once. */

import { rowsAt } from "../../kit/json-pointer.ts";
import { spelt } from "../../kit/spelling.ts";
import { Tap } from "../../parts/tap.tsx";
import { listed } from "../../start/short-name.ts";
import { type FormContext, wordsAt } from "../actions.ts";
import { added, removed, type State, writing } from "../state.ts";
import { newColour, newSize } from "./adding.ts";
import { Entry, FaultAt, Line } from "./entry.tsx";
import { idOf } from "./field.ts";
import { LISTS } from "./sections.ts";

type Props = { readonly list: "colours" | "sizes"; readonly blank: string; readonly desk: FormContext };

const WORDS = {
  colours: {
    one: "Colour",
    add: "Add colours",
    help: "Several at once, with commas between: navy, sand, black. Enter adds them.",
    make: newColour,
  },
  sizes: {
    one: "Size",
    add: "Add sizes",
    help: "Several at once, with commas between: S, M, L. Enter adds them.",
    make: newSize,
  },
} as const;

/** The choices typed into the line, added. */
const withTyped = (state: State, id: string, place: string, make: typeof newColour): State =>
  listed(state.written[id] ?? "").reduce(
    (so, name) => added(so, place, make(so.draft.menu, place, name)),
    writing(state, id, ""),
  );

export function Choices({ list, blank, desk }: Props) {
  const { state, actions } = desk;
  const { menu } = state.draft;
  const { one, add, help, make } = WORDS[list];
  const place = `${blank}/${list}`;
  const id = `${idOf(place)}-add`;
  const rows = rowsAt(menu, place).map((_, index) => `${place}/${index}`);
  return (
    <fieldset class="choice-list">
      <legend>{spelt(`${one}s`)}</legend>
      <FaultAt pointer={place} desk={desk} />
      {rows[0] === undefined ? null : (
        <div class="wide choice-table">
          <table>
            <thead>
              <tr>
                {LISTS[list].fields(menu, rows[0]).map(({ label }) => (
                  <th key={label} scope="col">
                    {spelt(label)}
                  </th>
                ))}
                <td />
              </tr>
            </thead>
            <tbody>
              {rows.map((row, index) => {
                const name = wordsAt(desk, `${row}/name`);
                const [first, ...others] = LISTS[list]
                  .fields(menu, row)
                  .map((field) => (
                    <Entry field={field} desk={desk} named={`${spelt(field.label)} of ${name}`} />
                  ));
                return (
                  <tr key={wordsAt(desk, `${row}/id`)}>
                    <th scope="row">{first}</th>
                    {others.map((entry) => (
                      <td key={entry.props.field.label}>{entry}</td>
                    ))}
                    <td>
                      <Tap
                        label={`Remove “${name}”`}
                        onTap={() => actions.change((before) => removed(before, place, index))}
                      >
                        Remove
                      </Tap>
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
      <Line
        id={id}
        label={spelt(add)}
        help={help}
        desk={desk}
        sends={() => actions.change((before) => withTyped(before, id, place, make))}
      >
        <button type="submit">Add</button>
      </Line>
    </fieldset>
  );
}

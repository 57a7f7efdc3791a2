/** @jsxImportSource preact */
/** Which colours and sizes of its blank an offer is sold in: all of them, unless some are picked. */

import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import { spelt } from "../../kit/spelling.ts";
import { at, type FormContext } from "../actions.ts";
import { chosen } from "../state.ts";
import { FaultAt } from "./entry.tsx";

type Props = { readonly offer: string; readonly desk: FormContext };

/** The boxes of an offer. None cleared means no list, so that later additions to the blank are included. */
export function Limits({ offer, desk }: Props) {
  const { menu } = desk.state.draft;
  const blank = rowsAt(menu, "#/blanks").find((one) => valueAt(one, "#/id") === at(desk, `${offer}/blank`));
  return (
    <div>
      {(["colours", "sizes"] as const).map((list) => (
        <Boxes
          key={list}
          pointer={`${offer}/${list}`}
          legend={spelt(`Sold in these ${list}`)}
          all={rowsAt(blank ?? null, `#/${list}`)}
          isWhole
          desk={desk}
        />
      ))}
    </div>
  );
}

type BoxesProps = {
  readonly pointer: string;
  readonly legend: string;
  /** All choices, each with its id and name. */
  readonly all: readonly Json[];
  /** No list means all choices, later additions included. */
  readonly isWhole: boolean;
  readonly desk: FormContext;
};

/** Some of what there is, by id. */
export function Boxes({ pointer, legend, all, isWhole, desk }: BoxesProps) {
  const only = at(desk, pointer);
  const ids = all.map((one) => String(valueAt(one, "#/id")));
  const isIn = (id: string): boolean => (Array.isArray(only) ? only.includes(id) : isWhole);
  const turn = (id: string): void => {
    const now = ids.filter((one) => isIn(one) !== (one === id));
    desk.actions.change((before) =>
      chosen(before, pointer, isWhole && now.length === ids.length ? undefined : now),
    );
  };
  return (
    <fieldset class="boxes">
      <legend>{legend}</legend>
      <FaultAt pointer={pointer} desk={desk} />
      {all.map((one, index) => {
        const id = ids[index] ?? "";
        return (
          <label key={id}>
            <input type="checkbox" checked={isIn(id)} onChange={() => turn(id)} />{" "}
            {String(valueAt(one, "#/name"))}
          </label>
        );
      })}
    </fieldset>
  );
}

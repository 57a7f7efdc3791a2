/** @jsxImportSource preact */
/** The contents of a bundle: how many of which products, and of which others with them. */
import { rowsAt } from "../../kit/json-pointer.ts";
import { Tap } from "../../parts/tap.tsx";
import type { FormContext } from "../actions.ts";
import { added, removed } from "../state.ts";
import { newTake } from "./adding.ts";
import { Entry, FaultAt } from "./entry.tsx";
import { figure, idOf } from "./field.ts";
import { Boxes } from "./limits.tsx";

/** As the schema has it. */
const MOST_TAKES = 4;

export function Takes({ bundle, desk }: { readonly bundle: string; readonly desk: FormContext }) {
  const { state, actions } = desk;
  const { menu } = state.draft;
  const list = `${bundle}/takes`;
  const takes = rowsAt(menu, list).map((_, index) => `${list}/${index}`);
  return (
    <>
      <FaultAt pointer={list} desk={desk} />
      {takes.map((take, index) => (
        <div key={take}>
          <Entry
            field={figure(`${take}/quantity`, index === 0 ? "It takes" : "and", { unit: "garments" })}
            desk={desk}
          />
          <Boxes
            pointer={`${take}/offers`}
            legend="of any of these"
            all={rowsAt(menu, "#/offers")}
            isWhole={false}
            desk={desk}
          />
          {takes.length > 1 ? (
            <Tap onTap={() => actions.change((before) => removed(before, list, index))}>Take these out</Tap>
          ) : null}
        </div>
      ))}
      {takes.length < MOST_TAKES ? (
        <p>
          <Tap
            id={`${idOf(list)}-add`}
            onTap={() => actions.change((before) => added(before, list, newTake()))}
          >
            And other garments with them
          </Tap>
        </p>
      ) : null}
    </>
  );
}

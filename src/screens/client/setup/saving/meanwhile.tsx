/** @jsxImportSource preact */
/** Changes that somebody else saved during this edit, and the collisions. */
import type { Json } from "../../kit/json-pointer.ts";
import { Tap } from "../../parts/tap.tsx";
import type { FormContext } from "../actions.ts";
import { nameAt } from "../form/names.ts";
import { takenTheirs } from "../state.ts";

const words = (value: Json | undefined): string =>
  value === undefined ? "taken out" : typeof value === "object" ? "changed in several places" : `“${value}”`;

export function Meanwhile({ desk: { state, actions } }: { readonly desk: FormContext }) {
  const { meanwhile, draft } = state;
  return (
    <section
      id="meanwhile"
      class="card meanwhile"
      aria-live="polite"
      tabIndex={-1}
      hidden={meanwhile === null}
    >
      {meanwhile === null ? null : (
        <>
          <h2>Somebody else saved meanwhile</h2>
          <p>Their changes are in here now, beside yours. Look them over and save again.</p>
          <ul class="bullets">
            {meanwhile.told.map(({ pointer, says }) => (
              <li key={`${pointer} ${says}`}>{says}</li>
            ))}
          </ul>
          {meanwhile.collisions.map((collision) => (
            <p key={collision.pointer} class="collision">
              You both changed {nameAt(draft.menu, collision.pointer)}: yours is {words(collision.mine)},
              theirs {words(collision.theirs)}. Yours stands.{" "}
              <Tap onTap={() => actions.change((before) => takenTheirs(before, collision))}>Take theirs</Tap>
            </p>
          ))}
        </>
      )}
    </section>
  );
}

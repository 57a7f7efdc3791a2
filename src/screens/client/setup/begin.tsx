/** @jsxImportSource preact */
/** Ways to begin an empty menu other than typing all of it: a first tee, or the menu of an earlier fair. */
import { rowsAt } from "../kit/json-pointer.ts";
import { Tap } from "../parts/tap.tsx";
import type { FormContext } from "./actions.ts";
import { linkParts } from "./copying.ts";
import { newBlank } from "./form/adding.ts";
import { Line } from "./form/entry.tsx";
import { added } from "./state.ts";

export function Begin({ desk }: { readonly desk: FormContext }) {
  const { state, actions } = desk;
  const { menu } = state.draft;
  return (
    <section class="card begin" aria-labelledby="begin-title" hidden={rowsAt(menu, "#/blanks").length > 0}>
      <h2 id="begin-title">Where to begin</h2>
      <p class="row">
        <Tap
          class="main"
          onTap={() =>
            actions.change((before) => added(before, "#/blanks", newBlank(before.draft.menu, "Tee")))
          }
        >
          Begin with a tee in S to 2XL
        </Tap>
        <a class="button" href={actions.pages.plan}>
          Fill it from a planned day
        </a>
        <a class="button" href={actions.pages.closeout}>
          Load one saved at an earlier fair
        </a>
      </p>
      <Line
        id="copy-link"
        label="Or copy the menu of an earlier fair: its crew link"
        placeholder="https://…/crew/…#key=…"
        desk={desk}
        sends={() => actions.copy(linkParts(state.written["copy-link"] ?? ""))}
      >
        <button type="submit">Copy its menu</button>
      </Line>
      <p class="row">
        {state.others.map((other) => (
          <Tap key={other.place} onTap={() => actions.copy(other)}>
            Copy from {other.place}
          </Tap>
        ))}
      </p>
      <p role="status">{state.said["copy"]}</p>
    </section>
  );
}

/** @jsxImportSource preact */
/** The count page: tables to type into, warnings before saving, and what is not saved. */
import { spelt } from "../kit/spelling.ts";
import { Tap } from "../parts/tap.tsx";
import type { Actions } from "./actions.ts";
import { Grid } from "./grid.tsx";
import { conflictsOf, faultsOf, type State, unsavedWords } from "./state.ts";
import { tablesOf } from "./tables.ts";

type Props = { readonly state: State; readonly actions: Actions };

/** With this many tables, the page has a link to each. */
const MANY = 4;

const WAYS = [
  ["counted", "a count: the total left, unpressed"],
  ["delivered", "a delivery: pieces to add"],
] as const;

function SaveBar({ state, actions, conflicts }: Props & { readonly conflicts: number }) {
  const { kept, saving } = state;
  const changed = Object.keys(kept.typed).length > 0;
  const plain = kept.way === "counted" ? "Save the count" : "Save the delivery";
  return (
    <footer class="bar no-print">
      <p role="status">{unsavedWords(state)}</p>
      <div class="row">
        <Tap
          id="save"
          class="main"
          busy={saving}
          disabled={!changed || faultsOf(state).length > 0}
          onTap={actions.save}
        >
          {conflicts > 0 ? "Save anyway" : plain}
        </Tap>
        {changed ? (
          <Tap class="danger" onTap={actions.discard}>
            Discard changes
          </Tap>
        ) : null}
      </div>
    </footer>
  );
}

/** The table that was copied, selected so that it can be copied by hand. */
const Copied = ({ text }: { readonly text: string }) => (
  <div>
    <label for="copied">The table as copied</label>
    <textarea id="copied" key={text} ref={(area) => area?.select()} rows={6} readOnly value={text} />
  </div>
);

export function Stock({ state, actions }: Props) {
  const tables = tablesOf(state.menu);
  const conflicts = conflictsOf(state);
  const lookAt = [...faultsOf(state), ...conflicts];
  return (
    <>
      <fieldset class="way">
        <legend>I’m entering</legend>
        {WAYS.map(([way, words]) => (
          <label key={way}>
            <input
              type="radio"
              name="way"
              checked={state.kept.way === way}
              onChange={() => actions.setWay(way)}
            />{" "}
            {words}
          </label>
        ))}
      </fieldset>
      <p class="small">
        {spelt(
          "Tab or the arrow keys move from cell to cell. Paste a range copied from a spreadsheet into any cell; its headings are read, colours down or across.",
        )}
      </p>
      {tables.length < MANY ? null : (
        <nav class="row jump" aria-label="Tables">
          {tables.map(({ key, title }) => (
            <a key={key} href={`#title-${key}`}>
              {title}
            </a>
          ))}
        </nav>
      )}
      <div id="tables" class="row tables">
        {tables.map((table) => (
          <Grid key={table.key} table={table} state={state} actions={actions} />
        ))}
      </div>
      {lookAt.length === 0 ? null : (
        <section class="notice needs-you conflicts" aria-labelledby="conflicts-title">
          <h2 id="conflicts-title">Look at these before saving</h2>
          <ul class="bullets">
            {lookAt.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </section>
      )}
      {state.copied === null ? null : <Copied text={state.copied} />}
      <SaveBar state={state} actions={actions} conflicts={conflicts.length} />
    </>
  );
}

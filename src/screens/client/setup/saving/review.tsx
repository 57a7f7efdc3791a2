/** @jsxImportSource preact */
/** The bar that stays in sight: unsaved changes, what they would break, and what must be fixed. */
import type { Fault } from "../../../../model/basics/faults.ts";
import { ordersWords } from "../../crew/in-use.ts";
import type { Json } from "../../kit/json-pointer.ts";
import { Tap } from "../../parts/tap.tsx";
import type { FormContext } from "../actions.ts";
import { nameAt } from "../form/names.ts";
import { going } from "../state.ts";

const MOST_SHOWN = 40;

/** Where a fault is, as a person finds it: "#/offers/0/price" in the offer's own name. */
export const faultWords = (menu: Json) => (fault: Fault) => {
  const where = nameAt(menu, fault.pointer);
  return { pointer: fault.pointer, says: where === "" ? fault.detail : `${where}: ${fault.detail}` };
};

type PlacesProps = {
  readonly desk: FormContext;
  readonly places: readonly { readonly pointer: string; readonly says: string }[];
  readonly most?: number;
};

/** Places of the menu, each with a message; a tap leads there. */
export function Places({ desk: { actions }, places, most = MOST_SHOWN }: PlacesProps) {
  const more = places.length - most;
  return (
    <>
      {places.slice(0, most).map(({ pointer, says }) => (
        <li key={`${pointer} ${says}`}>
          <Tap class="link" onTap={() => actions.change((before) => going(before, pointer))}>
            {says}
          </Tap>
        </li>
      ))}
      {more > 0 ? <li>and {more} more</li> : null}
    </>
  );
}

export function SaveBar({ desk }: { readonly desk: FormContext }) {
  const { state, shown, actions } = desk;
  const told = faultWords(state.draft.menu);
  const parts = [
    ["Still to fix", shown.checked.faults.map(told)],
    ["Would break", state.breaks.map(told)],
    ["Not saved yet", shown.changes],
  ] as const;
  return (
    <footer id="bar" class="bar no-print">
      <details>
        <summary>
          <span role="status">{shown.unsavedWords}</span>
        </summary>
        <div class="review">
          {parts.map(([title, places]) =>
            places.length === 0 ? null : (
              <div key={title}>
                <h3>{title}</h3>
                <ul>
                  <Places desk={desk} places={places} />
                </ul>
              </div>
            ),
          )}
          {shown.pricedBefore.length === 0 ? null : (
            <p>Open orders keep their price: {ordersWords(shown.pricedBefore)}.</p>
          )}
        </div>
      </details>
      <div class="row">
        <Tap class="main" disabled={!shown.canSave} onTap={actions.save}>
          Save
        </Tap>
        {shown.changes.length === 0 ? null : (
          <Tap class="danger" onTap={actions.discard}>
            Discard changes
          </Tap>
        )}
      </div>
    </footer>
  );
}

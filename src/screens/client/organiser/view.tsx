/** @jsxImportSource preact */
/** The fair on one sheet: who needs a look, the figures, every stall a row, and the pace. */
import { Tap } from "../parts/tap.tsx";
import { stretches, whenWords } from "./asking.ts";
import { BesideLastYear } from "./beside/years-view.tsx";
import { Glance, Total } from "./glance.tsx";
import { Quarters } from "./quarters.tsx";
import type { Actions, State } from "./state.ts";
import { Stalls } from "./table.tsx";

export type Props = { readonly state: State; readonly actions: Actions };

function Figures({ state: { pace, when, answered, beside }, actions }: Props) {
  return (
    <div>
      <div class="row heading">
        <h2 id="of-when">{whenWords(answered.when, pace)}</h2>
        <span class="row nowrap no-print">
          <label for="when">Show</label>
          <select
            id="when"
            value={when}
            onChange={({ currentTarget: { value } }) => actions.ask({ when: value })}
          >
            {stretches(pace).map(([value, words]) => (
              <option key={value} value={value}>
                {words}
              </option>
            ))}
          </select>
        </span>
      </div>
      <Total pace={pace} />
      <p class="row no-print">
        <Tap id="print" onTap={() => print()}>
          Print this sheet
        </Tap>
        <Tap id="sheet-stall" onTap={() => actions.sheet("stall")}>
          Stalls as a csv file
        </Tap>
        <Tap id="sheet-quarter" onTap={() => actions.sheet("quarter")}>
          Quarter-hours as a csv file
        </Tap>
      </p>
      <BesideLastYear years={beside.years} actions={actions.years} />
    </div>
  );
}

function StallTable(props: Props) {
  const { state, actions } = props;
  return (
    <div>
      <div class="row heading">
        <h2 id="stalls-heading">Stalls</h2>
        <Tap
          id="more-columns"
          class="no-print"
          pressed={state.every}
          onTap={() => actions.change((before) => ({ ...before, every: !before.every }))}
        >
          More columns
        </Tap>
      </div>
      <p class="no-print">
        Tap a heading to sort by it. Tap a stall for its pace, whom to call there, its board, its order page
        and its poster.
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by the keyboard */}
      <section class="wide" tabIndex={0} aria-labelledby="stalls-heading">
        <Stalls {...props} />
      </section>
    </div>
  );
}

/** Each part of the page is one of these; what an organiser does to the fair as a whole goes above the figures. */
export function Fair(props: Props) {
  const { pace, moment } = props.state;
  return (
    <>
      <div class="no-print">
        <h2>Needs attention</h2>
        <Glance stalls={pace.stalls} moment={moment} />
      </div>
      <Figures {...props} />
      <StallTable {...props} />
      <Quarters {...props} />
    </>
  );
}

/** @jsxImportSource preact */
/** The press page as its state is: this tablet's presses, what comes next, and the rest of the stall in tabs. */
import type { QueueView } from "../../../model/orders/queue.ts";
import { garmentWords } from "../crew/words/settings.ts";
import { Garment } from "../parts/garment.tsx";
import { Tap } from "../parts/tap.tsx";
import type { Actions } from "./actions.ts";
import { resuming } from "./acts.ts";
import { Bench } from "./bench/bench.tsx";
import { SpoilDialog } from "./bench/spoil.tsx";
import { PauseDialog, StockDialog } from "./dialogs.tsx";
import { Low } from "./side/low.tsx";
import { Presses } from "./side/presses.tsx";
import { LastOrders, Shift } from "./side/shift.tsx";
import { Problems, UpNext } from "./side/up-next.tsx";
import { filledPress, floorOf, type Press, pressIn, type State, TABS, type Tab } from "./state.ts";

type Props = { readonly state: State; readonly queue: QueueView; readonly actions: Actions };

const STEP: Readonly<Record<string, (at: number, tabs: number) => number>> = {
  ArrowRight: (at, tabs) => (at + 1) % tabs,
  ArrowLeft: (at, tabs) => (at + tabs - 1) % tabs,
  Home: () => 0,
  End: (_, tabs) => tabs - 1,
};

/** Tabs by the pattern of the ARIA Authoring Practices: arrow keys go from tab to tab, one panel is shown. */
function Tabs({ state, queue, actions }: Props) {
  const turnTo = (tab: Tab): void => actions.change((before) => ({ ...before, tab }));
  const onKey = (event: KeyboardEvent): void => {
    const to = STEP[event.key]?.(
      tabs.findIndex(([tab]) => tab === state.tab),
      tabs.length,
    );
    const next = to === undefined ? undefined : tabs[to];
    if (next === undefined) return;
    event.preventDefault();
    turnTo(next[0]);
    document.getElementById(`tab-${next[0]}`)?.focus();
  };
  const tabs = TABS.filter(([tab]) => tab !== "shift" || !state.pressOnly);
  const panels: Readonly<Record<Tab, preact.ComponentChildren>> = {
    stock: <Low queue={queue} state={state} actions={actions} />,
    presses: <Presses queue={queue} standing={state.standing} actions={actions} />,
    shift: <Shift queue={queue} actions={actions} />,
  };
  return (
    <div class="tabs">
      <div role="tablist" aria-label="More of the stall">
        {tabs.map(([tab, label]) => (
          <button
            key={tab}
            id={`tab-${tab}`}
            type="button"
            role="tab"
            aria-selected={tab === state.tab}
            aria-controls={`panel-${tab}`}
            tabIndex={tab === state.tab ? 0 : -1}
            onClick={() => turnTo(tab)}
            onKeyDown={onKey}
          >
            {label}
          </button>
        ))}
      </div>
      {tabs.map(([tab]) => (
        <div
          key={tab}
          id={`panel-${tab}`}
          class="stack panel"
          role="tabpanel"
          aria-labelledby={`tab-${tab}`}
          hidden={tab !== state.tab}
        >
          {panels[tab]}
        </div>
      ))}
    </div>
  );
}

/** On a phone the tag scrolls away: the garment on the press stays in view, small. */
function StillOn({ own, state: { looks } }: { readonly own: readonly Press[]; readonly state: State }) {
  const jobs = own.flatMap(({ job }) => job ?? []);
  if (jobs.length === 0) return null;
  return (
    <div class="still-on" aria-hidden="true">
      {jobs.map((job) => (
        <p key={job.job} class="row nowrap">
          <Garment look={looks.get(job.offer)} colour={job.colour} size={job.size} named />
          <b>{job.number}</b> {garmentWords(job)}, {job.designName}
        </p>
      ))}
    </div>
  );
}

function Floor({ own, ...props }: Props & { readonly own: readonly Press[] }) {
  const { state, queue, actions } = props;
  const filled = filledPress(state, own);
  return (
    <div id="floor" class={own.length > 1 ? "stack split floor two" : "stack split floor"}>
      <div class="stack benches">
        {own.map((press, place) => (
          <Bench
            key={place}
            press={press}
            place={place}
            queue={queue}
            state={state}
            actions={actions}
            filled={press.press === filled}
          />
        ))}
      </div>
      <aside class="side" aria-label="The rest of the stall">
        <StillOn own={own} state={state} />
        <div class="stack tight ahead">
          <h2>Up next</h2>
          <UpNext queue={queue} own={own} state={state} actions={actions} />
          <Problems queue={queue} standing={state.standing} stallNow={state.stallNow} />
        </div>
        <Tabs {...props} />
      </aside>
    </div>
  );
}

function Choose({ queue, actions }: Props) {
  return (
    <section class="stack">
      <h2>Which press is this tablet at?</h2>
      <div id="presses" class="row">
        {queue.presses.map(({ press, platen }) => (
          <Tap
            key={press}
            class="big grow"
            onTap={() => actions.stand([press])}
          >{`Press ${press}, ${platen} platen`}</Tap>
        ))}
      </div>
    </section>
  );
}

/** The presses of this tablet, with their present state. */
export const ownPresses = ({ standing }: State, queue: QueueView): readonly Press[] =>
  standing.flatMap((press) => pressIn(queue, press) ?? []);

export function PressView({ state, actions }: { readonly state: State; readonly actions: Actions }) {
  const queue = floorOf(state);
  if (queue === null) return null;
  const own = ownPresses(state, queue);
  const props = { state, queue, actions };
  const { paused } = queue;
  return (
    <>
      {paused === null ? null : (
        <div class="notice needs-you" role="status">
          <p>{`Paused: ${paused}. No new orders are taken.`}</p>
          {state.pressOnly ? null : (
            <Tap busy={state.busy} onTap={() => actions.send(resuming(paused))}>
              Take orders again
            </Tap>
          )}
        </div>
      )}
      {state.pressOnly ? null : <LastOrders queue={queue} actions={actions} />}
      {own.length === 0 ? <Choose {...props} /> : <Floor {...props} own={own} />}
      {state.spoil === null ? null : <SpoilDialog asked={state.spoil} menu={state.menu} actions={actions} />}
      {state.pausing ? <PauseDialog actions={actions} /> : null}
      {state.counting.open ? <StockDialog {...props} /> : null}
    </>
  );
}

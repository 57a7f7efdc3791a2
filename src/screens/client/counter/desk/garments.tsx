/** @jsxImportSource preact */
/** The garments of the order on the counter: one that waits can become another, one that is pressed can come back. */

import type { CrewOrderView } from "../../../../model/orders/order.ts";
import { spelt } from "../../kit/spelling.ts";
import { Choices } from "../../parts/choices.tsx";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import { changing, exchanging, refunding, takingOff } from "../acts.ts";
import { forSale } from "../rack/on-rack.ts";
import { isTracked, leftOf, menuOf } from "../shown.ts";
import type { Editing, State } from "../state.ts";
import { NO_CHOICE, padOf } from "../take/pad.ts";

type Props = { readonly order: CrewOrderView; readonly state: State; readonly actions: Actions };
type Job = CrewOrderView["jobs"][number];
type Line = CrewOrderView["lines"][number];

const STAGES: Readonly<Record<Job["stage"], string>> = {
  "to-pay": "to be paid",
  "to-claim": "not in line",
  waiting: "waits",
  reserved: "waits",
  short: "short of stock",
  pressing: "on the press",
  pressed: "pressed",
};

const lineOf = ({ lines }: CrewOrderView, { line }: Job): Line | undefined =>
  line === undefined ? undefined : lines[line];

/** Whether a garment can only be exchanged because it is pressed; else it can be changed. */
const comesBack = ({ stage }: Job): boolean => stage === "pressed";

/** The garments, to tap when a customer wants one changed. */
export function Garments({ order, state, actions }: Props) {
  const { change } = actions;
  const menu = menuOf(state);
  const isOver = !["to-pay", "to-claim", "waiting", "pressing", "ready", "collected"].includes(order.stage);
  const jobs = order.jobs.filter((job) => lineOf(order, job) !== undefined);
  if (isOver || jobs.length === 0 || menu === null) return null;
  const words = (line: Line): string => {
    const blank = menu.blanks.find(({ id }) => id === line.blank);
    const colour = blank?.colours.find(({ id }) => id === line.colour)?.name ?? line.colour;
    const size = blank?.sizes.find(({ id }) => id === line.size)?.name ?? line.size;
    return [line.name, colour, size, ...(line.wishes ?? []).map(({ name }) => name)].join(", ");
  };
  return (
    <section class="garments-in" aria-labelledby="garments-title">
      <h2 id="garments-title">Change or exchange</h2>
      <ul class="ruled lines">
        {jobs.map((job) => {
          const line = lineOf(order, job);
          if (line === undefined) return null;
          const { offer, colour, size } = line;
          const isOpen = state.editing?.job === job.job;
          const begin: Editing = { job: job.job, choice: { ...NO_CHOICE, offer, colour, size } };
          return (
            <li key={job.job}>
              <Tap
                pressed={isOpen}
                disabled={job.stage === "pressing"}
                onTap={() => change((before) => ({ ...before, editing: isOpen ? null : begin }))}
              >
                {`${job.job} ${words(line)}: ${STAGES[job.stage]}`}
              </Tap>
            </li>
          );
        })}
      </ul>
      {state.editing === null ? null : <Chooser order={order} state={state} actions={actions} />}
    </section>
  );
}

/** The choice of the new garment, and the taps that change it. */
function Chooser({ order, state, actions: { change, send } }: Props) {
  const { editing, taps } = state;
  const menu = leftOf(state);
  const job = order.jobs.find((one) => one.job === editing?.job);
  const line = job === undefined ? undefined : lineOf(order, job);
  if (editing === null || menu === null || job === undefined || line === undefined) return null;
  const { choice } = editing;
  const back = comesBack(job);
  const wishes = line.wishes?.map(({ wish }) => wish) ?? [];
  const note = order.notes?.find((one) => one.job === job.job)?.words;
  // What is wished for on a garment is pressed: none of the rack is just that.
  const isPlain = wishes.length === 0 && note === undefined;
  const pad = padOf(menu, choice, back && isPlain ? forSale(state) : []);
  const choose = (part: Partial<typeof choice>): void =>
    change((before) =>
      before.editing === null
        ? before
        : { ...before, editing: { ...before.editing, choice: { ...before.editing.choice, ...part } } },
    );
  const { number } = order;
  const isSame =
    pad.line?.offer === line.offer && pad.line.colour === line.colour && pad.line.size === line.size;
  const to = pad.line === null || (isSame && !back) ? null : pad.line;
  const [hanging] = pad.hanging;
  const done = (): void => change((before) => ({ ...before, editing: null }));
  const give = (rack?: string): void => {
    if (to === null) return;
    const garment = {
      offer: to.offer,
      colour: to.colour,
      size: to.size,
      ...(wishes.length === 0 ? {} : { wishes }),
      ...(note === undefined ? {} : { note }),
    };
    const instead = rack === undefined ? garment : { ...garment, rack };
    send(back ? exchanging(number, job.job, instead) : changing(number, job.job, garment));
    done();
  };
  return (
    <div class="stack pad" id="chooser">
      <Choices id="change-offers" legend="What" options={pad.offers} choose={(offer) => choose({ offer })} />
      <Choices
        id="change-colours"
        legend={spelt("Colour")}
        options={pad.colours}
        choose={(colour) => choose({ colour })}
      />
      <Choices id="change-sizes" legend="Size" options={pad.sizes} choose={(size) => choose({ size })} />
      <div class="row">
        <Tap class="main" busy={taps.busy} disabled={to === null} onTap={() => give(hanging?.key)}>
          {to === null
            ? "Choose another"
            : hanging !== undefined
              ? `Give ${to.name} from the rack`
              : `${back ? "Exchange for" : "Change to"} ${to.name}`}
        </Tap>
        {hanging === undefined || pad.free === 0 ? null : (
          <Tap busy={taps.busy} onTap={() => give()}>
            Press a new one
          </Tap>
        )}
        {back && order.paid !== null && isTracked(menuOf(state)) ? (
          <Tap
            busy={taps.busy}
            onTap={() => {
              send(refunding(number, job.job));
              done();
            }}
          >
            Give its money back
          </Tap>
        ) : null}
        {back || order.jobs.length < 2 ? null : (
          <Tap
            busy={taps.busy}
            onTap={() => {
              send(takingOff(number, job.job));
              done();
            }}
          >
            Take it off
          </Tap>
        )}
        <Tap onTap={done}>Leave it</Tap>
      </div>
      <p class="small">
        {back
          ? `The pressed one goes on the rack. The other is ${hanging === undefined ? "pressed next" : "theirs at once"}; what was paid counts for it.`
          : "It keeps its place in line. A difference in price is paid or given back at hand-over."}
      </p>
    </div>
  );
}

/** @jsxImportSource preact */
/** One day's account in four steps: count, costs, check, close; printed on one sheet of paper. */

import type { Closeout } from "../../../model/accounts/closeout.ts";
import { rackWords, whyRacked } from "../crew/words/rack.ts";
import { spelt } from "../kit/spelling.ts";
import { Dialog } from "../parts/dialog.tsx";
import { Tap } from "../parts/tap.tsx";
import { Check } from "./check.tsx";
import { type CostField, costForm } from "./costs.ts";
import type { Actions, State } from "./state.ts";
import { closingFirst, countedWords } from "./steps.ts";

type Props = { readonly state: State; readonly actions: Actions };

const STAGES: Readonly<Record<Closeout["stage"], string>> = {
  open: "Day still open: figures may change.",
  closed: "Closed: its counts are frozen. What is done now counts to the next day.",
  reopened: "Opened again: what is done now counts to this day.",
};

function WhichDay({ state: { account }, actions }: Props) {
  const { day: shown, stage, reopenings } = account;
  const isListed = account.days.some(({ day }) => day === shown);
  const days = isListed ? account.days : [...account.days, { day: shown, closed: false }];
  return (
    <div class="row no-print">
      <label for="day">Day</label>
      <select id="day" value={shown} onChange={({ currentTarget: { value } }) => actions.look(value)}>
        {days.map(({ day, closed }) => (
          <option key={day} value={day}>
            {closed ? `${day}, closed` : day}
          </option>
        ))}
      </select>
      <p id="stage" class="strong" role="status">
        {STAGES[stage] + reopenings.map(({ reason }) => ` Opened again once: ${reason}.`).join("")}
      </p>
    </div>
  );
}

const SURE = [
  ["0.05", "Counted at the gate"],
  ["0.2", "A fair estimate"],
  ["0.5", "A guess"],
] as const;

/** A form that its own button sends, and never the browser. */
const sends = (act: () => void) => (event: Event) => {
  event.preventDefault();
  act();
};

/** The garments on the rack: tap those that are not there. */
function RackCount({ state: { account, missing }, actions: { change, takeOff } }: Props) {
  const { rack = [] } = account;
  const back = (): void => change((before) => ({ ...before, missing: null }));
  const asked = rack.find(({ key }) => key === missing);
  if (rack.length === 0) return null;
  return (
    <details>
      <summary>{`Count the rack: ${rack.length} ${rack.length === 1 ? "garment" : "garments"}`}</summary>
      <ul class="ruled lines">
        {rack.map((garment) => (
          <li key={garment.key}>
            <span>
              <b>{rackWords(garment)}</b> {whyRacked(garment)}
            </span>
            <Tap onTap={() => change((before) => ({ ...before, missing: garment.key }))}>Not there…</Tap>
          </li>
        ))}
      </ul>
      {asked === undefined ? null : (
        <Dialog id="rack-missing" title="Not on the rack?" closed={back}>
          <p>{`${rackWords(asked)} is taken off the rack. It stays among what was pressed and not kept.`}</p>
          <p class="row">
            <Tap class="main" onTap={() => takeOff(asked.key)}>
              Take it off
            </Tap>
            <Tap onTap={back}>Back</Tap>
          </p>
        </Dialog>
      )}
    </details>
  );
}

function CountStep({ state, actions }: Props) {
  const { change } = actions;
  return (
    <section class="no-print" aria-labelledby="count-title">
      <h2 id="count-title">1 Count</h2>
      <p>{countedWords(state.account)}</p>
      <p class="row">
        <a class="button" href={actions.stockPage}>
          Count the stock
        </a>
      </p>
      <RackCount state={state} actions={actions} />
      <form id="crowd" class="row end" onSubmit={sends(actions.keepCrowd)}>
        <span>
          <label for="passers-by">People who came past</label>
          <input
            id="passers-by"
            inputMode="numeric"
            autocomplete="off"
            maxLength={8}
            value={state.passersBy}
            onInput={({ currentTarget: { value } }) => change((before) => ({ ...before, passersBy: value }))}
          />
        </span>
        <span>
          <label for="sure">How sure is that</label>
          <select
            id="sure"
            value={state.sure}
            onChange={({ currentTarget: { value } }) => change((before) => ({ ...before, sure: value }))}
          >
            {SURE.map(([value, words]) => (
              <option key={value} value={value}>
                {words}
              </option>
            ))}
          </select>
        </span>
        <button type="submit">Keep the number</button>
        <p class="help">
          {spelt("If the organiser knows it. Else the crew’s own count is used for the next plan.")}
        </p>
      </form>
    </section>
  );
}

function Costs({ state: { account, menu, written, costsFault }, actions }: Props) {
  const write = (id: string, value: string): void =>
    actions.change((before) => ({ ...before, written: { ...before.written, [id]: value } }));
  const field = ({ id, label, value, wide }: CostField) => (
    <td key={id} colSpan={wide ? 2 : 1}>
      <input
        id={id}
        inputMode={wide ? "text" : "decimal"}
        autocomplete="off"
        maxLength={40}
        aria-label={label}
        value={written[id] ?? value}
        onInput={({ currentTarget }) => write(id, currentTarget.value)}
      />
    </td>
  );
  return (
    <section class="no-print" aria-labelledby="costs-title">
      <h2 id="costs-title">2 Costs</h2>
      <p id="costs-from">
        {account.costsFrom === "plan"
          ? "From your plan, and already counted. Type only what was different, then save."
          : "Kept with this day. The next day begins with them."}
      </p>
      <details open={account.costsFrom !== "plan"}>
        <summary>{account.costsFrom === "plan" ? "Costs of the plan" : "Costs of the day"}</summary>
        <form id="costs" onSubmit={sends(actions.keepCosts)}>
          <table aria-labelledby="costs-title">
            {costForm(account, menu).map(({ title, heads, rows }) => (
              <tbody key={title}>
                <tr class="heads">
                  <th scope="rowgroup">{title}</th>
                  {[0, 1].map((at) =>
                    heads[at] === undefined ? (
                      <td key={at} />
                    ) : (
                      <th key={at} scope="col">
                        {heads[at]}
                      </th>
                    ),
                  )}
                </tr>
                {rows.map(({ heading, cells }) => (
                  <tr key={cells[0]?.id}>
                    {typeof heading === "string" ? <th scope="row">{heading}</th> : field(heading)}
                    {cells.map(field)}
                    {cells.length < 2 && cells[0]?.wide === undefined ? <td /> : null}
                  </tr>
                ))}
              </tbody>
            ))}
          </table>
          <p id="costs-faults" role="alert">
            {costsFault}
          </p>
          <button type="submit">Save costs</button>
        </form>
      </details>
    </section>
  );
}

function CloseStep({ state: { account }, actions }: Props) {
  const ask = (asking: State["asking"]) => (): void => actions.change((before) => ({ ...before, asking }));
  return (
    <section class="no-print" aria-labelledby="close-title">
      <h2 id="close-title">4 Close</h2>
      <p>{account.openOrders > 0 ? `Orders not finished: ${account.openOrders}.` : "No order is open."}</p>
      <p class="row">
        {account.stage === "closed" ? (
          <Tap class="danger" onTap={ask("reopen")}>
            Open it again…
          </Tap>
        ) : (
          <Tap class="main" onTap={ask("close")}>
            Close this day…
          </Tap>
        )}
        <Tap onTap={actions.saveLessons}>Export for planning</Tap>
      </p>
    </section>
  );
}

function Asked({ state, actions: { change, close, reopen } }: Props) {
  const back = (): void => change((before) => ({ ...before, asking: null }));
  if (state.asking === null) return null;
  if (state.asking === "close")
    return (
      <Dialog id="close" title="Close this day?" closed={back}>
        <p>Its counts are frozen. What is done after that counts to the next day.</p>
        <ul id="close-first" class="bullets">
          {closingFirst(state.account).map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
        <p class="row">
          <Tap class="main" onTap={close}>
            Close the day
          </Tap>
          <Tap onTap={back}>Not yet</Tap>
        </p>
      </Dialog>
    );
  return (
    <Dialog id="reopen" title="Open this day again" closed={back}>
      <p>Whatever is done from now on counts to that day, until it is closed once more.</p>
      <form onSubmit={sends(reopen)}>
        <label for="reason">Why</label>
        <input
          id="reason"
          autocomplete="off"
          maxLength={80}
          required
          value={state.reason}
          onInput={({ currentTarget: { value } }) => change((before) => ({ ...before, reason: value }))}
        />
        <p class="row">
          <button id="reopen-now" class="danger" type="submit">
            Open it again
          </button>
          <Tap onTap={back}>Leave it closed</Tap>
        </p>
      </form>
    </Dialog>
  );
}

export function Account(props: Props) {
  return (
    <>
      <WhichDay {...props} />
      <CountStep {...props} />
      <Costs {...props} />
      <Check {...props} />
      <CloseStep {...props} />
      <Asked {...props} />
    </>
  );
}

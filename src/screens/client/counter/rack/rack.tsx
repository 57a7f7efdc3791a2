/** @jsxImportSource preact */
/** The rack: what hangs there and why, to be sold without a press, released, or taken off. */
import type { RackGarment } from "../../../../model/orders/rack.ts";
import { moneyWords } from "../../crew/words/money.ts";
import { rackWords, whyRacked } from "../../crew/words/rack.ts";
import { Dialog } from "../../parts/dialog.tsx";
import { Garment } from "../../parts/garment.tsx";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import { unracking } from "../acts.ts";
import { leftOf, menuOf } from "../shown.ts";
import { type State, turnedTo } from "../state.ts";
import { withLine } from "../take/slip.ts";
import { rackLine, rackOf } from "./on-rack.ts";

type Props = { readonly state: State; readonly actions: Actions };

function Row({ garment, state, actions }: Props & { readonly garment: RackGarment }) {
  const { key, keptFor, offer, colour, size } = garment;
  const menu = leftOf(state);
  const { busy } = state.taps;
  const rules = menuOf(state)?.rules;
  const line = menu === null || rules === undefined ? null : rackLine(garment, menu, rules);
  const price = line === null || menu === null ? "" : moneyWords(line.each, menu.currency);
  const isOnSlip = state.slip.lines.some(({ rack }) => rack === key);
  const sell = (): void => {
    if (line === null) return;
    actions.change((before) => turnedTo({ ...before, slip: withLine(before.slip, line) }, "take"));
  };
  return (
    <li>
      <Garment look={state.seen?.menu.looks?.[offer]} colour={colour} size={size} named />
      <span>
        <b>{rackWords(garment)}</b>
        <br />
        {whyRacked(garment)}
      </span>
      {keptFor === null ? (
        <Tap disabled={line === null || isOnSlip} onTap={sell}>
          {isOnSlip ? "On the slip" : line === null ? "Not on the menu" : `Sell it: ${price}`}
        </Tap>
      ) : (
        <Tap busy={busy} onTap={() => actions.send(unracking(key, "released"))}>
          Let it be sold
        </Tap>
      )}
      <Tap onTap={() => actions.change((before) => ({ ...before, takingOff: key }))}>Take it off…</Tap>
    </li>
  );
}

/** Asks again: a garment taken off is written off. */
function TakeOffDialog({ garment, actions }: { readonly garment: RackGarment; readonly actions: Actions }) {
  const back = (): void => actions.change((before) => ({ ...before, takingOff: null }));
  return (
    <Dialog id="take-off" title="Take it off the rack?" closed={back}>
      <p>{`${rackWords(garment)} is not for sale any more. It counts as pressed and not sold.`}</p>
      <div class="row">
        <Tap
          class="main"
          onTap={() => {
            actions.send(unracking(garment.key, "thrown"));
            back();
          }}
        >
          Take it off
        </Tap>
        <Tap onTap={back}>Back</Tap>
      </div>
    </Dialog>
  );
}

export function Rack({ state, actions }: Props) {
  const garments = rackOf(state);
  const off = garments.find(({ key }) => key === state.takingOff);
  return (
    <>
      <ul class="ruled lines rack">
        {garments.map((garment) => (
          <Row key={garment.key} garment={garment} state={state} actions={actions} />
        ))}
      </ul>
      {off === undefined ? null : <TakeOffDialog garment={off} actions={actions} />}
    </>
  );
}

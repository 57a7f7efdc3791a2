/** @jsxImportSource preact */
/** The rack: what hangs there and why, to be sold without a press, released, or taken off. */
import type { RackGarment } from "../../../../model/orders/rack.ts";
import { moneyWords } from "../../crew/words/money.ts";
import { rackWords, whyRacked } from "../../crew/words/rack.ts";
import { Dialog } from "../../parts/dialog.tsx";
import { Garment } from "../../parts/garment.tsx";
import { Tap } from "../../parts/tap.tsx";
import { unracking } from "../acts.ts";
import { leftOf, menuOf } from "../shown.ts";
import { type State, turnedTo } from "../state.ts";
import { withLine } from "../take/slip.ts";
import type { Ways } from "../ways.ts";
import { rackLine, rackOf } from "./on-rack.ts";

type Props = { readonly state: State; readonly ways: Ways };

function Row({ garment, state, ways }: Props & { readonly garment: RackGarment }) {
  const { key, keptFor, offer, colour, size } = garment;
  const menu = leftOf(state);
  const { busy } = state.taps;
  const rules = menuOf(state)?.rules;
  const line = menu === null || rules === undefined ? null : rackLine(garment, menu, rules);
  const price = line === null || menu === null ? "" : moneyWords(line.each, menu.currency);
  const isOnSlip = state.slip.lines.some(({ rack }) => rack === key);
  const sell = (): void => {
    if (line === null) return;
    ways.change((before) => turnedTo({ ...before, slip: withLine(before.slip, line) }, "take"));
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
        <Tap busy={busy} onTap={() => ways.send(unracking(key, "released"))}>
          Let it be sold
        </Tap>
      )}
      <Tap onTap={() => ways.change((before) => ({ ...before, takingOff: key }))}>Take it off…</Tap>
    </li>
  );
}

/** Asks again: a garment taken off is written off. */
function TakeOffDialog({ garment, ways }: { readonly garment: RackGarment; readonly ways: Ways }) {
  const back = (): void => ways.change((before) => ({ ...before, takingOff: null }));
  return (
    <Dialog id="take-off" title="Take it off the rack?" closed={back}>
      <p>{`${rackWords(garment)} is not for sale any more. It counts as pressed and not sold.`}</p>
      <div class="row">
        <Tap
          class="main"
          onTap={() => {
            ways.send(unracking(garment.key, "thrown"));
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

export function Rack({ state, ways }: Props) {
  const garments = rackOf(state);
  const off = garments.find(({ key }) => key === state.takingOff);
  return (
    <>
      <ul class="ruled lines rack">
        {garments.map((garment) => (
          <Row key={garment.key} garment={garment} state={state} ways={ways} />
        ))}
      </ul>
      {off === undefined ? null : <TakeOffDialog garment={off} ways={ways} />}
    </>
  );
}

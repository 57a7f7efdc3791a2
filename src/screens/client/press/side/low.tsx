/** @jsxImportSource preact */
/** The pieces that sell out first and when, and those the crew has stopped selling. */
import type { QueueView } from "../../../../model/orders/queue.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { pieceName } from "../../crew/words/names.ts";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import type { State } from "../state.ts";

const SHOWN = 5;

type OffProps = {
  readonly piece: string;
  readonly name: string;
  readonly off: boolean;
  readonly setOff: Actions["setOff"];
};

/** Stops selling a piece, or sells it again. */
export const OffButton = ({ piece, name, off, setOff }: OffProps) => (
  <Tap label={`${off ? "Sell again" : "Stop selling"}: ${name}`} onTap={() => setOff(piece, name, !off)}>
    {off ? "Sell again" : "Stop selling"}
  </Tap>
);

function leftWords({ free, emptyAt }: QueueView["low"][number]): string {
  if (free === 0) return "none left";
  return emptyAt === null ? `${free} left` : `${free} left, sold out by about ${timeOfDay(emptyAt)}`;
}

type Props = { readonly queue: QueueView; readonly state: State; readonly actions: Actions };

export function Low({ queue: { low, offMenu }, state, actions: { setOff, openStock } }: Props) {
  const { menu, pressOnly } = state;
  const facts = (piece: QueueView["low"][number]) => (
    <>
      <b>{pieceName(menu, piece.sku)}</b>
      <span class="small">{leftWords(piece)}</span>
    </>
  );
  return (
    <>
      <ul id="low" class="ruled">
        {low.length === 0 ? (
          <li key="none" class="none">
            Nothing sells out today.
          </li>
        ) : null}
        {low.slice(0, SHOWN).map((piece) => (
          <li key={piece.sku}>
            {pressOnly ? (
              <p class="row nowrap">{facts(piece)}</p>
            ) : (
              <details>
                <summary class="row nowrap">{facts(piece)}</summary>
                <OffButton piece={piece.sku} name={pieceName(menu, piece.sku)} off={false} setOff={setOff} />
              </details>
            )}
          </li>
        ))}
      </ul>
      <div hidden={offMenu.length === 0}>
        <h3>Not sold now</h3>
        <ul id="off" class="ruled">
          {offMenu.map((piece) => (
            <li key={piece} class="row">
              <b>{pieceName(menu, piece)}</b>
              {pressOnly ? null : (
                <OffButton piece={piece} name={pieceName(menu, piece)} off setOff={setOff} />
              )}
            </li>
          ))}
        </ul>
      </div>
      <Tap onTap={openStock}>Count or add stock…</Tap>
    </>
  );
}

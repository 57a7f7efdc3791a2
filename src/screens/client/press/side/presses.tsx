/** @jsxImportSource preact */
/** The stall's presses: their garments, their heat, and which of them this tablet is at. */
import type { QueueView } from "../../../../model/orders/queue.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { garmentWords, temperature } from "../../crew/words/settings.ts";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import { askingReserveBack, pressDown, pressUp, reserving } from "../acts.ts";
import type { Press } from "../state.ts";
import { reserveLabel, reserveSentence, untilWords } from "./reserve.ts";

/** A press's state in one line. */
function pressWords({ platen, downSince, job, fahrenheit }: Press): string {
  if (downSince !== null) return `${platen}, out of order since ${timeOfDay(downSince)}`;
  if (job !== null) return `${job.job}, ${garmentWords(job)}, since ${timeOfDay(job.since)}`;
  return `${platen}, nothing on it${fahrenheit === null ? "" : `, ${temperature(fahrenheit)}`}`;
}

/** Another press's reserve, and when it is released if that press is silent. */
function reserveWords({ reserve, askedBack, reserveUntil }: Press): string {
  const asked = askedBack.length === 0 ? "" : ` Asked for ${askedBack.length}.`;
  return `${reserve.length} reserved.${asked}${untilWords(reserveUntil)}`;
}

type Props = { readonly queue: QueueView; readonly standing: readonly string[]; readonly actions: Actions };
type RowProps = { readonly press: Press; readonly standing: readonly string[]; readonly actions: Actions };

function Own({ press, standing, actions: { send, stand } }: RowProps) {
  const { press: id, downSince, reserves } = press;
  return (
    <>
      <Tap onTap={() => send(reserving(id, !reserves))}>{reserveLabel(press)}</Tap>
      <Tap onTap={() => send(downSince === null ? pressDown(id) : pressUp(id))}>
        {downSince === null ? `Press ${id} is out of order` : `Press ${id} works again`}
      </Tap>
      <Tap onTap={() => stand(standing.filter((other) => other !== id))}>Leave press {id}</Tap>
    </>
  );
}

function Other({ press: { press: id, reserve, askedBack }, standing, actions: { send, stand } }: RowProps) {
  return (
    <>
      <Tap onTap={() => stand([id])}>Go to press {id}</Tap>
      {standing.length === 1 ? (
        <Tap onTap={() => stand([...standing, id])}>Show press {id} beside</Tap>
      ) : null}
      {reserve.length === askedBack.length ? null : (
        <Tap onTap={() => send(askingReserveBack(id))}>Ask press {id} for its reserve</Tap>
      )}
    </>
  );
}

export function Presses({ queue, standing, actions }: Props) {
  return (
    <ul class="ruled stubs presses">
      {queue.presses.map((press) => {
        const { press: id, reserve } = press;
        const own = standing.includes(id);
        const part = { press, standing, actions };
        return (
          <li key={id}>
            <b>{id}</b>
            <span>{own ? `Here: ${pressWords(press)}` : pressWords(press)}</span>
            {own || reserve.length > 0 ? (
              <span class="small">{own ? reserveSentence(press) : reserveWords(press)}</span>
            ) : null}
            <span class="row">{own ? <Own {...part} /> : <Other {...part} />}</span>
          </li>
        );
      })}
    </ul>
  );
}

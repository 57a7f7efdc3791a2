/** @jsxImportSource preact */
/** The shift: hands at the presses, web orders, and how long orders are taken. */
import type { QueueView } from "../../../../model/orders/queue.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import { keepingOpen, settingHands, webOrders } from "../acts.ts";

const MOST_HANDS = 24;

type Intake = QueueView["intake"];
type Props = { readonly queue: QueueView; readonly actions: Actions };

/** How long orders are taken, in a sentence. */
function intakeWords({ open, lastOrders, keptOpen, endsAt, closes }: Intake): string {
  if (closes === null) return "Outside the opening hours: no orders by text or on the web.";
  if (keptOpen) return `Orders are taken until closing time, ${timeOfDay(closes)}, however long the line.`;
  if (!open) return "No more orders by text or on the web: the line lasts until closing time.";
  const until = timeOfDay(endsAt ?? closes);
  return lastOrders
    ? `Last orders: orders stop at about ${until}.`
    : `Orders are taken until about ${until} if the line stays as it is.`;
}

/** The number of people at the presses, in a sentence. */
const handsWords = ({ hands, presses }: Pick<QueueView, "hands" | "presses">): string =>
  hands === null
    ? `People pressing: ${presses.length} (one for each press).`
    : `People pressing: ${hands} for ${presses.length} ${presses.length === 1 ? "press" : "presses"}.`;

function KeepOpen({ queue: { intake }, actions: { send } }: Props) {
  if (intake.closes === null) return null;
  return (
    <Tap onTap={() => send(keepingOpen(!intake.keptOpen))}>
      {intake.keptOpen ? "Stop orders automatically" : `Keep taking orders until ${timeOfDay(intake.closes)}`}
    </Tap>
  );
}

/** Shown above everything else once last orders were called. */
export function LastOrders({ queue, actions }: Props) {
  const { open, lastOrders, keptOpen, closes } = queue.intake;
  if (closes === null || keptOpen || (open && !lastOrders) || queue.paused !== null || queue.fairStop)
    return null;
  return (
    <div class="notice needs-you" role="status">
      <p>{intakeWords(queue.intake)}</p>
      <KeepOpen queue={queue} actions={actions} />
    </div>
  );
}

export function Shift({ queue, actions }: Props) {
  const { intake, hands, presses, backlogEnds, webOrders: web } = queue;
  const now = hands ?? presses.length;
  const set = (to: number | null) => (): void => actions.send(settingHands(to, hands));
  return (
    <>
      <p id="intake-say">{intakeWords(intake)}</p>
      <p>{backlogEnds === null ? "" : `Everything in line is done by about ${timeOfDay(backlogEnds)}.`}</p>
      <KeepOpen queue={queue} actions={actions} />
      <p>{handsWords(queue)}</p>
      <fieldset class="row">
        <legend class="offstage">People at the presses</legend>
        <Tap disabled={now <= 1} onTap={set(Math.max(1, now - 1))}>
          One fewer
        </Tap>
        <Tap disabled={now >= MOST_HANDS} onTap={set(Math.min(MOST_HANDS, now + 1))}>
          One more
        </Tap>
        <Tap disabled={hands === null} onTap={set(null)}>
          One for each press
        </Tap>
      </fieldset>
      <p>{web ? "Web orders are on." : "Web orders are off."}</p>
      <Tap onTap={() => actions.send(webOrders(!web))}>{web ? "Stop web orders" : "Take web orders"}</Tap>
    </>
  );
}

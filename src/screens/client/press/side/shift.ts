/** The shift: hands at the presses, web orders, and how long orders are taken. */
import type { QueueView } from "../../../../model/orders/order.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { byId } from "../../kit/dom.ts";
import { keepingOpen, settingHands, type Unsent, webOrders } from "../acts.ts";

const MOST_HANDS = 24;

type Intake = QueueView["intake"];

/** How long orders are taken, in a sentence. */
function intakeWords({ open, lastOrders, keptOpen, endsAt, closes }: Intake): string {
  if (closes === null) return "Outside the opening hours: no orders by text or on the web.";
  if (keptOpen) return `Orders are taken until closing time, ${timeOfDay(closes)}, whatever the line.`;
  if (!open) return "No more orders by text or on the web: what waits takes until closing time.";
  const until = endsAt === null ? timeOfDay(closes) : timeOfDay(endsAt);
  return lastOrders
    ? `Last orders: they end by themselves about ${until}.`
    : `Orders are taken until about ${until} if the line stays as it is.`;
}

/** Who stands at the presses, in a sentence. */
const handsWords = ({ hands, presses }: Pick<QueueView, "hands" | "presses">): string =>
  hands === null
    ? `Hands: one for each press (${presses.length}).`
    : `Hands: ${hands} for ${presses.length} ${presses.length === 1 ? "press" : "presses"}.`;

export type Shift = {
  readonly show: (queue: QueueView) => void;
};

export function shift(send: (write: Unsent) => void): Shift {
  let queue: QueueView | null = null;
  const handsNow = (): number => queue?.hands ?? queue?.presses.length ?? 1;
  const onTap = (id: string, tap: () => void): void => byId(id).addEventListener("click", tap);
  const setHands = (hands: number | null): void => send(settingHands(hands, queue?.hands ?? null));
  const toggleOpen = (): void => send(keepingOpen(!(queue?.intake.keptOpen ?? false)));

  onTap("keep-open", toggleOpen);
  onTap("last-orders-open", toggleOpen);
  onTap("hands-fewer", () => setHands(Math.max(1, handsNow() - 1)));
  onTap("hands-more", () => setHands(Math.min(MOST_HANDS, handsNow() + 1)));
  onTap("hands-each", () => setHands(null));
  onTap("web", () => queue !== null && send(webOrders(!queue.webOrders)));

  return {
    show: (now) => {
      queue = now;
      const { intake, hands, backlogEnds } = now;
      const closing = intake.closes === null ? "" : timeOfDay(intake.closes);
      const openLabel = intake.keptOpen
        ? "Let orders end by themselves"
        : `Take orders until ${closing} all the same`;
      byId("intake-say").textContent = intakeWords(intake);
      byId("backlog-say").textContent =
        backlogEnds === null ? "" : `All that waits is pressed by about ${timeOfDay(backlogEnds)}.`;
      byId("keep-open").hidden = intake.closes === null;
      byId("keep-open").textContent = openLabel;
      const ending = intake.closes !== null && !intake.keptOpen && (intake.lastOrders || !intake.open);
      byId("last-orders").hidden = !ending || now.paused !== null;
      byId("last-orders-say").textContent = intakeWords(intake);
      byId("last-orders-open").textContent = openLabel;
      byId("hands-say").textContent = handsWords(now);
      byId<HTMLButtonElement>("hands-fewer").disabled = handsNow() <= 1;
      byId<HTMLButtonElement>("hands-more").disabled = handsNow() >= MOST_HANDS;
      byId<HTMLButtonElement>("hands-each").disabled = hands === null;
      byId("web-say").textContent = now.webOrders ? "Web orders are on." : "Web orders are off.";
      byId("web").textContent = now.webOrders ? "Stop web orders" : "Take web orders";
    },
  };
}

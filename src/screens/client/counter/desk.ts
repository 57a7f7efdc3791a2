/** What can be done with the order on the counter. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { CrewOrderView, Tender } from "../../../model/orders/order.ts";
import type { Write } from "../crew/taps.ts";
import { moneyWords } from "../crew/words/money.ts";
import { byId } from "../kit/dom.ts";
import {
  type Act,
  claiming,
  ENDS_FROM,
  type Ending,
  ending,
  givingBack,
  handingOver,
  isEnding,
  leavingOut,
  paying,
  reopening,
  STAGE_WORDS,
  unpaying,
} from "./acts.ts";
import { changeDue, setTaker, takerName } from "./cash.ts";
import { endQuestion } from "./ending.ts";
import { type Reveal, showOrderTag } from "./order-tag.ts";

export type Desk = {
  /** `isSaved`: only this tablet knows it yet. */
  readonly show: (order: CrewOrderView, isSaved: boolean) => void;
  /** The number of the order that is shown, or null. */
  readonly number: () => number | null;
};

type Send = (write: Write<Act>) => void;

export function desk(menu: () => Menu | null, send: Send, reveal: Reveal): Desk {
  let order: CrewOrderView | null = null;
  let shown = "";
  const given = byId<HTMLInputElement>("given");
  const taker = byId<HTMLInputElement>("taker");
  taker.value = takerName() ?? "";
  taker.addEventListener("change", () => setTaker(taker.value));
  const ask = endQuestion((number, as) => send(ending(number, as)));
  const withOrder = (act: (order: CrewOrderView) => void) => (): void => {
    if (order !== null) act(order);
  };
  const onTap = (id: string, act: (order: CrewOrderView) => void): void =>
    byId(id).addEventListener("click", withOrder(act));

  const showChange = (): void => {
    if (order === null) return;
    const { amount, currency } = order.total;
    byId("change-due").textContent = changeDue(given.value, amount, currency);
  };

  function showWays(shown: CrewOrderView): void {
    const { number, stage, paid, word, total, jobs, giveBack, gaveBack } = shown;
    byId("claim").hidden = !shown.unclaimed;
    byId("claim-means").textContent =
      stage === "to-claim"
        ? "It came from the web and is not in line. Tap “Is here” when its customer stands here."
        : "It came from the web. Tap “Is here” when its customer stands here.";
    const tracked = (menu()?.rules.payment ?? "not-tracked") !== "not-tracked";
    const open = !isEnding(stage);
    byId("pay").hidden = !(tracked && open && paid === null);
    byId("pay-sum").textContent = `To pay: ${moneyWords(total.amount, total.currency)}`;
    const owing = tracked && paid === null;
    byId("hand-over").hidden = stage !== "ready" || owing;
    byId("hand-title").textContent = `Hand over ${number}`;
    byId("hand-ask").textContent = "Ask them for their pickup word before you show it.";
    byId("hand-right").textContent = `They said “${word}”: hand over`;
    byId("hand-stop").hidden = true;
    const undo = byId("undo");
    undo.hidden = open && paid === null;
    undo.textContent = isEnding(stage) ? `Undo: ${STAGE_WORDS[stage]}` : "Undo: paid";
    const short = jobs.filter((job) => job.stage === "short").length;
    byId("leave-out").hidden = !open || short === 0 || short === jobs.length;
    byId("leave-out").textContent = `Go on without the ${short} that ${short === 1 ? "is" : "are"} short`;
    const handed = giveBack ?? gaveBack;
    byId("give-back").hidden = handed === null;
    if (handed !== null) {
      const sum = moneyWords(handed.amount, handed.currency);
      byId("give-back").textContent =
        giveBack === null ? `Undo: ${sum} handed back` : `Hand ${sum} back to them, then tap here`;
    }
    let ways = 0;
    for (const button of document.querySelectorAll<HTMLButtonElement>("[data-ending]")) {
      const as = button.dataset["ending"] as Exclude<Ending, "collected">; // as the shell has them
      button.hidden =
        !ENDS_FROM[as].includes(stage) ||
        (as === "refunded" && (owing || (stage === "dropped" && paid === null)));
      if (!button.hidden) ways += 1;
    }
    byId("ends").hidden = ways === 0;
  }

  given.addEventListener("input", showChange);
  for (const button of document.querySelectorAll<HTMLButtonElement>("[data-tender]")) {
    const tender = button.dataset["tender"] as Tender; // as the shell has them
    button.addEventListener(
      "click",
      withOrder(({ number }) => send(paying(number, tender, new Date().toISOString(), takerName()))),
    );
  }
  for (const button of document.querySelectorAll<HTMLButtonElement>("[data-ending]")) {
    const as = button.dataset["ending"] as Exclude<Ending, "collected">; // as the shell has them
    button.addEventListener(
      "click",
      withOrder((shown) => ask(shown, as)),
    );
  }
  onTap("claim-yes", ({ number }) => send(claiming(number)));
  // Not asked first: the last tap can be undone.
  onTap("claim-free", ({ number }) => send(ending(number, "dropped")));
  onTap("hand-right", ({ number, word }) => send(handingOver(number, word)));
  onTap("hand-without", ({ number }) => send(handingOver(number, null)));
  onTap("hand-wrong", () => {
    byId("hand-stop").hidden = false;
  });
  onTap("leave-out", ({ number }) => send(leavingOut(number)));
  onTap("give-back", ({ number, giveBack }) => send(givingBack(number, giveBack === null)));
  onTap("undo", ({ number, stage }) => send(isEnding(stage) ? reopening(number, stage) : unpaying(number)));

  return {
    number: () => order?.number ?? null,
    show: (now, isSaved) => {
      const next = JSON.stringify([now, isSaved]);
      if (next === shown) return;
      shown = next;
      if (now.number !== order?.number) given.value = "";
      order = now;
      byId("order").hidden = false;
      showOrderTag(now, menu(), reveal, isSaved);
      showWays(now);
      showChange();
    },
  };
}

/** What runs out first and when, and what the crew took off the menu: a tap does it, a tap puts it back. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { QueueView } from "../../../../model/orders/order.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { pieceName } from "../../crew/words/names.ts";
import { byId, element } from "../../kit/dom.ts";

/** To be called with the piece, its name, and whether it is to be off the menu. */
export type SetOff = (piece: string, name: string, off: boolean) => void;

/** The button that takes a piece off the menu, or puts it back. */
export const offButton = (piece: string, name: string, off: boolean, setOff: SetOff): HTMLElement =>
  element(
    "button",
    {
      type: "button",
      "aria-label": `${off ? "Put back" : "Off the menu"}: ${name}`,
      onclick: () => setOff(piece, name, !off),
    },
    off ? "Put back" : "Off the menu",
  );

const untilWords = ({ free, emptyAt }: QueueView["low"][number]): string | null =>
  free > 0 && emptyAt !== null ? `at today’s pace gone about ${timeOfDay(emptyAt)}` : null;

let shown = "";

/** Draws both lists; leaves them alone where nothing changed, so that a thumb on its way finds its button. */
export function showLow({ low, offMenu }: QueueView, menu: Menu | null, setOff: SetOff): void {
  const now = JSON.stringify([low, offMenu, menu === null]);
  if (now === shown) return;
  shown = now;
  byId("low").replaceChildren(
    ...(low.length === 0 ? [element("li", {}, element("span", { class: "wide" }, "Nothing."))] : []),
    ...low.map((piece) => {
      const name = pieceName(menu, piece.sku);
      const until = untilWords(piece);
      return element(
        "li",
        {},
        element("b", {}, piece.free === 0 ? "none" : `${piece.free} left`),
        element("span", {}, name),
        until === null ? null : element("span", { class: "small" }, until),
        offButton(piece.sku, name, false, setOff),
      );
    }),
  );
  byId("off-part").hidden = offMenu.length === 0;
  byId("off").replaceChildren(
    ...offMenu.map((piece) => {
      const name = pieceName(menu, piece);
      return element(
        "li",
        {},
        element("b", {}, "off"),
        element("span", {}, name),
        offButton(piece, name, true, setOff),
      );
    }),
  );
}

/** What sells out first and when, and what the crew has stopped selling. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { QueueView } from "../../../../model/orders/order.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { pieceName } from "../../crew/words/names.ts";
import { byId, element } from "../../kit/dom.ts";

const SHOWN = 5;

/** To be called with the piece, its name, and whether to stop selling it. */
export type SetOff = (piece: string, name: string, off: boolean) => void;

/** The button that stops selling a piece, or sells it again. */
export const offButton = (piece: string, name: string, off: boolean, setOff: SetOff): HTMLElement =>
  element(
    "button",
    {
      type: "button",
      "aria-label": `${off ? "Sell again" : "Stop selling"}: ${name}`,
      onclick: () => setOff(piece, name, !off),
    },
    off ? "Sell again" : "Stop selling",
  );

const leftWords = ({ free, emptyAt }: QueueView["low"][number]): string =>
  free === 0
    ? "none left"
    : emptyAt === null
      ? `${free} left`
      : `${free} left, until about ${timeOfDay(emptyAt)}`;

let shown = "";

/** Draws both lists; leaves them alone while nothing changed, so that a thumb on its way finds its button. */
export function showLow({ low, offMenu }: QueueView, menu: Menu | null, setOff: SetOff): void {
  const now = JSON.stringify([low, offMenu, menu === null]);
  if (now === shown) return;
  shown = now;
  const open = new Set(
    [...document.querySelectorAll<HTMLElement>("#low details[open]")].map(({ dataset }) => dataset["piece"]),
  );
  byId("low").replaceChildren(
    ...(low.length === 0 ? [element("li", { class: "none" }, "Nothing sells out today.")] : []),
    ...low.slice(0, SHOWN).map((piece) => {
      const name = pieceName(menu, piece.sku);
      return element(
        "li",
        {},
        element(
          "details",
          { "data-piece": piece.sku, open: open.has(piece.sku) },
          element(
            "summary",
            { class: "sells" },
            element("b", {}, name),
            element("span", { class: "small" }, leftWords(piece)),
          ),
          offButton(piece.sku, name, false, setOff),
        ),
      );
    }),
  );
  byId("off-part").hidden = offMenu.length === 0;
  byId("off").replaceChildren(
    ...offMenu.map((piece) => {
      const name = pieceName(menu, piece);
      return element("li", { class: "row" }, element("b", {}, name), offButton(piece, name, true, setOff));
    }),
  );
}

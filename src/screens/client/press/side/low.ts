/** What sells out first and when, and what the crew has stopped selling. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { QueueView } from "../../../../model/orders/order.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { pieceName } from "../../crew/words/names.ts";
import { byId, element } from "../../kit/dom.ts";
import { renewByKey } from "./keyed.ts";

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
      : `${free} left, gone about ${timeOfDay(emptyAt)}`;

const isOpen = (piece: string): boolean =>
  byId("low").querySelector(`details[open][data-piece="${piece}"]`) !== null;

/** Draws both lists. */
export function showLow({ low, offMenu }: QueueView, menu: Menu | null, setOff: SetOff): void {
  const none = element("li", { class: "none", "data-key": "none" }, "Nothing sells out today.");
  const rows = low.slice(0, SHOWN).map((piece) => {
    const name = pieceName(menu, piece.sku);
    return element(
      "li",
      { "data-key": piece.sku },
      element(
        "details",
        { "data-piece": piece.sku, open: isOpen(piece.sku) },
        element(
          "summary",
          { class: "sells" },
          element("b", {}, name),
          element("span", { class: "small" }, leftWords(piece)),
        ),
        offButton(piece.sku, name, false, setOff),
      ),
    );
  });
  renewByKey(byId("low"), rows.length === 0 ? [none] : rows);
  byId("off-part").hidden = offMenu.length === 0;
  renewByKey(
    byId("off"),
    offMenu.map((piece) => {
      const name = pieceName(menu, piece);
      return element(
        "li",
        { class: "row", "data-key": piece },
        element("b", {}, name),
        offButton(piece, name, true, setOff),
      );
    }),
  );
}

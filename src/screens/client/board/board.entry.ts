/** The pickup board of one stall. */
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { BoardView } from "../../../model/orders/order.ts";
import { customersApi } from "../customer/sent-on.ts";
import { garmentOf, onSale } from "../garment/garments.ts";
import { detailOf, problemOf, type Reply } from "../kit/api.ts";
import { keepAwake } from "../kit/awake.ts";
import { byId, pageData } from "../kit/dom.ts";
import { poll } from "../kit/poll.ts";
import { newChime } from "./chime.ts";
import { newlyReady, rowsOf } from "./rows.ts";
import { newSheet } from "./sheet.ts";

const EVERY_SECONDS = 3;

const api = customersApi(`/v1/fairs/${pageData("fair")}/stalls/${pageData("stall")}`, () => null);
const sheet = newSheet();
const chime = newChime();
let seen: BoardView | null = null;
let tag: string | null = null;

function show(board: BoardView): void {
  // What was ready when the page was opened is no news.
  const fresh = seen === null ? [] : newlyReady(seen.ready, board.ready);
  seen = board;
  byId("stall-name").textContent = `${board.stall}: pickup`;
  document.title = `${board.stall}: pickup`;
  byId("garments").hidden = rowsOf(board).length > 0;
  sheet.draw(rowsOf(board), new Set(fresh), board.more);
  if (fresh.length === 0) return;
  byId("called").textContent = `Ready: ${fresh.join(", ")}`;
  chime.ring();
}

/** What somebody in front of the board should know. */
const TOLD: Readonly<Record<string, string>> = {
  "no-menu": "This stall isn’t set up yet. Come back in a little while.",
  "no-such-stall": "There’s no stall at this address. Check the link.",
};
const told = (reply: Reply): string => TOLD[problemOf(reply) ?? ""] ?? detailOf(reply);

async function look(): Promise<boolean> {
  const reply = await api("/board", { have: tag });
  if (reply.status === 0) return false;
  const refused = reply.status !== 200 && reply.status !== 304;
  const trouble = byId("trouble");
  trouble.hidden = !refused;
  trouble.textContent = refused ? told(reply) : "";
  if (reply.status === 200) {
    tag = reply.tag;
    show(reply.body as BoardView); // as the route documents
  }
  return true;
}

const sound = byId("sound");
sound.addEventListener("click", () => {
  chime.turn(!chime.isOn());
  sound.textContent = chime.isOn() ? "Turn sound off" : "Turn sound on";
  chime.ring();
});

/** What is sold, shown while no number is. */
const MOST_SHOWN = 6;
void api("/menu").then(({ status, body }) => {
  if (status === 200)
    byId("garments").replaceChildren(...onSale(body as MenuView, MOST_SHOWN).map(garmentOf)); // as the route documents
});

keepAwake();
poll({ everySeconds: EVERY_SECONDS, look });

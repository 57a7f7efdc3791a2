/** The pickup board of one stall. */
import type { BoardView } from "../../../model/orders/order.ts";
import { apiAt, detailOf } from "../kit/api.ts";
import { keepAwake } from "../kit/awake.ts";
import { byId, pageData } from "../kit/dom.ts";
import { poll } from "../kit/poll.ts";
import { newChime } from "./chime.ts";
import { newlyReady, rowsOf } from "./rows.ts";
import { newSheet } from "./sheet.ts";

const EVERY_SECONDS = 3;

const api = apiAt(`/v1/fairs/${pageData("fair")}/stalls/${pageData("stall")}`, () => null);
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
  sheet.draw(rowsOf(board), new Set(fresh), board.more);
  if (fresh.length === 0) return;
  byId("called").textContent = `Ready: ${fresh.join(", ")}`;
  chime.ring();
}

async function look(): Promise<boolean> {
  const reply = await api("/board", { have: tag });
  if (reply.status === 0) return false;
  const refused = reply.status !== 200 && reply.status !== 304;
  const trouble = byId("trouble");
  trouble.hidden = !refused;
  trouble.textContent = refused ? detailOf(reply) : "";
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

keepAwake();
poll({ everySeconds: EVERY_SECONDS, look });

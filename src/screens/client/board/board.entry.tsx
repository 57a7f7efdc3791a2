/** @jsxImportSource preact */
/** The pickup board of one stall. */
import { render } from "preact";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { BoardView } from "../../../model/orders/queue.ts";
import { customersApi } from "../customer/sent-on.ts";
import { detailOf, problemOf, type Reply } from "../kit/api.ts";
import { keepAwake } from "../kit/awake.ts";
import { byId, pageData } from "../kit/dom.ts";
import { poll } from "../kit/poll.ts";
import { chimeOn } from "../sound/chime.ts";
import type { Box } from "./fit.ts";
import {
  FIRST,
  heard,
  measured,
  type Room,
  refused,
  type State,
  sells,
  shownOf,
  unchanged,
} from "./state.ts";
import { Board } from "./view.tsx";

const EVERY_SECONDS = 3;

const api = customersApi(`/v1/fairs/${pageData("fair")}/stalls/${pageData("stall")}`, () => null);
const sound = byId("sound");
const ring = chimeOn(sound, (on) => {
  sound.textContent = on ? "Turn sound off" : "Turn sound on";
});
const root = byId("board");
let state = FIRST;
let tag: string | null = null;

/** The room for a part's numbers: its own, less the other elements in it. */
function roomOf(part: string): Box {
  const box = document.querySelector(part);
  if (box === null) return { width: 0, height: 0 };
  const others = [...box.children].filter((child) => !child.matches(".numbers"));
  const gaps = Number.parseFloat(getComputedStyle(box).rowGap) * (box.childElementCount - 1);
  const taken = others.reduce((sum, child) => sum + child.getBoundingClientRect().height, gaps);
  const { paddingBlockStart, paddingBlockEnd, paddingInlineStart, paddingInlineEnd } = getComputedStyle(box);
  const [above, below, before, after] = [
    paddingBlockStart,
    paddingBlockEnd,
    paddingInlineStart,
    paddingInlineEnd,
  ].map(Number.parseFloat) as [number, number, number, number]; // four in, four out
  return {
    width: Math.max(0, box.clientWidth - before - after),
    height: Math.max(0, box.clientHeight - above - below - taken),
  };
}

const measure = (): Room => ({
  window: { width: window.innerWidth, height: window.innerHeight },
  ready: roomOf(".part-ready"),
  line: roomOf(".part-line"),
});

const draw = (): void => render(<Board state={state} />, root);

/** May draw twice: the parts must exist to be measured, and the "more" line takes room of its own. */
function change(to: (before: State) => State): void {
  state = to(state);
  draw();
  const shown = shownOf(state);
  byId("order-code").hidden = state.board === null || shown !== null;
  if (shown === null) return;
  for (let turn = 0; turn < 2; turn += 1) {
    const room = measure();
    if (JSON.stringify(room) === JSON.stringify(state.room)) return;
    state = measured(state, room);
    draw();
  }
}

/** Notices for people in front of the board. */
const TOLD: Readonly<Record<string, string>> = {
  "no-menu": "This stall isn’t set up yet. Come back in a little while.",
  "no-such-stall": "There’s no stall at this address. Check the link.",
};
const told = (reply: Reply): string => TOLD[problemOf(reply) ?? ""] ?? detailOf(reply);

async function look(): Promise<boolean> {
  const reply = await api("/board", { have: tag });
  if (reply.status === 0) return false;
  if (reply.status === 304) change(unchanged);
  else if (reply.status === 200) {
    tag = reply.tag;
    const board = reply.body as BoardView; // as the route documents
    change((before) => heard(before, board));
    byId("stall-name").textContent = `${board.stall}: pickup`;
    document.title = `${board.stall}: pickup`;
    if (state.fresh.length > 0) ring();
  } else change((before) => refused(before, told(reply)));
  return true;
}

void api("/menu").then(({ status, body }) => {
  if (status === 200) change((before) => sells(before, body as MenuView)); // as the route documents
});

window.addEventListener("resize", () => change((before) => before));
void document.fonts.ready.then(() => change((before) => before));
keepAwake();
poll({ everySeconds: EVERY_SECONDS, look });

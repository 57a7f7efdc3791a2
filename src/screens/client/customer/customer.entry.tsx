/** @jsxImportSource preact */
/** The customer's page: one conversation with one stall. */
import { render } from "preact";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import { looksIn } from "../garment/garments.ts";
import { byId, pageData } from "../kit/dom.ts";
import { poll } from "../kit/poll.ts";
import { local } from "../kit/texts-kept.ts";
import { outboxIn } from "./outbox.ts";
import { keepFocus, keepPlace } from "./reader.ts";
import { customersApi } from "./sent-on.ts";
import { cancelling, firstState, named, type State, typing, unpictured } from "./state.ts";
import { talking } from "./talking.ts";
import { takeBrought, tokenOf } from "./token.ts";
import { type Actions, Customer } from "./view.tsx";
import { pageWords } from "./words.ts";

const EVERY_SECONDS = 4;

const fair = pageData("fair");
const stall = pageData("stall");
const base = `/v1/fairs/${fair}/stalls/${stall}`;
const token = tokenOf(`${fair}/${stall}`);
takeBrought(token);

const words = pageWords(navigator.languages);
document.documentElement.lang = words.language;

const root = byId("page");
const outbox = outboxIn(local, `${fair}/${stall}`);
let state = firstState(stall, outbox.before);

/** Changes the state: keeps it, draws it, and leaves the reader's position alone. */
function change(to: (before: State) => State): void {
  const before = state;
  state = to(before);
  outbox.keep(state.unsent);
  keepPlace(state.unsent.length > before.unsent.length, () =>
    keepFocus(() => render(<Customer state={state} words={words} actions={actions} />, root)),
  );
}

const talk = talking({ api: customersApi(base, token.get), token, state: () => state, change });
const actions: Actions = {
  board: `/at/${fair}/${stall}/board`,
  yourData: `/at/${fair}/${stall}/your-data`,
  say: talk.say,
  sendNow: () => void talk.sendNow(),
  type: (text) => change((before) => typing(before, text)),
  askToCancel(isAsking) {
    change((before) => cancelling(before, isAsking));
    byId(isAsking ? "keep-order" : "cancel-order").focus({ preventScroll: true });
  },
};

/** How long the conversation waits for its garment pictures, in milliseconds. */
const PATIENCE = 3_000;
const menuApi = customersApi(base, () => null);
let isMenuKnown = false;

/** Asks what the stall sells, until it has said so. */
async function askForMenu(): Promise<void> {
  if (isMenuKnown) return;
  const { status, body } = await menuApi("/menu", { patience: PATIENCE });
  if (status !== 200) return change(unpictured);
  isMenuKnown = true;
  const view = body as MenuView; // as the route documents
  change((before) => named(before, view.stall, looksIn(view)));
  document.title = words.title(view.stall);
}

function look(): Promise<boolean> {
  void askForMenu();
  return talk.look();
}

change((before) => before);
const { now } = poll({ everySeconds: EVERY_SECONDS, look, words: words.freshness });
window.addEventListener("pageshow", ({ persisted }) => {
  if (persisted) now();
});

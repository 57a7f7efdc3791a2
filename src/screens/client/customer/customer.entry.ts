/** The customer's page: one conversation with one stall. */
import type { MenuView } from "../../../model/menu/menu-view.ts";
import { type Looks, looksIn, NO_LOOKS } from "../garment/garments.ts";
import { byId, element, pageData } from "../kit/dom.ts";
import { poll } from "../kit/poll.ts";
import { local } from "../kit/texts-kept.ts";
import { drawing } from "./drawing.ts";
import { outboxIn } from "./outbox.ts";
import { customersApi } from "./sent-on.ts";
import { talking } from "./talking.ts";
import { ticketDrawer } from "./ticket.ts";
import { takeBrought, tokenOf } from "./token.ts";
import { fillShell, pageWords } from "./words.ts";

const EVERY_SECONDS = 4;

const fair = pageData("fair");
const stall = pageData("stall");
const token = tokenOf(`${fair}/${stall}`);
takeBrought(token);

const words = pageWords(navigator.languages);
fillShell(words);

let looks: Looks = NO_LOOKS;
const api = customersApi(`/v1/fairs/${fair}/stalls/${stall}`, token.get);
const talk = talking({
  api,
  outbox: outboxIn(local, `${fair}/${stall}`),
  token,
  draw: drawing(
    words,
    (text) => talk.say(text),
    () => looks,
  ),
  drawTicket: ticketDrawer({
    words,
    board: `/at/${fair}/${stall}/board`,
    say: (text) => talk.say(text),
  }),
  words,
});

byId("shortcuts").append(
  ...words.shortcuts.map(([say, label]) =>
    element("button", { type: "button", onclick: () => talk.say(say) }, label),
  ),
);

byId("say").addEventListener("submit", (event) => {
  event.preventDefault();
  const field = byId<HTMLInputElement>("text");
  const text = field.value.trim();
  if (text === "") return;
  field.value = "";
  talk.say(text);
});
byId("again").addEventListener("click", () => void talk.sendNow());

const { now } = poll({ everySeconds: EVERY_SECONDS, look: talk.look, words: words.freshness });
window.addEventListener("pageshow", ({ persisted }) => {
  if (persisted) now();
});

const { status, body } = await customersApi(`/v1/fairs/${fair}/stalls/${stall}`, () => null)("/menu");
if (status === 200) {
  const view = body as MenuView; // as the route documents
  const { stall: name } = view;
  looks = looksIn(view);
  talk.redraw();
  byId("stall-name").textContent = name;
  document.title = words.title(name);
}

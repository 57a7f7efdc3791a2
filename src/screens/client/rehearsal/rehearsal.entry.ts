/** Additions to every page of a rehearsal: a button that ends it, and beside the press a customer's phone. */
import { nanoid } from "nanoid";
import { segments } from "../../../chat/fitting/segments.ts";
import type { ChatHistory, ChatReply } from "../../../model/orders/chat.ts";
import { apiAt, detailOf } from "../kit/api.ts";
import { byId, element, pageData } from "../kit/dom.ts";
import { keyFor } from "../kit/key.ts";
import { local, session } from "../kit/texts-kept.ts";

const EVERY = 2000;
const fair = pageData("fair");
const stall = pageData("stall");
const place = `crew ${fair}/${stall}`;
const base = `/v1/fairs/${fair}/stalls/${stall}`;
const TOKEN = `rehearsing customer ${fair}/${stall}`;

const wipe = byId<HTMLButtonElement>("rehearsal-wipe");
const once = nanoid();
wipe.addEventListener("click", async () => {
  wipe.disabled = true;
  const reply = await apiAt(base, () => keyFor(place))("/wipe", { method: "POST", body: {}, once });
  if (reply.status !== 200 && reply.status !== 403) {
    wipe.disabled = false;
    byId("rehearsal-said").textContent = detailOf(reply);
    return;
  }
  session.removeItem(TOKEN);
  for (const [name] of local.entries()) if (name.includes(`${fair}/${stall}`)) local.removeItem(name);
  location.assign(`/crew/${fair}/${stall.replace(/\.rehearsal$/, "")}/setup`);
});

function phone(): void {
  const list = element("ol", {});
  const log = element(
    "div",
    { class: "card handset", role: "log", "aria-label": "Texts", tabindex: 0 },
    list,
  );
  const field = element("input", {
    id: "rehearsal-text",
    autocomplete: "off",
    autocapitalize: "off",
    maxlength: 600,
  });
  const said = element("p", { role: "status", class: "small" });
  const form = element(
    "form",
    {},
    element("label", { for: "rehearsal-text" }, "Text as a customer"),
    element("div", { class: "pair" }, field, element("button", { type: "submit" }, "Send")),
  );
  document.body.append(
    element(
      "aside",
      { class: "stack rehearsal-phone", "aria-label": "A customer's phone" },
      element("h2", {}, "A customer's phone"),
      log,
      form,
      said,
    ),
  );
  const api = apiAt(base, () => session.getItem(TOKEN));
  let shown = "";
  let intent = { text: "", id: "" };

  async function look(): Promise<void> {
    if (session.getItem(TOKEN) === null || document.hidden) return;
    const reply = await api("/chat?after=0");
    if (reply.status !== 200) return;
    const { messages } = reply.body as ChatHistory; // as the route documents
    const drawn = JSON.stringify(messages);
    if (drawn === shown) return;
    shown = drawn;
    list.replaceChildren(
      ...messages.map(({ from, text }) => {
        const { parts, units } = segments(text);
        const size =
          from === "stall" ? `${parts === 1 ? "1 message" : `${parts} messages`}, ${units} characters` : null;
        return element(
          "li",
          { class: from },
          element("p", { class: "text" }, text),
          size === null ? null : element("p", { class: "size" }, size),
        );
      }),
    );
    log.scrollTop = log.scrollHeight;
  }

  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const text = field.value.trim();
    if (text === "") return;
    if (intent.text !== text) intent = { text, id: nanoid(24) };
    const reply = await api("/chat", { method: "POST", body: intent });
    said.textContent = reply.status === 200 ? "" : detailOf(reply);
    if (reply.status !== 200) return;
    session.setItem(TOKEN, (reply.body as ChatReply).customer); // as the route documents
    intent = { text: "", id: "" };
    field.value = "";
    await look();
  });
  setInterval(() => void look(), EVERY);
  void look();
}

if (document.body.classList.contains("press")) phone();

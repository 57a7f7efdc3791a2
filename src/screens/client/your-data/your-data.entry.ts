/** The page on what a stall keeps: when it goes, and erasing one's own at once. */
import type { PeopleKept } from "../../../model/orders/chat.ts";
import { tokenOf } from "../customer/token.ts";
import { apiAt } from "../kit/api.ts";
import { byId, pageData } from "../kit/dom.ts";

const [fair, stall] = [pageData("fair"), pageData("stall")];
const token = tokenOf(`${fair}/${stall}`);
const api = apiAt(`/v1/fairs/${fair}/stalls/${stall}`, token.get);
const button = byId<HTMLButtonElement>("erase");

const say = (words: string): void => {
  byId("said").textContent = words;
};

/** Fills in the stall, how to reach it, and the day. */
async function fill(): Promise<void> {
  const { status, body } = await api("/people-kept");
  if (status !== 200) return;
  const { stall: name, contact, erasedAt } = body as PeopleKept; // as the route documents
  byId("stall-name").textContent = name;
  if (contact !== null) {
    const line = byId("contact");
    line.hidden = false;
    for (const place of line.querySelectorAll("strong")) place.textContent = contact;
  }
  if (erasedAt === null) return;
  const day = new Intl.DateTimeFormat(document.documentElement.lang, { dateStyle: "long" });
  byId("until").textContent = `${pageData("days")} ${day.format(new Date(erasedAt))}.`;
}

async function erase(): Promise<void> {
  button.disabled = true;
  const { status } = await api("/chat/erased", { method: "POST", body: {} });
  // A token that opens nothing any more leads to nobody.
  if (status === 200 || status === 401) {
    token.forget();
    return say(pageData("erased"));
  }
  button.disabled = false;
  say(pageData("failed"));
}

if (token.get() === null) say(pageData("none"));
else button.disabled = false;
button.addEventListener("click", () => void erase());
void fill();

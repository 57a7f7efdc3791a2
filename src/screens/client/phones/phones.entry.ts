/** The page of pretend phones. */
import { apiAt, detailOf } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";
import { keyFor } from "../kit/key.ts";
import { poll } from "../kit/poll.ts";
import { local } from "../kit/texts-kept.ts";
import { newPhone, type Phone, type PhoneMessage } from "./phone.ts";

/** The answer of the pretend phones' own process. */
type Held = {
  readonly fair: string | null;
  readonly number: string;
  readonly phones: readonly { readonly number: string; readonly messages: readonly PhoneMessage[] }[];
};

const EVERY_SECONDS = 1;
const FIRST_NUMBER = 12125550100;
const MOST_PHONES = 6;
const SHOWN = "phones shown";

const key = keyFor("pretend phones");
const api = apiAt("/phones", () => key);
const fair = byId<HTMLInputElement>("fair");
const phones: Phone[] = [];
let tag: string | null = null;

async function send(number: string, id: string, text: string): Promise<string | null> {
  const reply = await api("/texts", {
    method: "POST",
    body: { id, from: number, fair: fair.value.trim(), text },
  });
  now();
  return reply.status === 200 ? null : detailOf(reply);
}

function addPhone(): void {
  const phone = newPhone(`+${FIRST_NUMBER + phones.length}`, send);
  phones.push(phone);
  byId("phones").append(phone.node);
  local.setItem(SHOWN, String(phones.length));
  byId<HTMLButtonElement>("another").disabled = phones.length >= MOST_PHONES;
  tag = null;
}

async function look(): Promise<boolean> {
  const asked = new URLSearchParams(phones.map(({ number }): [string, string] => ["of", number]));
  const reply = await api(`/messages?${asked}`, { have: tag });
  byId("key-needed").hidden = reply.status !== 401;
  if (reply.status === 304) return true;
  if (reply.status !== 200) return false;
  const held = reply.body as Held; // our own process answers it
  tag = reply.tag;
  if (fair.value === "" && document.activeElement !== fair) fair.value = held.fair ?? "";
  byId("number").textContent = held.number;
  for (const { number, messages } of held.phones) {
    phones.find((phone) => phone.number === number)?.draw(messages);
  }
  return true;
}

const shown = Math.min(Math.max(Number(local.getItem(SHOWN) ?? 1), 1), MOST_PHONES);
for (let n = 0; n < shown; n += 1) addPhone();
byId("another").addEventListener("click", () => {
  addPhone();
  now();
});
const { now } = poll({ everySeconds: EVERY_SECONDS, look });

/** @jsxImportSource preact */
/** The page of pretend phones. */
import { nanoid } from "nanoid";
import { render } from "preact";
import { apiAt, detailOf } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";
import { keyFor } from "../kit/key.ts";
import { poll } from "../kit/poll.ts";
import { local } from "../kit/texts-kept.ts";
import { type Phone, Phones } from "./view.tsx";

/** The answer of the pretend phones' own process. */
type Held = {
  readonly fair: string | null;
  readonly number: string;
  readonly phones: readonly Pick<Phone, "number" | "messages">[];
};

const EVERY_SECONDS = 1;
const FIRST_NUMBER = 12125550100;
const MOST_PHONES = 6;
const SHOWN = "phones shown";

const key = keyFor("pretend phones");
const api = apiAt("/phones", () => key);
const fair = byId<HTMLInputElement>("fair");
/** By number, a text that was not taken: it goes again as the same text. */
const untaken = new Map<string, { readonly text: string; readonly id: string }>();
let phones: readonly Phone[] = [];
let tag: string | null = null;

function change(to: (phone: Phone) => Phone): void {
  const before = new Map(phones.map(({ number, messages }) => [number, messages.length]));
  phones = phones.map(to);
  render(<Phones phones={phones} sends={send} />, byId("phones"));
  document.querySelectorAll(".log").forEach((log, index) => {
    const phone = phones[index];
    if (phone !== undefined && before.get(phone.number) !== phone.messages.length)
      log.scrollTop = log.scrollHeight;
  });
}

async function send({ number }: Phone, form: HTMLFormElement): Promise<void> {
  const text = String(new FormData(form).get("text") ?? "").trim();
  if (text === "") return;
  const before = untaken.get(number);
  const id = before?.text === text ? before.id : nanoid();
  untaken.set(number, { text, id });
  const reply = await api("/texts", {
    method: "POST",
    body: { id, from: number, fair: fair.value.trim(), text },
  });
  const isTaken = reply.status === 200;
  if (isTaken) {
    untaken.delete(number);
    form.reset();
  }
  const trouble = isTaken ? null : detailOf(reply);
  change((phone) => (phone.number === number ? { ...phone, trouble } : phone));
  now();
}

function addPhone(): void {
  phones = [...phones, { number: `+${FIRST_NUMBER + phones.length}`, messages: [], trouble: null }];
  change((phone) => phone);
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
  change((phone) => ({ ...phone, ...held.phones.find(({ number }) => number === phone.number) }));
  return true;
}

const shown = Math.min(Math.max(Number(local.getItem(SHOWN) ?? 1), 1), MOST_PHONES);
for (let n = 0; n < shown; n += 1) addPhone();
byId("another").addEventListener("click", () => {
  addPhone();
  now();
});
const { now } = poll({ everySeconds: EVERY_SECONDS, look });

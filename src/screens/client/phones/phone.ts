/** One pretend phone: its messages, and a line to type. */
import { nanoid } from "nanoid";
import { element } from "../kit/dom.ts";

/** A message as the handset's own process keeps it. */
export type PhoneMessage = {
  readonly id: string;
  readonly from: "phone" | "stall";
  readonly text: string;
  readonly at: string;
  readonly parts: number;
  readonly alphabet: string;
  readonly refused: string | null;
};

export type Phone = {
  readonly number: string;
  readonly node: HTMLElement;
  readonly draw: (messages: readonly PhoneMessage[]) => void;
};

/** Hands a text in; gives why it was not taken, or null. The same id is the same text. */
export type SendText = (number: string, id: string, text: string) => Promise<string | null>;

/** "+12125550107" as people read it. */
const spaced = (number: string): string => number.replace(/^(\+1)(\d{3})(\d{3})(\d{4})$/, "$1 $2 $3 $4");

const sizeOf = ({ parts, alphabet }: PhoneMessage): string =>
  `${parts} ${parts === 1 ? "message" : "messages"}, ${alphabet}`;

function slip(message: PhoneMessage): HTMLLIElement {
  const note = message.refused === null ? sizeOf(message) : `not taken: ${message.refused}`;
  const kind = message.from === "phone" ? "typed" : "arrived";
  return element(
    "li",
    { class: message.refused === null ? kind : `${kind} refused`, "data-id": message.id },
    element("p", { class: "text" }, message.text),
    element("p", { class: message.refused === null ? "size" : "size fault" }, note),
  );
}

export function newPhone(number: string, send: SendText): Phone {
  const list = element("ol", { class: "stack tight" });
  const log = element(
    "div",
    { class: "log", role: "log", "aria-label": `Texts of ${spaced(number)}`, tabindex: 0 },
    list,
  );
  const field = element("input", {
    "aria-label": `Text from ${spaced(number)}`,
    autocomplete: "off",
    autocapitalize: "off",
    maxlength: 1600,
    placeholder: "Type a text",
  });
  const trouble = element("p", { class: "notice", role: "alert", hidden: true });
  let intent = { text: "", id: "" };

  const form = element(
    "form",
    { class: "pair" },
    field,
    element("button", { type: "submit", class: "main" }, "Send"),
  );
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const text = field.value.trim();
    if (text === "") return;
    // A text that was not taken stays in the field and goes again as the same text.
    if (intent.text !== text) intent = { text, id: nanoid() };
    const why = await send(number, intent.id, text);
    trouble.hidden = why === null;
    trouble.textContent = why ?? "";
    if (why !== null) return;
    intent = { text: "", id: "" };
    field.value = "";
  });

  let shown = "";
  return {
    number,
    node: element("section", { class: "card phone" }, element("h2", {}, spaced(number)), log, trouble, form),
    draw(messages) {
      const drawn = JSON.stringify(messages);
      if (drawn === shown) return;
      shown = drawn;
      const before = new Map([...list.children].map((row) => [row.getAttribute("data-id"), row]));
      const rows = messages.map((message) => {
        const row = before.get(message.id);
        const same = row !== undefined && (message.refused !== null) === row.classList.contains("refused");
        return same ? row : slip(message);
      });
      for (const row of list.children) if (!rows.includes(row)) row.remove();
      rows.forEach((row, index) => {
        if (list.children[index] !== row) list.insertBefore(row, list.children[index] ?? null);
      });
      log.scrollTop = log.scrollHeight;
    },
  };
}

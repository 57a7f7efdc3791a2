/** The conversation drawn as the texts a customer gets, with what each one takes. */
import { segments } from "../../../../chat/fitting/segments.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { StockView } from "../../../../model/orders/stock.ts";
import { byId, element } from "../../kit/dom.ts";
import { type Said, tryOut } from "./try-out.ts";

export type Handset = { readonly show: (menu: Menu, stock: StockView | null) => void };

const ROOM = { "GSM-7": 160, "UCS-2": 70 } as const;

function sizeWords({ size: { parts, units, alphabet } }: Said): string {
  if (parts === 1) return `1 message, ${units} of ${ROOM[alphabet]} characters`;
  return `${parts} messages, ${units} characters: a second message costs as much again`;
}

function slip(said: Said): HTMLLIElement {
  const heavy = said.from === "stall" && (said.size.parts > 1 || said.size.alphabet === "UCS-2");
  return element(
    "li",
    { class: said.from },
    element("p", { class: "text" }, said.text),
    said.from === "stall" ? element("p", { class: heavy ? "size heavy" : "size" }, sizeWords(said)) : null,
  );
}

/** `name` gives the stall's name; what is typed is said after what was typed before, on the menu as it is then. */
export function handset(name: () => string): Handset {
  let texts: string[] = [];
  let last: { readonly menu: Menu; readonly stock: StockView | null } | null = null;
  const field = byId<HTMLInputElement>("say-text");

  const draw = (): void => {
    if (last === null) return;
    const said = tryOut(last.menu, name(), last.stock, texts, Date.now());
    byId("texts").replaceChildren(...said.map(slip));
    const sent = said.filter(({ from }) => from === "stall");
    const parts = sent.reduce((sum, { size }) => sum + size.parts, 0);
    byId("texts-sum").textContent =
      sent.length === 0
        ? ""
        : `${sent.length} replies, ${parts} ${parts === 1 ? "message" : "messages"} to pay for.`;
    const log = byId("texts-log");
    if (texts.length > 0) log.scrollTop = log.scrollHeight;
  };

  byId("say-form").addEventListener("submit", (event) => {
    event.preventDefault();
    if (field.value.trim() === "" || segments(field.value).parts > 4) return;
    texts = [...texts, field.value.trim()];
    field.value = "";
    draw();
  });
  byId("say-again").addEventListener("click", () => {
    texts = [];
    draw();
  });
  return {
    show(menu, stock) {
      last = { menu, stock };
      draw();
    },
  };
}

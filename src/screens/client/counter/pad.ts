/** Choosing a garment: what, colour, size, how many. Gone choices stay where they are, and say so. */
import type { MenuView } from "../../../model/menu/menu-view.ts";
import { chosen } from "../crew/choices.ts";
import type { SlipLine } from "../crew/offline.ts";
import { moneyWords } from "../crew/words/money.ts";
import { byId, element } from "../kit/dom.ts";

export type Pad = { readonly show: (menu: MenuView) => void };

type Left = MenuView["offers"][number]["left"][number];
type Choice = { readonly value: string; readonly label: string; readonly gone: boolean };

const MOST = 60;

/** What of each colour or size there is, in the menu's order. */
function grouped(
  left: readonly Left[],
  by: "colour" | "size",
  beside: (piece: Left) => string = () => "",
): readonly Choice[] {
  const found = new Map<string, { label: string; free: number }>();
  for (const piece of left) {
    const name = (by === "colour" ? piece.colourName : piece.sizeName) + beside(piece);
    found.set(piece[by], { label: name, free: (found.get(piece[by])?.free ?? 0) + piece.free });
  }
  return [...found].map(([value, { label, free }]) => ({
    value,
    label: by === "size" && free > 0 ? `${label} (${free})` : label,
    gone: free === 0,
  }));
}

/** "$24.00", or "from $24.00" if some of what it comes in costs more. */
function offerPrice(price: number, left: readonly Left[], currency: MenuView["currency"]): string {
  const prices = left.map((piece) => piece.price);
  const lowest = prices.length === 0 ? price : Math.min(...prices);
  const words = moneyWords(lowest, currency);
  return prices.some((one) => one > lowest) ? `from ${words}` : words;
}

function draw(id: string, legend: string, choices: readonly Choice[]): void {
  const set = byId(id);
  const before = chosen(set, id);
  const only = choices.length === 1 ? choices[0] : undefined;
  const kept = choices.find(({ value, gone }) => value === before && !gone) ?? only;
  set.hidden = choices.length === 0;
  const focused = set.contains(document.activeElement) && document.activeElement instanceof HTMLInputElement;
  set.replaceChildren(
    element("legend", {}, legend),
    ...choices.map(({ value, label, gone }) =>
      element(
        "label",
        gone ? { class: "gone" } : {},
        element("input", {
          type: "radio",
          name: id,
          value,
          checked: value === kept?.value && !gone,
          disabled: gone,
        }),
        gone ? `${label}: gone` : label,
      ),
    ),
  );
  if (focused) set.querySelector<HTMLInputElement>("input:checked")?.focus();
}

export function pad(add: (line: SlipLine) => void): Pad {
  let menu: MenuView | null = null;
  let quantity = 1;
  let drawn = "";

  const offer = () => menu?.offers.find(({ offer: id }) => id === chosen(byId("offers"), "offers"));

  const setQuantity = (next: number): void => {
    quantity = Math.min(Math.max(next, 1), MOST);
    byId("quantity").textContent = String(quantity);
  };

  const drawColours = (): void => draw("colours", "Colour", grouped(offer()?.left ?? [], "colour"));
  const surcharge = (price: number): string => {
    const more = price - (offer()?.price ?? price);
    return more === 0 || menu === null ? "" : ` +${moneyWords(more, menu.currency)}`;
  };
  const drawSizes = (): void => {
    const colour = chosen(byId("colours"), "colours");
    const left = offer()?.left ?? [];
    draw(
      "sizes",
      "Size, and how many are free",
      grouped(
        left.filter((piece) => piece.colour === colour),
        "size",
        ({ price }) => surcharge(price),
      ),
    );
  };

  byId("offers").addEventListener("change", () => {
    drawColours();
    drawSizes();
  });
  byId("colours").addEventListener("change", drawSizes);
  byId("fewer").addEventListener("click", () => setQuantity(quantity - 1));
  byId("more").addEventListener("click", () => setQuantity(quantity + 1));
  byId("add").addEventListener("click", () => {
    const from = offer();
    const colour = chosen(byId("colours"), "colours");
    const size = chosen(byId("sizes"), "sizes");
    const piece = from?.left.find((left) => left.colour === colour && left.size === size);
    byId("pad-missing").textContent = piece === undefined ? "Choose what, colour and size." : "";
    if (from === undefined || piece === undefined) return;
    add({
      offer: from.offer,
      colour: piece.colour,
      size: piece.size,
      quantity,
      each: piece.price,
      name: `${from.name}, ${piece.colourName}, ${piece.sizeName}`,
    });
    setQuantity(1);
    byId("sizes").replaceChildren();
    drawSizes();
  });

  return {
    show: (now) => {
      // Drawn anew only where something changed: a choice that is drawn under a finger is a tap lost.
      const next = JSON.stringify(now);
      if (next === drawn) return;
      drawn = next;
      menu = now;
      draw(
        "offers",
        "What",
        now.offers.map(({ offer: value, name, price, left }) => ({
          value,
          label: `${name} ${offerPrice(price, left, now.currency)}`,
          gone: left.every(({ free }) => free === 0),
        })),
      );
      drawColours();
      drawSizes();
    },
  };
}

/** Counting stock as it is counted, and adding what was brought, without leaving the bench. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { QueueView } from "../../../../model/orders/order.ts";
import type { StockView } from "../../../../model/orders/stock.ts";
import { chosen } from "../../crew/choices.ts";
import { pieceName } from "../../crew/words/names.ts";
import { garmentWords } from "../../crew/words/settings.ts";
import { type Api, detailOf, type Reply } from "../../kit/api.ts";
import { byId, element } from "../../kit/dom.ts";
import { type Act, stockNoted, type Unsent } from "../acts.ts";
import { offButton, type SetOff } from "./low.ts";
import {
  afterNote,
  entryOf,
  groupOf,
  groupsOf,
  type Piece,
  piecesOf,
  type Way,
  wholeNumber,
} from "./stock-pieces.ts";

type Settings = {
  readonly api: Api;
  readonly menu: () => Menu | null;
  readonly send: (write: Unsent) => void;
  readonly busy: () => boolean;
  readonly setOff: SetOff;
};

export type StockTaking = {
  readonly open: () => Promise<void>;
  /** Sends what was typed, as soon as it can be sent. */
  readonly flush: () => void;
  /** The answer does not come at once: what was typed is kept, and shown as it will be. */
  readonly held: (act: Act) => void;
  readonly answered: (act: Act, reply: Reply) => void;
  readonly show: (queue: QueueView) => void;
};

export function stockTaking({ api, menu, send, busy, setOff }: Settings): StockTaking {
  const dialog = byId<HTMLDialogElement>("stock");
  const select = byId<HTMLSelectElement>("stock-what");
  const typed = new Map<string, Record<string, string | number>>();
  /** By how much what was typed changes each piece, as far as the screen knows. */
  const changes = new Map<string, number>();
  let pieces: readonly Piece[] = [];
  let off: readonly string[] = [];

  const way = (): Way => (chosen(dialog, "stock-way") === "delivered" ? "delivered" : "counted");
  const say = (text: string): void => {
    byId("stock-said").textContent = text;
  };

  function flush(): void {
    if (typed.size === 0 || busy()) return;
    const entries = [...typed.values()];
    const names = [...typed.keys()].map((piece) => pieceName(menu(), piece));
    const free = pieces.filter(({ piece }) => typed.has(piece)).map((row) => [row.piece, row.free] as const);
    const back = [...changes]
      .filter(([, change]) => change !== 0)
      .map(([piece, change]) => entryOf(piece, "corrected", -change));
    typed.clear();
    changes.clear();
    send(stockNoted(entries, names, Object.fromEntries(free), back));
  }

  const note = (piece: string, input: HTMLInputElement): void => {
    const number = wholeNumber(input.value, way());
    input.setAttribute("aria-invalid", String(number === null && input.value.trim() !== ""));
    if (input.value.trim() === "") return;
    if (number === null) return say("Type a whole number.");
    typed.set(piece, entryOf(piece, way(), number));
    input.value = "";
    const onHand = (): number => pieces.find((row) => row.piece === piece)?.onHand ?? 0;
    const before = onHand();
    pieces = afterNote(pieces, piece, way(), number);
    changes.set(piece, (changes.get(piece) ?? 0) + onHand() - before);
    draw();
    flush();
  };

  /** Enter goes on to the next one, which notes this one. */
  const next = (event: Event): void => {
    const { target } = event;
    if (!(event instanceof KeyboardEvent) || event.key !== "Enter") return;
    if (!(target instanceof HTMLInputElement)) return;
    const inputs = [...dialog.querySelectorAll<HTMLInputElement>("#stock-rows input")];
    const at = inputs.indexOf(target);
    (inputs[at + 1] ?? select).focus();
  };

  function row({ piece, onHand, promised, free }: Piece): HTMLElement {
    const name = pieceName(menu(), piece);
    const input = element("input", {
      inputmode: "numeric",
      autocomplete: "off",
      maxlength: 6,
      "data-piece": piece,
      "aria-label": `${way() === "counted" ? "Counted" : "Brought"}: ${name}`,
      onkeydown: next,
    });
    input.addEventListener("change", () => note(piece, input));
    return element(
      "li",
      {},
      element("span", { class: "stock-name" }, name),
      element("span", { class: "stock-is" }, `${onHand} there, ${promised} promised, ${free} free`),
      input,
      offButton(piece, name, off.includes(piece), setOff),
    );
  }

  function draw(): void {
    const active = document.activeElement;
    const at = active instanceof HTMLInputElement ? active.dataset["piece"] : undefined;
    const half = new Map(
      [...dialog.querySelectorAll<HTMLInputElement>("#stock-rows input")].map((input) => [
        input.dataset["piece"],
        input.value,
      ]),
    );
    byId("stock-rows").replaceChildren(
      ...pieces.filter(({ piece }) => groupOf(piece) === select.value).map(row),
    );
    for (const input of dialog.querySelectorAll<HTMLInputElement>("#stock-rows input")) {
      input.value = half.get(input.dataset["piece"]) ?? "";
      if (input.dataset["piece"] === at) input.focus();
    }
  }

  function take(view: StockView): void {
    pieces = piecesOf(view);
    const groups = groupsOf(menu(), pieces);
    const before = select.value;
    select.replaceChildren(
      ...groups.map(({ id, name }) => element("option", { value: id, selected: id === before }, name)),
    );
    draw();
  }

  select.addEventListener("change", draw);
  for (const choice of dialog.querySelectorAll('[name="stock-way"]')) choice.addEventListener("change", draw);
  byId("stock-done").addEventListener("click", () => dialog.close());

  return {
    flush,
    open: async () => {
      say("");
      const reply = await api("/stock");
      if (reply.status === 200)
        take(reply.body as StockView); // as the route documents
      else say(detailOf(reply));
      if (!dialog.open) dialog.showModal();
    },
    held: (act) => {
      if (act.type === "stock") say(`Not sent yet: ${act.names.join("; ")}.`);
    },
    answered: (act, reply) => {
      if (act.type !== "stock") return;
      if (reply.status >= 400) return say(detailOf(reply));
      take(reply.body as StockView); // as the route documents
      say(`Noted: ${act.names.join("; ")}.`);
      flush();
    },
    show: ({ short, offMenu }) => {
      byId("stock-short").textContent =
        short.length === 0
          ? ""
          : `Short now: ${short.map((job) => `${job.job} ${garmentWords(job)}`).join("; ")}. They keep their places and get the next ones; their customers are told.`;
      if (JSON.stringify(off) === JSON.stringify(offMenu)) return;
      off = offMenu;
      if (dialog.open) draw();
    },
  };
}

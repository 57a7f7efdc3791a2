/** Counting stock: tables to type into, to paste into and to copy out of; nothing typed is lost. */
import { nanoid } from "nanoid";
import type { OpenNeeds } from "../../../model/orders/open-needs.ts";
import type { StockView } from "../../../model/orders/stock.ts";
import { type Crew, keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { ordersWords } from "../crew/in-use.ts";
import { pieceName } from "../crew/words/names.ts";
import { detailOf } from "../kit/api.ts";
import { byId, element } from "../kit/dom.ts";
import { local } from "../kit/texts-kept.ts";
import { type Conflict, conflictOf } from "./conflicts.ts";
import { gridOf } from "./grid.ts";
import { countsOf, entryOf, tablesOf, type Way } from "./tables.ts";

type Kept = { readonly way: Way; readonly typed: Readonly<Record<string, string>>; readonly once: string };
const NOTHING: Kept = { way: "counted", typed: {}, once: "" };

async function run({ api, place }: Crew): Promise<void> {
  const name = `stock ${place}`;
  let kept = JSON.parse(local.getItem(name) ?? JSON.stringify(NOTHING)) as Kept; // written by keep only
  const menu = await wholeMenu(api);
  const [read, asked] = await Promise.all([api("/stock"), api("/needs")]);
  byId("loading").hidden = true;
  if (keyRefused(read)) return;
  if (menu === null || read.status !== 200) {
    byId("no-menu").hidden = read.status === 0;
    if (read.status === 0)
      notice("No connection. Open this page again when the signal is back; what was typed is kept.");
    return;
  }
  let counts = countsOf(read.body as StockView); // as the routes document, both
  let needs = asked.status === 200 ? (asked.body as OpenNeeds) : { orders: [] };
  let saving = false;

  const typed = (piece: string): string => kept.typed[piece] ?? "";
  const becomes = (piece: string): number => {
    const { onHand } = counts(piece);
    const entry = entryOf(piece, typed(piece), kept.way);
    if (entry === null) return onHand;
    return "counted" in entry ? entry.counted : onHand + ("delivered" in entry ? entry.delivered : 0);
  };
  const keep = (next: Kept): void => {
    kept = next;
    if (Object.keys(kept.typed).length === 0) local.removeItem(name);
    else local.setItem(name, JSON.stringify(kept));
  };
  const type = (cells: ReadonlyMap<string, string>): void => {
    const all = { ...kept.typed, ...Object.fromEntries(cells) };
    keep({
      ...kept,
      typed: Object.fromEntries(Object.entries(all).filter(([, text]) => text.trim() !== "")),
      once: nanoid(),
    });
    show();
  };

  const wrong = (piece: string): string | null => {
    const text = typed(piece);
    if (text === "" || entryOf(piece, text, kept.way) !== null) return null;
    const wanted = kept.way === "counted" ? "a whole number" : "a whole number above 0";
    return `“${text}” is no ${kept.way === "counted" ? "count" : "delivery"}. Type ${wanted}.`;
  };

  const grids = tablesOf(menu).map((table) =>
    gridOf(table, { counts: (piece) => counts(piece), typed, type, becomes, wrong, say: notice }),
  );
  byId("tables").replaceChildren(...grids.map(({ node }) => node));
  byId("jump").replaceChildren(
    ...(grids.length < 4
      ? []
      : grids.map(({ table }) => element("a", { href: `#title-${table.key}` }, table.title))),
  );

  function conflicts(): readonly Conflict[] {
    if (kept.way === "delivered") return [];
    return Object.keys(kept.typed).flatMap(
      (piece) => conflictOf(piece, becomes(piece), counts(piece).promised, needs) ?? [],
    );
  }

  function show(): void {
    for (const { refresh } of grids) refresh();
    const bad = Object.keys(kept.typed).flatMap((piece) => {
      const why = wrong(piece);
      return why === null ? [] : [`${pieceName(menu, piece)}: ${why}`];
    });
    const found = conflicts();
    byId("conflicts").hidden = found.length + bad.length === 0;
    byId("conflict-list").replaceChildren(
      ...bad.map((why) => element("li", {}, why)),
      ...found.map(({ piece, counted, promised, orders, held }) => {
        const falls =
          orders.length === 0
            ? ""
            : ` ${ordersWords(orders)} would fall short: their customers are told at once, and they get the next that is free.`;
        const gives =
          held === 0 ? "" : ` ${held} held for customers who have not said yes yet would be let go.`;
        return element(
          "li",
          {},
          `${pieceName(menu, piece)}: ${counted} counted, ${promised} promised.${falls}${gives}`,
        );
      }),
    );
    const changed = Object.keys(kept.typed).length;
    byId("unsaved").textContent = saving
      ? "Saving…"
      : changed === 0
        ? "All is saved."
        : `${changed === 1 ? "1 count" : `${changed} counts`} typed, not saved yet.${bad.length === 0 ? "" : " Put the marked cells right first."}`;
    const save = byId<HTMLButtonElement>("save");
    save.disabled = saving || changed === 0 || bad.length > 0;
    save.textContent =
      found.length > 0
        ? "Save all the same"
        : kept.way === "counted"
          ? "Save the count"
          : "Save the delivery";
    byId("discard").hidden = changed === 0;
    byId<HTMLInputElement>(kept.way).checked = true;
  }

  async function save(): Promise<void> {
    const sent = kept;
    const entries = Object.entries(sent.typed).flatMap(
      ([piece, text]) => entryOf(piece, text, sent.way) ?? [],
    );
    saving = true;
    show();
    const reply = await api("/stock", { method: "POST", body: { entries }, once: sent.once });
    saving = false;
    if (reply.status === 200) {
      counts = countsOf(reply.body as StockView); // as the route documents
      const left = Object.entries(kept.typed).filter(([piece, text]) => sent.typed[piece] !== text);
      keep({ ...kept, typed: Object.fromEntries(left), once: nanoid() });
      const fresh = await api("/needs");
      if (fresh.status === 200) needs = fresh.body as OpenNeeds; // as the route documents
      notice(null);
    } else if (reply.status === 0 || reply.status >= 500) {
      notice(
        "No connection, so it is not saved yet. It is kept in this browser; save again when the signal is back.",
      );
    } else {
      keyRefused(reply);
      const errors = (reply.body as { errors?: readonly { detail: string }[] } | null)?.errors ?? []; // a Problem's own
      notice([detailOf(reply), ...errors.map(({ detail }) => detail)].join(" "));
    }
    show();
  }

  for (const way of ["counted", "delivered"] as const)
    byId(way).addEventListener("change", () => {
      keep({ ...kept, way, once: nanoid() });
      show();
    });
  byId("save").addEventListener("click", () => void save());
  byId("discard").addEventListener("click", () => {
    keep({ ...NOTHING, way: kept.way });
    show();
  });
  byId("stock").hidden = false;
  byId("bar").hidden = false;
  show();
}

const crew = openCrew();
if (crew !== null) await run(crew);
else byId("loading").hidden = true;

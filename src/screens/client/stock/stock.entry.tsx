/** @jsxImportSource preact */
/** Counting stock: tables to type into, to paste into and to copy out of; nothing typed is lost. */

import { nanoid } from "nanoid";
import { render } from "preact";
import type { OpenNeeds } from "../../../model/orders/open-needs.ts";
import type { StockView } from "../../../model/orders/stock.ts";
import { type Crew, keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { detailOf } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";
import { spellAs } from "../kit/spelling.ts";
import { local } from "../kit/texts-kept.ts";
import type { Actions } from "./actions.ts";
import { entriesOf, type Kept, NOTHING, type State, saved, withStock, withTyped } from "./state.ts";
import { countsOf } from "./tables.ts";
import { Stock } from "./view.tsx";

async function run({ api, place }: Crew): Promise<void> {
  const name = `stock ${place}`;
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
  let state: State = {
    menu,
    counts: countsOf(read.body as StockView), // as the routes document, both
    needs: asked.status === 200 ? (asked.body as OpenNeeds) : { orders: [] },
    kept: JSON.parse(local.getItem(name) ?? JSON.stringify(NOTHING)) as Kept, // written by change only
    saving: false,
    copied: null,
  };

  function change(to: (before: State) => State): void {
    state = to(state);
    if (Object.keys(state.kept.typed).length === 0) local.removeItem(name);
    else local.setItem(name, JSON.stringify(state.kept));
    spellAs(state.menu.currency);
    render(<Stock state={state} actions={actions} />, byId("stock"));
  }

  async function save(): Promise<void> {
    const sent = state.kept;
    const body = { entries: entriesOf(state) };
    change((before) => ({ ...before, saving: true }));
    const reply = await api("/stock", { method: "POST", body, once: sent.once });
    change((before) => ({ ...before, saving: false }));
    if (reply.status === 200) {
      change((before) => saved(withStock(before, reply.body as StockView), sent, nanoid())); // as the route documents
      const fresh = await api("/needs");
      if (fresh.status === 200) change((before) => ({ ...before, needs: fresh.body as OpenNeeds })); // as the route documents
      return notice(null);
    }
    if (reply.status === 0 || reply.status >= 500)
      return notice(
        "No connection, so it is not saved yet. It is kept in this browser; save again when the signal is back.",
      );
    keyRefused(reply);
    const errors = (reply.body as { errors?: readonly { detail: string }[] } | null)?.errors ?? []; // a Problem's own
    return notice([detailOf(reply), ...errors.map(({ detail }) => detail)].join(" "));
  }

  const actions: Actions = {
    type: (cells) => change((before) => withTyped(before, cells, nanoid())),
    setWay: (way) => change((before) => ({ ...before, kept: { ...before.kept, way, once: nanoid() } })),
    save: () => void save(),
    discard: () => change((before) => ({ ...before, kept: { ...NOTHING, way: before.kept.way } })),
    copy: (text) => {
      void navigator.clipboard?.writeText(text).catch(() => null);
      change((before) => ({ ...before, copied: text }));
      notice(
        "The table is copied, where the browser may; it stands at the foot of the page too, to copy by hand.",
      );
    },
    say: notice,
  };
  change((before) => before);
}

const crew = openCrew(true);
if (crew !== null) await run(crew);
else byId("loading").hidden = true;

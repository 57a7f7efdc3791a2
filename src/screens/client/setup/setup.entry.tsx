/** @jsxImportSource preact */
/** Setting a stall up: its menu fetched, typed over, tried and saved; nothing typed is lost. */

import { nanoid } from "nanoid";
import { render } from "preact";
import type { Fault } from "../../../model/basics/faults.ts";
import type { PicturesView } from "../../../model/garment/picture.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { OpenNeeds } from "../../../model/orders/open-needs.ts";
import type { StockView } from "../../../model/orders/stock.ts";
import { type Crew, keyRefused, notice, openCrew } from "../crew/crew.ts";
import { detailOf } from "../kit/api.ts";
import { byId, pageData } from "../kit/dom.ts";
import { type Json, withValue } from "../kit/json-pointer.ts";
import { same } from "../kit/merging.ts";
import { spellAs } from "../kit/spelling.ts";
import { local } from "../kit/texts-kept.ts";
import type { Actions } from "./actions.ts";
import { knownStalls, menuOf } from "./copying.ts";
import { currencyOf } from "./form/field.ts";
import { shrunk } from "./pictures/shrinking.ts";
import { checkMenu } from "./saving/checking.ts";
import { type Draft, EMPTY_MENU, keepDraft, keptDraft } from "./saving/keeping.ts";
import { saver } from "./saving/saving.ts";
import {
  answered,
  begun,
  firstState,
  looking,
  type State,
  savingNow,
  saying,
  texted,
  tried,
} from "./state.ts";
import { tryButton } from "./trying/trying.ts";
import { Setup } from "./view.tsx";

/** How long typing must pause before the conversation is computed, in milliseconds. */
const SOON = 350;

/** A menu that nothing is in yet, in the currency that was asked for when the stall was made. */
function emptyMenu(place: string): Json {
  const asked = local.getItem(`currency ${place}`);
  return asked === null ? EMPTY_MENU : withValue(EMPTY_MENU, "#/currency", asked);
}

/** The stall's menu, with this browser's unsaved edit. */
async function known({ api, place }: Crew): Promise<State | null> {
  const [menu, view, stock, needs, pictures] = await Promise.all([
    api("/menu/whole"),
    api("/menu"),
    api("/stock"),
    api("/needs"),
    api("/pictures"),
  ]);
  const kept = keptDraft(place);
  if (menu.status === 0 && kept === null) {
    notice("No connection. This page fills in when the signal is back; open it again then.");
    return null;
  }
  if (keyRefused(menu)) return null;
  // As the routes document, all of these.
  const base = (menu.body as Json) ?? emptyMenu(place);
  const draft: Draft = kept ?? { base, tag: menu.tag, menu: base };
  return firstState(
    {
      name: view.status === 200 ? (view.body as MenuView).stall : pageData("stall"),
      stock: stock.status === 200 ? (stock.body as StockView) : null,
      needs: needs.status === 200 ? (needs.body as OpenNeeds) : { orders: [] },
      pictures: pictures.status === 200 ? (pictures.body as PicturesView).pictures : [],
      others: knownStalls(place),
    },
    draft,
  );
}

/** Moves to the first of some elements that exists, and opens the parts that contain it. */
function goTo(ids: readonly string[]): void {
  const place = ids.map((id) => document.getElementById(id)).find((one) => one !== null);
  for (const around of document.querySelectorAll("details"))
    around.open ||= place != null && around.contains(place);
  place?.focus();
  place?.scrollIntoView({ block: "center" });
}

function run({ api, place }: Crew, first: State): void {
  const save = saver(api);
  let state = first;
  let soon: ReturnType<typeof setTimeout> | undefined;

  function change(to: (before: State) => State): void {
    const before = state;
    const next = to(before);
    if (next === before) return;
    state = { ...next, goto: [] };
    const { draft } = state;
    if (draft !== before.draft) {
      keepDraft(place, same(draft.base, draft.menu) ? null : draft);
      clearTimeout(soon);
      soon = setTimeout(() => void look(), SOON);
    }
    draw();
    if (next.texts !== before.texts) byId("texts-log").scrollTop = byId("texts-log").scrollHeight;
    if (next.goto.length > 0) goTo(next.goto);
  }

  function draw(): void {
    notice(state.notice);
    spellAs(currencyOf(state.draft.menu));
    render(<Setup state={state} actions={actions} />, byId("setup"));
  }

  /** Slower checks: the conversation, and the stall's verdict on the edit. */
  async function look(): Promise<void> {
    change((before) => looking(before, Date.now()));
    const asked = state.draft.menu;
    const { menu, faults } = checkMenu(asked);
    if (menu === null || faults.length > 0 || same(state.draft.base, asked)) return;
    const reply = await api("/menu/try", { method: "POST", body: menu });
    if (reply.status !== 200) return;
    const { errors } = reply.body as { errors: readonly Fault[] }; // as the route documents
    change((before) => tried(before, asked, errors));
  }

  const actions: Actions = {
    change,
    save: async () => {
      change(savingNow);
      const sent = state.draft;
      const { menu } = checkMenu(sent.menu);
      if (!state.saving || menu === null) return;
      const outcome = await save(menu as Json, sent.tag); // a parsed menu is JSON
      if (outcome.came === "refused") keyRefused(outcome);
      change((before) => answered(before, sent.menu, outcome));
    },
    discard: () => {
      if (window.confirm("Discard the changes that are not saved?"))
        change((before) => begun(before, before.draft.base));
    },
    copy: async (from) => {
      const say = (words: string): void => change((before) => saying(before, "copy", words));
      if (from === null) return say("That isn’t a crew link. It looks like https://…/crew/FAIR/STALL#key=…");
      say("Reading it…");
      const copied = await menuOf(from);
      if ("why" in copied) return say(`It could not be read: ${copied.why}`);
      say("");
      change((before) => begun(before, copied.menu as Json)); // a menu is JSON
    },
    picture: async (design, file) => {
      const say = (words: string): void => change((before) => saying(before, `picture-of-${design}`, words));
      say(file === null ? "" : "Making it small enough…");
      const small = file === null ? null : await shrunk(file);
      if (file !== null && small === null)
        return say(
          "This browser can’t draw that file. Save the artwork as PNG, JPEG or WebP and pick it again.",
        );
      const reply = await api(`/designs/${design}/picture`, {
        method: small === null ? "DELETE" : "PUT",
        once: nanoid(),
        ...(small === null ? {} : { body: small }),
      });
      if (reply.status !== 200) return say(detailOf(reply));
      const { pictures } = reply.body as PicturesView; // as the route documents
      change((before) => ({ ...before, pictures }));
      say(small === null ? "Taken away." : "Saved. Customers see it now.");
    },
    text: (words) => change((before) => texted(before, words, Date.now())),
    pages: {
      plan: `/plan?fair=${pageData("fair")}&stall=${pageData("stall")}`,
      closeout: `/crew/${pageData("fair")}/${pageData("stall")}/closeout`,
    },
  };

  byId("stall-name").textContent = state.name;
  tryButton(api, pageData("fair"));
  draw();
  void look();
}

const crew = openCrew();
const first = crew === null ? null : await known(crew);
byId("loading").hidden = true;
if (crew !== null && first !== null) run(crew, first);

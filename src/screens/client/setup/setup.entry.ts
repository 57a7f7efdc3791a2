/** Setting a stall up: a form over its menu, the conversation beside it, and nothing typed is lost. */
import type { Fault } from "../../../model/basics/faults.ts";
import type { PicturesView } from "../../../model/garment/picture.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { OpenNeeds } from "../../../model/orders/open-needs.ts";
import type { StockView } from "../../../model/orders/stock.ts";
import { type Crew, keyRefused, notice, openCrew } from "../crew/crew.ts";
import { ordersWords } from "../crew/in-use.ts";
import { byId, pageData } from "../kit/dom.ts";
import { type Json, rowsAt, valueAt, withValue } from "../kit/json-pointer.ts";
import { merge, same } from "../kit/merging.ts";
import { showAdvice } from "./advising.ts";
import { beginnings } from "./beginnings.ts";
import { checklist } from "./checklist.ts";
import { nameAt, withField, without } from "./form/editing.ts";
import { idOf } from "./form/field.ts";
import { formOf } from "./form/form.ts";
import { reveal } from "./form/rows.ts";
import { type DesignPictures, designPictures } from "./pictures/design-pictures.ts";
import { changesOf } from "./saving/changes.ts";
import { checkMenu } from "./saving/checking.ts";
import { type Draft, EMPTY_MENU, keepDraft, keptDraft } from "./saving/keeping.ts";
import { showMeanwhile } from "./saving/meanwhile.ts";
import { showReview } from "./saving/review.ts";
import { saver } from "./saving/saving.ts";
import { drawSteps } from "./steps.tsx";
import { handset } from "./trying/handset.ts";
import { tryButton } from "./trying/trying.ts";

const SOON = 350;

type Known = {
  readonly draft: Draft;
  readonly stock: StockView | null;
  readonly needs: OpenNeeds;
  readonly name: string;
  readonly pictures: DesignPictures;
};

/** What the stall has, with what this browser kept of an edit that was not saved. */
async function known({ api, place }: Crew): Promise<Known | null> {
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
  const base = (menu.body as Json) ?? EMPTY_MENU; // as the route documents
  return {
    draft: kept ?? { base, tag: menu.tag, menu: base },
    name: view.status === 200 ? (view.body as MenuView).stall : pageData("stall"), // as the routes document, all three
    stock: stock.status === 200 ? (stock.body as StockView) : null,
    needs: needs.status === 200 ? (needs.body as OpenNeeds) : { orders: [] },
    pictures: designPictures(api, pictures.status === 200 ? (pictures.body as PicturesView) : null), // as documented
  };
}

function run(crew: Crew, { draft: first, stock, needs, name, pictures }: Known): void {
  const { api, place } = crew;
  const save = saver(api);
  let draft = first;
  /** Fields that were typed in and left: what is wrong with the others is not said yet. */
  let left: ReadonlySet<string> = new Set();
  let typedIn: string | null = null;
  let tried = false;
  let breaks: readonly Fault[] = [];
  let saving = false;
  let soon: ReturnType<typeof setTimeout> | undefined;
  const phone = handset(() => name);
  const where = (pointer: string): string => nameAt(draft.menu, pointer);

  const form = formOf({
    pictures,
    menu: () => draft.menu,
    set: (pointer, value) => {
      typedIn = pointer;
      const { menu, more } = withField(draft.menu, pointer, value);
      edited(menu);
      if (!more) return retitle(pointer, value);
      draw();
      document.getElementById(idOf(pointer))?.focus();
    },
    add: (list, entries) => {
      edited(withValue(draft.menu, list, [...rowsAt(draft.menu, list), ...entries]));
      const last = rowsAt(draft.menu, list).length - 1;
      const at = `${list}/${last}`;
      draw(`${list.slice(2)} ${list === "#/presses" ? last : valueAt(draft.menu, `${at}/id`)}`);
      if (/colours|sizes/.test(list)) document.getElementById(`${idOf(list)}-add`)?.focus();
      else reveal(firstField(at));
    },
    remove: (list, index) => {
      const called = where(`${list}/${index}`);
      const { menu, kept } = without(draft.menu, list, index, needs);
      edited(menu);
      draw();
      notice(
        kept.length === 0
          ? null
          : `${called} is off sale but can’t be deleted yet: ${ordersWords(kept)} still ${kept.length === 1 ? "needs" : "need"} it.`,
      );
      document.getElementById(`${idOf(list)}-add`)?.focus();
    },
  });

  const firstField = (at: string): string =>
    at.startsWith("#/presses")
      ? `${at}/id`
      : at.startsWith("#/offers")
        ? `${at}/price`
        : at.startsWith("#/designs")
          ? `${at}/widthInches`
          : `${at}/colours-add`;

  /** A row's own heading follows what is typed as its name. */
  function retitle(pointer: string, value: Json | undefined): void {
    const row = pointer.replace(/\/name$/, "");
    const heading = document.querySelector(`details[data-pointer="${row}"] > summary > b`);
    if (row !== pointer && heading !== null) heading.textContent = String(value ?? "");
  }

  function edited(menu: Json): void {
    draft = { ...draft, menu };
    keepDraft(place, same(draft.base, menu) ? null : draft);
    notice(null);
    breaks = [];
    look();
    clearTimeout(soon);
    soon = setTimeout(() => void later(), SOON);
  }

  /** What can be said at once: faults, changes. */
  function look(): void {
    const { faults } = checkMenu(draft.menu);
    const changes = changesOf(draft.base, draft.menu);
    form.showFaults(tried ? [...faults, ...breaks] : faults.filter(({ pointer }) => left.has(pointer)));
    const priced = changes.some(({ pointer }) => pointer.endsWith("/price"))
      ? needs.orders.map(({ number }) => number)
      : [];
    showReview({ changes, faults, breaks, pricedBefore: priced, saving }, where);
    drawSteps(checklist(draft.menu, faults, changes.length));
    byId("ready-to-sell").textContent =
      faults.length > 0
        ? `${faults.length === 1 ? "One thing is" : `${faults.length} things are`} still to mend; the bar below lists them.`
        : changes.length > 0
          ? "Nothing is wrong. Save it, then try it."
          : "All is saved and ready to sell. Try an order before the fair opens.";
    byId("begin").hidden = rowsAt(draft.menu, "#/blanks").length > 0;
  }

  /** What takes longer: the conversation, and what the stall says of the edit. */
  async function later(): Promise<void> {
    const { menu, faults } = checkMenu(draft.menu);
    byId("texts-none").hidden = menu !== null;
    byId("texts-part").hidden = menu === null;
    if (menu === null || faults.length > 0) return;
    phone.show(menu, stock);
    showAdvice(menu, where);
    pictures.redraw(menu);
    if (same(draft.base, draft.menu)) return;
    const asked = draft.menu;
    const reply = await api("/menu/try", { method: "POST", body: menu });
    if (reply.status !== 200 || draft.menu !== asked) return;
    breaks = (reply.body as { errors: readonly Fault[] }).errors; // as the route documents
    look();
  }

  function draw(open?: string): void {
    form.draw(open);
    look();
  }

  function begin(menu: Json): void {
    edited(menu);
    draw();
    void later();
  }

  async function saveNow(): Promise<void> {
    tried = true;
    const { menu, faults } = checkMenu(draft.menu);
    const [worst] = faults;
    if (menu === null || worst !== undefined) {
      look();
      notice(
        `${faults.length === 1 ? "One thing is" : `${faults.length} things are`} still to mend before this can be saved. Nothing you typed is lost.`,
      );
      if (worst !== undefined) reveal(worst.pointer);
      look();
      return;
    }
    saving = true;
    look();
    const sent = draft.menu;
    const outcome = await save(menu as Json, draft.tag); // a parsed menu is JSON
    saving = false;
    switch (outcome.came) {
      case "saved":
        draft = { base: sent, tag: outcome.tag, menu: draft.menu };
        keepDraft(place, same(draft.base, draft.menu) ? null : draft);
        tried = false;
        showMeanwhile(null);
        notice(null);
        break;
      case "changed": {
        const told = changesOf(draft.base, outcome.theirs);
        const { menu: merged, collisions } = merge(draft.base, draft.menu, outcome.theirs);
        draft = { base: outcome.theirs, tag: outcome.tag, menu: merged };
        keepDraft(place, draft);
        draw();
        showMeanwhile({
          told,
          collisions,
          where,
          take: (pointer, theirs) => begin(withValue(draft.menu, pointer, theirs)),
        });
        break;
      }
      case "faults":
        breaks = outcome.faults;
        notice(
          "The stall cannot take this as it is: what is in the way is listed below. Nothing was saved, nothing you typed is lost.",
        );
        break;
      case "unanswered":
        notice(
          "No connection, so it is not saved yet. It is kept in this browser; tap Save again when the signal is back.",
        );
        break;
      case "refused":
        keyRefused({ status: outcome.status });
        notice(outcome.why);
        break;
      default:
        outcome satisfies never;
    }
    look();
  }

  byId("save").addEventListener("click", () => void saveNow());
  byId("discard").addEventListener("click", () => {
    if (!window.confirm("Discard the changes that are not saved?")) return;
    left = new Set();
    tried = false;
    begin(draft.base);
  });
  if (!same(first.base, first.menu)) notice("What was typed here before and not saved is still here.");
  tryButton(api, pageData("fair"));
  beginnings(place, begin, () => draft.menu);
  byId("stall-name").textContent = name;
  byId("editor").addEventListener("focusout", () => {
    if (typedIn === null) return;
    left = new Set([...left, typedIn]);
    typedIn = null;
    look();
  });
  byId("editor").hidden = false;
  byId("bar").hidden = false;
  draw();
  void later();
}

const crew = openCrew();
const has = crew === null ? null : await known(crew);
byId("loading").hidden = true;
if (crew !== null && has !== null) run(crew, has);

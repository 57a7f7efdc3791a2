/** The set-up page as plain values: the stall's last answer, the unsaved edit, and what is open on the page. Pure. */

import { segments } from "../../../chat/fitting/segments.ts";
import type { Fault } from "../../../model/basics/faults.ts";
import type { PicturesView } from "../../../model/garment/picture.ts";
import type { OpenNeeds } from "../../../model/orders/open-needs.ts";
import type { StockView } from "../../../model/orders/stock.ts";
import { ordersWords } from "../crew/in-use.ts";
import { type Json, rowsAt, valueAt, withValue } from "../kit/json-pointer.ts";
import { type Collision, merge, same } from "../kit/merging.ts";
import type { Link } from "./copying.ts";
import { withField, without } from "./form/editing.ts";
import { currencyOf, type Field, idOf, readField } from "./form/field.ts";
import { nameAt, placeAsked } from "./form/names.ts";
import { isList, LISTS } from "./form/sections.ts";
import { type Change, changesOf } from "./saving/changes.ts";
import { checkMenu } from "./saving/checking.ts";
import type { Draft } from "./saving/keeping.ts";
import type { SaveOutcome } from "./saving/saving.ts";
import { type Looked, lookAt } from "./trying/looking.ts";

export type State = {
  /** The stall's last answer. */
  readonly name: string;
  readonly stock: StockView | null;
  readonly needs: OpenNeeds;
  readonly pictures: PicturesView["pictures"];
  /** Other stalls that this browser has the key of. */
  readonly others: readonly Link[];
  readonly draft: Draft;
  /** The field somebody is in, exactly as typed. */
  readonly typing: { readonly pointer: string; readonly text: string } | null;
  /** Fields that were typed in and left: faults of other fields are not shown yet. */
  readonly left: ReadonlySet<string>;
  /** A save was tried: all that is wrong is said. */
  readonly tried: boolean;
  /** What this edit would break, by the stall's answer. */
  readonly breaks: readonly Fault[];
  readonly saving: boolean;
  /** Changes somebody else saved during this edit, and the places that both changed. */
  readonly meanwhile: { readonly told: readonly Change[]; readonly collisions: readonly Collision[] } | null;
  /** The open rows, by key. */
  readonly open: ReadonlySet<string>;
  /** Lines typed beside the menu, by their element's id: names to add, a row to find, a link, a text to try. */
  readonly written: Readonly<Record<string, string>>;
  /** The results of acts, by the id of their place. */
  readonly said: Readonly<Record<string, string>>;
  /** The texts of the person trying the conversation. */
  readonly texts: readonly string[];
  readonly looked: Looked | null;
  readonly notice: string | null;
  /** Elements to move to, the first that is there. */
  readonly goto: readonly string[];
};

export function firstState(
  stall: Pick<State, "name" | "stock" | "needs" | "pictures" | "others">,
  draft: Draft,
): State {
  return {
    ...stall,
    draft,
    typing: null,
    left: new Set(),
    tried: false,
    breaks: [],
    saving: false,
    meanwhile: null,
    open: new Set(),
    written: {},
    said: {},
    texts: [],
    looked: null,
    notice: same(draft.base, draft.menu) ? null : "What was typed here before and not saved is still here.",
    goto: [],
  };
}

/** A row's key in its list, the same wherever the row moves. A press may be renamed. */
export function rowKey(menu: Json, at: string): string {
  const [, list, index] = at.split("/");
  return `${list} ${list === "presses" ? index : valueAt(menu, `${at}/id`)}`;
}

const edited = (state: State, menu: Json): State => ({
  ...state,
  draft: { ...state.draft, menu },
  notice: null,
  breaks: [],
});

/** A field as typed so far. */
export function typing(state: State, field: Field, text: string): State {
  const { pointer } = field;
  const { menu } = state.draft;
  const next = edited(state, withField(menu, pointer, readField(field, text, currencyOf(menu))));
  return { ...(state.typing?.pointer === pointer ? next : leaving(next)), typing: { pointer, text } };
}

/** A field with a value of its choices. */
export const chosen = (state: State, pointer: string, value: Json | undefined): State =>
  edited(state, withField(state.draft.menu, pointer, value));

/** The person leaves the field: its fault may be shown. */
export const leaving = (state: State): State =>
  state.typing === null
    ? state
    : { ...state, typing: null, left: new Set([...state.left, state.typing.pointer]) };

export const writing = (state: State, id: string, text: string): State => ({
  ...state,
  written: { ...state.written, [id]: text },
});

export const saying = (state: State, id: string, words: string): State => ({
  ...state,
  said: { ...state.said, [id]: words },
});

export function opening(state: State, key: string, isOpen: boolean): State {
  if (state.open.has(key) === isOpen) return state;
  const others = [...state.open].filter((one) => one !== key);
  return { ...state, open: new Set(isOpen ? [...others, key] : others) };
}

/** Moves to a place of the menu: its field, else its row, else its part of the page. The row opens, whatever was looked for. */
export function going(state: State, to: string): State {
  const pointer = placeAsked(state.draft.menu, to);
  const [, list, index] = pointer.split("/");
  const at = `#/${list}/${index}`;
  const goto = [idOf(pointer), `${idOf(pointer)}-add`, `${idOf(at)}-row`, `${list}-title`, "rules-title"];
  if (index === undefined || rowsAt(state.draft.menu, `#/${list}`)[Number(index)] === undefined)
    return { ...state, goto };
  return { ...opening(writing(state, `${list}-find`, ""), rowKey(state.draft.menu, at), true), goto };
}

/** Adds an entry to the end of a list. Its row opens, with the focus on its first field. */
export function added(state: State, list: string, entry: Json): State {
  const rows = [...rowsAt(state.draft.menu, list), entry];
  const next = edited(state, withValue(state.draft.menu, list, rows));
  const name = list.split("/").at(-1);
  const first = isList(name) ? LISTS[name].first : null;
  return first === null
    ? { ...next, goto: [`${idOf(list)}-add`] }
    : going(next, `${list}/${rows.length - 1}/${first}`);
}

/** An entry taken out, or off sale if open orders need it. */
export function removed(state: State, list: string, index: number): State {
  const { menu, kept } = without(state.draft.menu, list, index, state.needs);
  const next = { ...edited(leaving(state), menu), goto: [`${idOf(list)}-add`] };
  if (kept.length === 0) return { ...next, left: movedUp(next.left, list, index) };
  const called = nameAt(state.draft.menu, `${list}/${index}`);
  const orders = `${ordersWords(kept)} still ${kept.length === 1 ? "needs" : "need"} it.`;
  return { ...next, notice: `${called} is off sale but can’t be deleted yet: ${orders}` };
}

/** The places of the fields that were left, after an entry is removed. */
function movedUp(left: ReadonlySet<string>, list: string, index: number): ReadonlySet<string> {
  const moved = [...left].flatMap((pointer) => {
    if (!pointer.startsWith(`${list}/`)) return [pointer];
    const [at = "", ...rest] = pointer.slice(list.length + 1).split("/");
    if (Number(at) === index) return [];
    return [[list, Number(at) > index ? Number(at) - 1 : at, ...rest].join("/")];
  });
  return new Set(moved);
}

/** Replaces the typed menu: by a copied one, or by the saved one. */
export const begun = (state: State, menu: Json): State => ({
  ...edited(state, menu),
  typing: null,
  left: new Set(),
  tried: false,
});

/** Takes their value at a place that both changed. */
export function takenTheirs(state: State, collision: Collision): State {
  const { meanwhile } = state;
  const { menu } = state.draft;
  return {
    ...edited({ ...state, typing: null }, withValue(menu, collision.pointer, collision.theirs)),
    meanwhile: meanwhile && {
      ...meanwhile,
      collisions: meanwhile.collisions.filter((one) => one !== collision),
    },
  };
}

/** "One thing is", "3 things are". */
export const things = (count: number): string => (count === 1 ? "One thing is" : `${count} things are`);

/** Tapping Save shows every fault and leads to the first; without faults, the save begins. */
export function savingNow(state: State): State {
  const next = { ...leaving(state), tried: true };
  const { faults } = checkMenu(state.draft.menu);
  const [first] = faults;
  if (first === undefined) return { ...next, saving: true };
  const notice = `${things(faults.length)} still to fix before this can be saved. Nothing you typed is lost.`;
  return { ...going(next, first.pointer), notice };
}

/** The result of a save. Changes typed while it was sent stay. */
export function answered(before: State, sent: Json, outcome: SaveOutcome): State {
  const state = { ...before, saving: false };
  const { draft } = state;
  switch (outcome.came) {
    case "saved":
      return {
        ...state,
        draft: { base: sent, tag: outcome.tag, menu: draft.menu },
        tried: false,
        meanwhile: null,
        notice: null,
      };
    case "changed": {
      const { menu, collisions } = merge(draft.base, draft.menu, outcome.theirs);
      return {
        ...state,
        draft: { base: outcome.theirs, tag: outcome.tag, menu },
        typing: null,
        meanwhile: { told: changesOf(draft.base, outcome.theirs), collisions },
        goto: ["meanwhile"],
      };
    }
    case "faults":
      return {
        ...state,
        breaks: outcome.faults,
        notice:
          "The stall cannot take this as it is: what is in the way is listed below. Nothing was saved, nothing you typed is lost.",
      };
    case "unanswered":
      return {
        ...state,
        notice:
          "No connection, so it is not saved yet. It is kept in this browser; tap Save again when the signal is back.",
      };
    case "refused":
      return { ...state, notice: outcome.why };
    default:
      return outcome satisfies never;
  }
}

/** Works the conversation out from the menu as typed, if it can be used. */
export function looking(state: State, now: number): State {
  const { menu, faults } = checkMenu(state.draft.menu);
  return menu === null || faults.length > 0 ? state : { ...state, looked: lookAt(menu, { ...state, now }) };
}

/** A longer text costs its sender too much. */
const MOST_PARTS = 4;

/** Another text of the person trying the conversation; null starts the sample order again. */
export function texted(state: State, text: string | null, now: number): State {
  const { looked } = state;
  const words = text?.trim() ?? "";
  if (looked === null || (text !== null && (words === "" || segments(words).parts > MOST_PARTS)))
    return state;
  const next = text === null ? state : writing(state, "say-text", "");
  const texts = text === null ? [] : [...state.texts, words];
  return { ...next, texts, looked: lookAt(looked.menu, { ...state, texts, now }) };
}

/** The stall's verdict on an edit, if that edit is still current. */
export const tried = (state: State, asked: Json, breaks: readonly Fault[]): State =>
  state.draft.menu === asked ? { ...state, breaks } : state;

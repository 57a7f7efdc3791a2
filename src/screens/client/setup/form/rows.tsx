/** @jsxImportSource preact */
/** The rows of a part: shut until one is looked at, so that forty designs are a list and not a wall. */

import type { ComponentChildren } from "preact";
import { differenceWords, moneyWords } from "../../crew/words/money.ts";
import { rowsAt } from "../../kit/json-pointer.ts";
import { spelt } from "../../kit/spelling.ts";
import { Tap } from "../../parts/tap.tsx";
import { at, type FormContext, wordsAt } from "../actions.ts";
import { DesignPicture, OfferPicture } from "../pictures/picture.tsx";
import { opening, removed, rowKey, writing } from "../state.ts";
import { Choices } from "./choices.tsx";
import { Entries } from "./entry.tsx";
import { currencyOf, idOf } from "./field.ts";
import { Limits } from "./limits.tsx";
import { KIND_NAMES, LISTS } from "./sections.ts";
import { Takes } from "./takes.tsx";

/** A part of the menu that is a list: what its rows say shut, and hold open. */
export type List = "presses" | "blanks" | "designs" | "offers" | "bundles" | "wishes";

type RowProps = { readonly place: string; readonly desk: FormContext };

const howMany = (rows: readonly unknown[], one: string): string =>
  spelt(`${rows.length} ${rows.length === 1 ? one : `${one}s`}`);

function priceNote(place: string, desk: FormContext): string {
  const price = at(desk, `${place}/price`);
  return typeof price === "number" ? moneyWords(price, currencyOf(desk.state.draft.menu)) : "no price yet";
}

const NOTES: Readonly<Record<List, (place: string, desk: FormContext) => string>> = {
  presses: (place, desk) => `${wordsAt(desk, `${place}/platen`)} platen`,
  blanks: (place, { state }) =>
    (["colour", "size"] as const)
      .map((one) => howMany(rowsAt(state.draft.menu, `${place}/${one}s`), one))
      .join(", "),
  designs: (place, desk) => {
    const kind = wordsAt(desk, `${place}/kind`);
    const [width, height] = ["widthInches", "heightInches"].map(
      (side) => wordsAt(desk, `${place}/${side}`) || "?",
    );
    return `${width} × ${height} in, ${kind in KIND_NAMES ? KIND_NAMES[kind as keyof typeof KIND_NAMES] : kind}`; // checked beside it
  },
  offers: priceNote,
  bundles: priceNote,
  wishes: (place, desk) => {
    const more = at(desk, `${place}/surcharge`);
    return typeof more === "number" ? differenceWords(more, currencyOf(desk.state.draft.menu)) : "";
  },
};

/** The parts of a row beside its fields. */
const INSIDES: Readonly<Record<List, (props: RowProps) => ComponentChildren>> = {
  presses: () => null,
  wishes: () => null,
  bundles: ({ place, desk }) => <Takes bundle={place} desk={desk} />,
  blanks: ({ place, desk }) => (
    <>
      <Choices list="colours" blank={place} desk={desk} />
      <Choices list="sizes" blank={place} desk={desk} />
    </>
  ),
  designs: ({ place, desk }) => (
    <>
      <DesignPicture design={wordsAt(desk, `${place}/id`)} desk={desk} />
      <p class="small">
        Settings filled in by kind are common practice: check your supplier’s sheet, which wins. A platen
        burns on touch.
      </p>
    </>
  ),
  offers: ({ place, desk }) => (
    <>
      <Limits offer={place} desk={desk} />
      <OfferPicture offer={wordsAt(desk, `${place}/id`)} desk={desk} />
    </>
  ),
};

const titleOf = (list: List, place: string, desk: FormContext): string =>
  list === "presses" ? `Press ${wordsAt(desk, `${place}/id`)}` : wordsAt(desk, `${place}/name`);

const noteOf = (list: List, place: string, desk: FormContext): string =>
  [NOTES[list](place, desk), at(desk, `${place}/offered`) === false ? "off sale" : ""]
    .filter((part) => part !== "")
    .join(", ");

function Row({
  list,
  index,
  desk,
  hidden,
}: {
  list: List;
  index: number;
  desk: FormContext;
  hidden: boolean;
}) {
  const { state, shown, actions } = desk;
  const place = `#/${list}/${index}`;
  const key = rowKey(state.draft.menu, place);
  const isOpen = state.open.has(key);
  const title = titleOf(list, place, desk);
  const toMend = [...shown.faults.keys()].filter(
    (pointer) => pointer === place || pointer.startsWith(`${place}/`),
  ).length;
  return (
    <details
      class="entry"
      open={isOpen}
      hidden={hidden}
      onToggle={({ currentTarget: { open } }) => actions.change((before) => opening(before, key, open))}
    >
      <summary id={`${idOf(place)}-row`}>
        <b>{title === "" ? "(no name yet)" : title}</b>
        <span class="note"> {noteOf(list, place, desk)} </span>
        <span class="fault">
          {toMend === 0 ? "" : toMend === 1 ? "1 thing to fix" : `${toMend} things to fix`}
        </span>
      </summary>
      {isOpen ? (
        <div class="inside">
          <Entries fields={LISTS[list].fields(state.draft.menu, place)} desk={desk} />
          {INSIDES[list]({ place, desk })}
          <p>
            <Tap onTap={() => actions.change((before) => removed(before, `#/${list}`, index))}>
              Take “{title || "it"}” out
            </Tap>
          </p>
        </div>
      ) : null}
    </details>
  );
}

/** More rows than this are looked for by typing. */
const LOOKED_FOR = 8;

/** The rows, with a field to find one if there are many. */
export function Rows({ list, desk }: { readonly list: List; readonly desk: FormContext }) {
  const { state, actions } = desk;
  const { menu } = state.draft;
  const rows = rowsAt(menu, `#/${list}`);
  const isLong = rows.length > LOOKED_FOR;
  const find = `${list}-find`;
  const label = `Find among ${rows.length} ${list}`;
  const wanted = isLong ? (state.written[find] ?? "").trim().toLowerCase() : "";
  return (
    <>
      {isLong ? (
        <input
          type="search"
          id={find}
          aria-label={label}
          placeholder={label}
          value={state.written[find] ?? ""}
          onInput={({ currentTarget: { value } }) => actions.change((before) => writing(before, find, value))}
        />
      ) : null}
      <div id={list}>
        {rows.map((_, index) => {
          const place = `#/${list}/${index}`;
          const words = `${titleOf(list, place, desk)} ${noteOf(list, place, desk)}`;
          return (
            <Row
              key={rowKey(menu, place)}
              list={list}
              index={index}
              desk={desk}
              hidden={!words.toLowerCase().includes(wanted)}
            />
          );
        })}
      </div>
    </>
  );
}

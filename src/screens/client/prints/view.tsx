/** @jsxImportSource preact */
/** The sheets to print, of which the chosen one is shown. */

import { cautionsFor } from "../../../model/menu/cautions.ts";
import { dwellWords, pressesWords, temperature } from "../crew/words/settings.ts";
import { spelt } from "../kit/spelling.ts";
import { Garment } from "../parts/garment.tsx";
import { Tap } from "../parts/tap.tsx";
import { KIND_NAMES } from "../setup/form/sections.ts";
import {
  bundlesOf,
  closeness,
  type HandTag,
  notesOf,
  pricesOf,
  SHEETS,
  type Sheet,
  type State,
  sheetsOf,
  TAGS_A_SHEET,
  tagsOf,
} from "./state.ts";

/** The most garments on a price card. */
const MOST_SHOWN = 6;
/** The most lines on a tag; further ones are on the counter's screen. */
const MOST_LINES = 4;

const HEADS = ["Design", "Transfer", "Heat", "Dwell", "Pressure", "Peel", "Press", "Take care"];
const CARE = [
  "A platen at working heat burns on touch: keep the public and children out of reach.",
  "Never leave a press closed or unattended. Let fumes out.",
  "Cables off walkways and out of the wet; ground-fault protection outdoors.",
  "These settings are what the stall typed in. The supplier's sheet wins; local codes and licensed people decide on power, tents and fire cover.",
];

function PriceCard({ menu, looks, stall }: State) {
  const rows = pricesOf(menu);
  const bundles = bundlesOf(menu);
  return (
    <section class="stack sheet card" aria-labelledby="card-title">
      <h2 id="card-title">{stall}</h2>
      <div class="drawn-garments">
        {rows.slice(0, MOST_SHOWN).map(({ offer }) => (
          <Garment key={offer} look={looks.get(offer)} />
        ))}
      </div>
      <ol id="prices" class={`ruled larger ${closeness(rows.length + bundles.length)}`}>
        {rows.map(({ offer, number, name, comes, price }) => (
          <li key={offer}>
            <span>{number}</span>
            <span>
              {name}
              <br />
              <span class="small">{comes}</span>
            </span>
            <span>{price}</span>
          </li>
        ))}
        {bundles.map(({ bundle, name, of, others, price }) => (
          <li key={bundle}>
            <span />
            <span>
              {name}
              <br />
              <span class="small">{of}</span>
              {others.map((other) => (
                <span key={other.language} lang={other.language} class="small">
                  <br />
                  {`${other.name}: ${other.of}`}
                </span>
              ))}
            </span>
            <span>{price}</span>
          </li>
        ))}
      </ol>
      {notesOf(menu).map((note) => (
        <p key={note}>{note}</p>
      ))}
    </section>
  );
}

function CrewSheet({ menu, stall }: State) {
  const designs = menu.designs.filter(({ offered }) => offered);
  return (
    <section class="stack sheet" aria-labelledby="sheet-title">
      <h2 id="sheet-title">{stall}: settings</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways is reached by key */}
      <section class="wide" tabIndex={0} aria-label="Settings of every design">
        <table id="settings" class={closeness(designs.length)}>
          <thead>
            <tr>
              {HEADS.map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {designs.map((design) => {
              const { id, name, kind, widthInches, heightInches, placement, settings } = design;
              const blanks = menu.offers.flatMap((offer) =>
                offer.design === id ? menu.blanks.filter((one) => one.id === offer.blank) : [],
              );
              // Cautions common to every platen are printed once, below.
              const cautions = [...new Set(blanks.flatMap((blank) => cautionsFor(blank, design)))].filter(
                (one) => !one.startsWith("Hot platen"),
              );
              return (
                <tr key={id}>
                  <th scope="row">{name}</th>
                  <td>
                    {`${KIND_NAMES[kind]}, ${widthInches} × ${heightInches} in${placement === undefined ? "" : `, ${placement}`}`}
                  </td>
                  <td>{temperature(settings.temperatureFahrenheit)}</td>
                  <td>{dwellWords(settings)}</td>
                  <td>{settings.pressure}</td>
                  <td>{`${settings.peel} peel`}</td>
                  <td>{pressesWords(settings)}</td>
                  <td>{spelt(cautions.join(" "))}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
      <h3>Every time</h3>
      <ul class="bullets">
        {CARE.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </section>
  );
}

function Tag({ tag, stall }: { readonly tag: HandTag | null; readonly stall: string }) {
  const more = (tag?.garments.length ?? 0) - MOST_LINES;
  return (
    <li class={tag === null ? "stack tight hand-tag unwritten" : "stack tight hand-tag"}>
      <p class="small">{stall}</p>
      <div class="row apart">
        <p class="number-big">{tag?.number ?? "No."}</p>
        <p class="tag-word larger">{tag === null ? "Word" : tag.word}</p>
      </div>
      <ul>
        {(tag?.garments.slice(0, MOST_LINES) ?? ["×", "×", "×"]).map((garment, at) => (
          <li key={at}>{garment}</li>
        ))}
        {more > 0 ? <li>{`and ${more} more`}</li> : null}
      </ul>
      {tag?.toText === undefined ? null : <p class="small">{tag.toText}</p>}
    </li>
  );
}

const BLANK: readonly null[] = Array.from({ length: TAGS_A_SHEET }, () => null);

function TagSheets({ tags, kind, stall }: { tags: readonly (HandTag | null)[]; kind: Sheet; stall: string }) {
  return (
    <section class={`sheet ${kind}`} aria-label={SHEETS.find(([id]) => id === kind)?.[1]}>
      {tags.length === 0 ? <p>No open order has a number from there on.</p> : null}
      {(kind === "strip" ? [tags] : sheetsOf(tags)).map((group, at) => (
        <ul key={at} class="tiles hand-tags">
          {group.map((tag, nth) => (
            <Tag key={tag?.number ?? nth} tag={tag} stall={stall} />
          ))}
        </ul>
      ))}
    </section>
  );
}

export type Actions = {
  readonly choose: (sheet: Sheet) => void;
  readonly from: (number: string) => void;
  readonly print: () => void;
};

export function Prints({ state, actions }: { readonly state: State; readonly actions: Actions }) {
  const { sheet, from, stall } = state;
  const tags = tagsOf(state);
  return (
    <>
      <div class="row end no-print">
        <fieldset class="row" aria-label="What to print">
          {SHEETS.map(([id, name]) => (
            <Tap key={id} id={`print-${id}`} pressed={sheet === id} onTap={() => actions.choose(id)}>
              {name}
            </Tap>
          ))}
        </fieldset>
        {sheet === "tags" || sheet === "strip" ? (
          <div class="from">
            <label for="from">From number</label>
            <input
              id="from"
              inputMode="numeric"
              value={from}
              onInput={({ currentTarget }) => actions.from(currentTarget.value)}
            />
          </div>
        ) : null}
        <Tap class="main" id="print" onTap={actions.print}>
          Print
        </Tap>
      </div>
      {sheet === "card" ? <PriceCard {...state} /> : null}
      {sheet === "crew" ? <CrewSheet {...state} /> : null}
      {sheet === "card" || sheet === "crew" ? null : (
        <TagSheets tags={sheet === "blank" ? BLANK : tags} kind={sheet} stall={stall} />
      )}
    </>
  );
}

/** @jsxImportSource preact */
/** The board: ready orders on two thirds, orders in the making and in line on one third. */
import { Garment } from "../parts/garment.tsx";
import { type Shown, type State, shownOf } from "./state.ts";

type NumbersProps = {
  readonly id: string;
  readonly heading: string;
  readonly numbers: readonly number[];
  readonly kind: string;
  readonly fresh?: readonly number[];
};

function Numbers({ id, heading, numbers, kind, fresh = [] }: NumbersProps) {
  return (
    <>
      <h2 id={`${id}-heading`}>{heading}</h2>
      <ol id={id} class="row numbers" aria-labelledby={`${id}-heading`}>
        {numbers.map((number) => (
          <li key={number} class={`${kind}${fresh.includes(number) ? " fresh" : ""}`}>
            {number}
          </li>
        ))}
      </ol>
    </>
  );
}

function All({ shown, fresh }: { readonly shown: Shown; readonly fresh: readonly number[] }) {
  const { ready, making, waiting, more } = shown;
  return (
    <>
      <section class="part-ready" style={{ "--digits": `${shown.readyPixels}px` }}>
        <Numbers id="ready" heading="Ready" numbers={ready} kind="ready" fresh={fresh} />
        {ready.length === 0 ? <p class="larger">Nothing is ready yet.</p> : null}
      </section>
      <section class="part-line" style={{ "--digits": `${shown.linePixels}px` }}>
        {making.length === 0 ? null : (
          <Numbers id="making" heading="On the press" numbers={making} kind="making" />
        )}
        {waiting.length + more === 0 ? null : (
          <Numbers id="waiting" heading="In line" numbers={waiting} kind="waiting" />
        )}
        <p id="more" class="larger" hidden={more === 0}>
          {more === 0 ? "" : `and ${more} more`}
        </p>
      </section>
    </>
  );
}

export function Board({ state }: { readonly state: State }) {
  const shown = shownOf(state);
  const { trouble, board, fresh, garments } = state;
  return (
    <>
      <p id="trouble" class="notice" role="alert" hidden={trouble === null}>
        {trouble ?? ""}
      </p>
      {shown === null ? null : <All shown={shown} fresh={fresh} />}
      {shown !== null || board === null ? null : (
        <section class="idle">
          <p id="nothing" class="figure">
            Made to order while you wait.
          </p>
          <div class="drawn-garments">
            {garments.map(({ look, colour }) => (
              <Garment key={look.design} look={look} colour={colour} />
            ))}
          </div>
        </section>
      )}
      <p id="called" class="offstage" role="status">
        {fresh.length === 0 ? "" : `Ready: ${fresh.join(", ")}`}
      </p>
    </>
  );
}

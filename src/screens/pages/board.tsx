/** The pickup board: numbers and their states, to be read from five metres away. */
import { Freshness, Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

export function BoardPage({ fair, stall }: Place) {
  return (
    <Page title="Pickup board" screen="board" data={{ fair, stall }}>
      <header class="top">
        <h1 id="stall-name">{stall}</h1>
        <button id="sound" type="button" class="no-print">
          Turn sound on
        </button>
        <Freshness />
      </header>
      <main>
        <p id="trouble" class="notice" role="alert" hidden></p>
        <p id="nothing" hidden>
          No orders waiting. Order at the counter or by text.
        </p>
        <ol id="numbers" aria-label="Pickup numbers"></ol>
        <p id="more" hidden></p>
      </main>
      <p id="called" class="offstage" role="status"></p>
    </Page>
  );
}

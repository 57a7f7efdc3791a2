/** The pickup board: numbers and their states, to be read from five metres away. */
import { AppBar, NightSwitch } from "../parts/app-bar.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

export function BoardPage({ fair, stall }: Place) {
  return (
    <Page title="Pickup board" screen="board" data={{ fair, stall }}>
      <AppBar title={stall} titleId="stall-name" asks>
        <button id="sound" type="button">
          Turn sound on
        </button>
        <NightSwitch />
        <a class="button" href={`/at/${fair}/${stall}`}>
          Order
        </a>
      </AppBar>
      <main id="main" tabindex={-1}>
        <p id="trouble" class="notice" role="alert" hidden></p>
        <p id="nothing" hidden>
          No orders waiting. Order at the counter or by text.
        </p>
        <div id="garments" class="drawn-garments" hidden></div>
        <ol id="numbers" aria-label="Pickup numbers"></ol>
        <p id="more" hidden></p>
      </main>
      <p id="called" class="offstage" role="status"></p>
    </Page>
  );
}

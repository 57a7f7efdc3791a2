/** A page to count people with one thumb: how many walk past while somebody watches. */
import { AppBar } from "../parts/app-bar.tsx";
import { AccountNotices } from "../parts/closeout-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

export function PassersByPage({ fair, stall }: Place) {
  return (
    <Page title="Passers-by" screen="passers-by" shares={["crew"]} data={{ fair, stall }}>
      <AppBar title="Foot traffic" crew={{ fair, stall, here: "Foot traffic" }} />
      <main id="main" tabindex={-1}>
        <AccountNotices />
        <div id="watch" class="stack watch" hidden>
          <p id="how">
            Stand at the stall and tap once for everyone who walks past. Ten minutes of every hour is plenty.
          </p>
          <p class="large" aria-live="off">
            <span id="seen" class="number-big">
              0
            </span>{" "}
            people in <span id="watched">0:00</span>
          </p>
          <button id="one" class="main plus" type="button">
            + one
          </button>
          <div class="row">
            <button id="less" type="button">
              − one
            </button>
            <button id="done" type="button">
              Save count
            </button>
            <button id="drop" type="button">
              Discard count
            </button>
          </div>
          <p id="so-far" role="status"></p>
        </div>
      </main>
    </Page>
  );
}

/** The press screen's shell: one garment, large, and the taps that say what became of it. */
import type { Child } from "hono/jsx";
import { AppBar } from "../parts/app-bar.tsx";
import { CrewNotices } from "../parts/crew-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";
import { PauseDialog, SpoilDialog, StockDialog } from "../parts/press-dialogs.tsx";
import { LastOrders, Shift } from "../parts/press-shift.tsx";

function Tap({ part, main = false, children }: { part: string; main?: true | false; children?: Child }) {
  return (
    <button type="button" data-part={part} class={main ? "main" : undefined} hidden>
      {children}
    </button>
  );
}

/** One press: its tag, what the last tap came to, and the taps, which stay at the bottom whatever the tag holds. */
function Bench({ place }: { place: 0 | 1 }) {
  return (
    <div id={`bench-${place}`} class="bench" hidden>
      <section class="tag" aria-label="On this press">
        {/* It can scroll on a low screen, so the keyboard has to reach it. */}
        <div data-part="tag" class="tag-body" tabindex={0}></div>
      </section>
      <div class="dock">
        <div data-part="last" class="last" hidden>
          <p data-part="last-what" role="status"></p>
          <Tap part="last-undo">Undo</Tap>
          <Tap part="last-spoiled">It was spoiled…</Tap>
        </div>
        <div class="taps">
          <Tap part="pull" main>
            Pull the next
          </Tap>
          <Tap part="works-again">It works again</Tap>
          <Tap part="dwell" />
          <Tap part="pressed-next" main>
            Pressed, next
          </Tap>
          <Tap part="pressed">Pressed</Tap>
          <Tap part="spoiled">Spoiled…</Tap>
          <Tap part="give-back">Give back</Tap>
        </div>
      </div>
    </div>
  );
}

const TABS = [
  ["stock", "Stock"],
  ["presses", "Presses"],
  ["shift", "Shift"],
] as const;

function Panel({ name, children }: { name: (typeof TABS)[number][0]; children?: Child }) {
  return (
    <div
      id={`panel-${name}`}
      class="panel"
      role="tabpanel"
      aria-labelledby={`tab-${name}`}
      hidden={name !== "stock"}
    >
      {children}
    </div>
  );
}

function Side() {
  return (
    <aside class="side" aria-label="The rest of the stall">
      <div class="ahead">
        <h2>Up next</h2>
        <ol id="up-next" class="up-next"></ol>
        <details id="problems" class="problems">
          <summary id="problems-say">No problems</summary>
          <ul id="problems-list"></ul>
        </details>
      </div>
      <div class="tabs">
        <div id="tabs" role="tablist" aria-label="More of the stall">
          {TABS.map(([name, label], index) => (
            <button
              id={`tab-${name}`}
              type="button"
              role="tab"
              aria-selected={index === 0 ? "true" : "false"}
              aria-controls={`panel-${name}`}
              tabindex={index === 0 ? 0 : -1}
            >
              {label}
            </button>
          ))}
        </div>
        <Panel name="stock">
          <ul id="low" class="rows"></ul>
          <div id="off-part" hidden>
            <h3>Not sold now</h3>
            <ul id="off" class="rows"></ul>
          </div>
          <button id="stock-open" type="button">
            Count or add stock…
          </button>
        </Panel>
        <Panel name="presses">
          <ul id="others" class="stubs presses"></ul>
        </Panel>
        <Panel name="shift">
          <Shift />
        </Panel>
      </div>
    </aside>
  );
}

export function PressPage({ fair, stall }: Place) {
  return (
    <Page title="Press" screen="press" shares={["crew", "press-side"]} data={{ fair, stall }}>
      <AppBar title="Press" titleId="title" asks crew={{ fair, stall, here: "Press" }}>
        <button id="pause-open" type="button">
          Pause…
        </button>
      </AppBar>
      <main id="main" tabindex={-1}>
        <div class="strip">
          <p class="counts">
            <span id="counts"></span> <span id="texts-rest" hidden></span>
          </p>
          <CrewNotices />
        </div>
        <div id="paused" class="notice needs-you" role="status" hidden>
          <p id="paused-why"></p>
          <button id="resume" type="button">
            Take orders again
          </button>
        </div>
        <LastOrders />
        <section id="choose" class="choose" hidden>
          <h2>Which press does this tablet stand at?</h2>
          <div id="presses" class="row"></div>
        </section>
        <div id="floor" class="floor" hidden>
          <div class="benches">
            <Bench place={0} />
            <Bench place={1} />
          </div>
          <Side />
        </div>
      </main>
      <SpoilDialog />
      <PauseDialog />
      <StockDialog />
    </Page>
  );
}

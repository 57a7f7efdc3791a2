/** The press screen's shell: one garment, large, and the taps that say what became of it. */
import { AppBar } from "../parts/app-bar.tsx";
import { CrewNotices } from "../parts/crew-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";
import { PauseDialog, SpoilDialog, StockDialog } from "../parts/press-dialogs.tsx";
import { LastOrders, Shift } from "../parts/press-shift.tsx";

function Taps() {
  return (
    <div class="taps">
      <button id="pull" class="main" type="button" hidden>
        Pull the next
      </button>
      <button id="works-again" class="main" type="button" hidden>
        It works again
      </button>
      <button id="dwell" type="button" hidden></button>
      <button id="pressed" class="main" type="button" hidden>
        Pressed
      </button>
      <button id="spoiled" type="button" hidden>
        Spoiled…
      </button>
      <button id="give-back" type="button" hidden>
        Give back
      </button>
    </div>
  );
}

function LastTap() {
  return (
    <div id="last" class="last" hidden>
      <p id="last-what" role="status"></p>
      <button id="last-undo" type="button">
        Undo
      </button>
      <button id="last-spoiled" type="button">
        It was spoiled…
      </button>
    </div>
  );
}

function Rest() {
  return (
    <aside class="rest" aria-label="The rest of the stall">
      <p id="counts" class="counts"></p>
      <p id="texts-rest" class="counts" hidden></p>
      <p id="call-out" class="counts" hidden></p>
      <section id="short-part" hidden>
        <h2>Short: no blank or no transfer</h2>
        <ol id="short" class="stubs"></ol>
      </section>
      <section>
        <h2>Coming</h2>
        <ol id="coming" class="stubs"></ol>
        <p id="coming-more"></p>
        <p id="reserve-say"></p>
        <button id="reserve" type="button"></button>
      </section>
      <section>
        <h2>Runs out first</h2>
        <ul id="low" class="stubs"></ul>
        <div id="off-part" hidden>
          <h2>Off the menu</h2>
          <ul id="off" class="stubs"></ul>
        </div>
        <button id="stock-open" type="button">
          Count or add stock…
        </button>
      </section>
      <section id="others-part" hidden>
        <h2>Other presses</h2>
        <ul id="others" class="stubs"></ul>
      </section>
      <Shift />
      <p id="web-say"></p>
      <button id="web" type="button"></button>
    </aside>
  );
}

export function PressPage({ fair, stall }: Place) {
  return (
    <Page title="Press" screen="press" shares={["crew"]} data={{ fair, stall }}>
      <AppBar title="Press" titleId="title" asks crew={{ fair, stall, here: "Press" }}>
        <button id="pause-open" type="button">
          Pause…
        </button>
        <button id="change" type="button" hidden>
          Presses
        </button>
        <a class="button" href={`/crew/${fair}/${stall}/counter`}>
          Counter
        </a>
      </AppBar>
      <main id="main" tabindex={-1}>
        <CrewNotices />
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
          <div class="bench">
            <section id="tag" class="tag" aria-label="On this press"></section>
            <Taps />
            <LastTap />
          </div>
          <Rest />
        </div>
      </main>
      <SpoilDialog />
      <PauseDialog />
      <StockDialog />
    </Page>
  );
}

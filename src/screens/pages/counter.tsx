/** The counter's shell: taking an order for someone without a phone, payment, and handing over. */
import { AppBar } from "../parts/app-bar.tsx";
import { FindOrder, OrderDesk, TENDERS } from "../parts/counter-desk.tsx";
import { CrewNotices } from "../parts/crew-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

function Pad() {
  return (
    <div class="pad">
      <fieldset id="offers" class="choices"></fieldset>
      <fieldset id="colours" class="choices"></fieldset>
      <fieldset id="sizes" class="choices"></fieldset>
      <div class="row">
        <span id="quantity-label">How many</span>
        <button id="fewer" type="button" aria-label="One fewer">
          −
        </button>
        <output id="quantity" aria-labelledby="quantity-label">
          1
        </output>
        <button id="more" type="button" aria-label="One more">
          +
        </button>
        <button id="add" class="main" type="button">
          Add to the slip
        </button>
      </div>
      <p id="stock-age" role="status" hidden>
        No signal: these counts are what this tablet saw last, less what it took since. They may be out of
        date.
      </p>
      <p id="pad-missing" role="alert"></p>
    </div>
  );
}

function Slip() {
  return (
    <section class="slip" aria-labelledby="slip-title">
      <h2 id="slip-title">The slip</h2>
      <ol id="lines" class="lines"></ol>
      <dl id="sums" class="sums"></dl>
      <label for="name">First name or initials, if they like</label>
      <input id="name" autocomplete="off" maxlength={40} />
      <details id="paper">
        <summary>This order was taken on paper</summary>
        <p>For slips written while there was no power: number them from 900 to 999 and write the time.</p>
        <div class="pair">
          <div>
            <label for="paper-number">Number on the slip</label>
            <input id="paper-number" inputmode="numeric" autocomplete="off" maxlength={3} />
          </div>
          <div>
            <label for="paper-time">Time on the slip</label>
            <input id="paper-time" type="time" />
          </div>
        </div>
      </details>
      <p id="slip-missing" role="alert"></p>
      <div id="take-it" class="take-it">
        <div id="slip-pay" hidden>
          <label for="slip-given">Cash given</label>
          <input id="slip-given" inputmode="decimal" autocomplete="off" maxlength={24} />
          <p id="slip-change" role="status"></p>
          <div class="row">
            {TENDERS.map(([tender, label]) => (
              <button class="main" type="button" data-take={tender} disabled>
                Paid: {label}
              </button>
            ))}
          </div>
        </div>
        <button id="place" type="button" disabled>
          Take the order
        </button>
      </div>
    </section>
  );
}

export function CounterPage({ fair, stall }: Place) {
  return (
    <Page title="Counter" screen="counter" shares={["crew"]} data={{ fair, stall }}>
      <AppBar title="Counter" asks crew={{ fair, stall, here: "Counter" }}>
        <button id="to-take" type="button" aria-pressed="true">
          New order
        </button>
        <button id="to-desk" type="button" aria-pressed="false">
          Orders
        </button>
        <a class="button" href={`/crew/${fair}/${stall}`}>
          Press
        </a>
      </AppBar>
      <main id="main" tabindex={-1}>
        <CrewNotices />
        <p id="closed" class="notice" role="status" hidden></p>
        <p id="texts-rest" class="notice" role="status" hidden></p>
        <section id="unpaid" class="notice" role="alert" hidden>
          <ul id="unpaid-list" class="kept-taps"></ul>
        </section>
        <section id="saved" class="notice saved" aria-labelledby="saved-title" hidden>
          <h2 id="saved-title">Orders saved on this tablet</h2>
          <ol id="saved-orders" class="kept-taps"></ol>
          <p id="saved-sent" role="status"></p>
          <button id="saved-seen" type="button">
            Seen
          </button>
        </section>
        <FindOrder />
        <div id="take" class="take">
          <Pad />
          <Slip />
        </div>
        <OrderDesk />
      </main>
    </Page>
  );
}

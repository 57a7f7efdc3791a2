/** The fair at a glance: which stall is swamped, idle, out of stock, or has gone quiet. */
import { AppBar, NightSwitch } from "../parts/app-bar.tsx";
import { Page } from "../parts/layout.tsx";

const QUARTER_COLUMNS = [
  "Orders in",
  "Garments pressed",
  "Orders handed over",
  "Orders dropped",
  "Asks unmet",
  "Still to press",
];

/** The pace by the quarter of an hour: the chart, and the table with the same figures. */
function Quarters() {
  return (
    <div>
      <div class="heading">
        <h2 id="pace-heading">Pace, by 15 minutes</h2>
        <button id="all-stalls" type="button" class="no-print" hidden>
          Show all stalls
        </button>
      </div>
      <p id="chosen-ways" class="row no-print" hidden>
        {["Board", "Order page", "Poster"].map((way) => (
          <a class="button" href="/">
            {way}
          </a>
        ))}
      </p>
      <p id="no-quarters" hidden>
        Nothing happened in this time.
      </p>
      <div id="quarters">
        <ul class="key" aria-hidden="true">
          <li class="hollow">orders in</li>
          <li class="solid">garments pressed</li>
          <li class="thick line">garments still to press</li>
        </ul>
        <div
          id="chart"
          class="chart"
          role="img"
          aria-label="Chart of orders in, garments pressed and garments still to press. The table below has the same figures."
        ></div>
        <p id="clock"></p>
        <section class="wide tall" tabindex={0} aria-labelledby="pace-heading">
          <table id="buckets" aria-describedby="clock">
            <thead>
              <tr>
                <th scope="col">From</th>
                {QUARTER_COLUMNS.map((heading) => (
                  <th scope="col" class="number">
                    {heading}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody></tbody>
          </table>
        </section>
      </div>
    </div>
  );
}

export function OrganiserPage({ fair }: { readonly fair: string }) {
  return (
    <Page title="Fair" screen="organiser" shares={["uplot"]} data={{ fair }}>
      <AppBar title={fair} titleId="fair-name" asks>
        <a class="button" href={`/fair/${fair}/keys`}>
          Hours, stalls, keys
        </a>
        <NightSwitch />
      </AppBar>
      <main id="main" tabindex={-1}>
        <p id="trouble" class="notice" role="alert" hidden></p>
        <div id="account" hidden>
          <div class="no-print">
            <h2 id="glance-heading">Who needs a look now</h2>
            <dl id="glance"></dl>
          </div>
          <div>
            <div class="heading">
              <h2 id="of-when">Today</h2>
              <label class="no-print" for="when">
                Show
              </label>
              <select id="when" class="no-print">
                <option value="today">Today</option>
              </select>
            </div>
            <div id="total">
              <dl id="five" class="figures-row"></dl>
              <details>
                <summary class="no-print">More figures</summary>
                <dl id="further" class="figures-row"></dl>
              </details>
            </div>
            <p class="acts row no-print">
              <button id="print" type="button">
                Print this sheet
              </button>
              <button id="sheet-stall" type="button">
                Stalls as a csv file
              </button>
              <button id="sheet-quarter" type="button">
                Quarter-hours as a csv file
              </button>
            </p>
          </div>
          <div>
            <div class="heading">
              <h2 id="stalls-heading">Stalls</h2>
              <button
                id="more-columns"
                type="button"
                class="no-print"
                aria-pressed="false"
                aria-controls="stalls"
              >
                More columns
              </button>
            </div>
            <p class="no-print">
              Tap a heading to sort by it. Tap a stall for its pace, its board, its order page and its poster.
            </p>
            <section class="wide" tabindex={0} aria-labelledby="stalls-heading">
              <table id="stalls">
                <caption class="offstage">One row a stall. A heading's button sorts by it.</caption>
                <thead></thead>
                <tbody></tbody>
              </table>
            </section>
          </div>
          <Quarters />
        </div>
      </main>
    </Page>
  );
}

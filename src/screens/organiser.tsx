/** The fair at a glance: which stall is swamped, idle, out of stock, or has gone quiet. */
import { Freshness, Page } from "./layout.tsx";

export function OrganiserPage({ fair }: { readonly fair: string }) {
  return (
    <Page title="Fair" screen="organiser" shares={["uplot"]} data={{ fair }}>
      <header class="top">
        <h1 id="fair-name">{fair}</h1>
        <Freshness />
      </header>
      <main>
        <p id="trouble" class="notice" role="alert" hidden></p>
        <div id="account" hidden>
          <div>
            <h2 id="glance-heading">Who needs a look</h2>
            <dl id="glance"></dl>
            <dl id="total"></dl>
          </div>
          <div>
            <h2 id="stalls-heading">Stalls</h2>
            <section class="wide" tabindex={0} aria-labelledby="stalls-heading">
              <table id="stalls">
                <caption class="offstage">One row a stall. A heading's button sorts by it.</caption>
                <thead></thead>
                <tbody></tbody>
              </table>
            </section>
          </div>
          <div>
            <h2 id="pace-heading">Pace, by 15 minutes</h2>
            <ul class="key" aria-hidden="true">
              <li class="orders">orders in</li>
              <li class="garments">garments pressed</li>
              <li class="backlog">garments still to press</li>
            </ul>
            <div
              id="chart"
              role="img"
              aria-label="Chart of orders in, garments pressed and garments still to press. The table below has the same figures."
            ></div>
            <p id="clock"></p>
            <section class="wide tall" tabindex={0} aria-labelledby="pace-heading">
              <table id="buckets" aria-describedby="clock">
                <thead>
                  <tr>
                    <th scope="col">From</th>
                    <th scope="col" class="number">
                      Orders in
                    </th>
                    <th scope="col" class="number">
                      Garments pressed
                    </th>
                    <th scope="col" class="number">
                      Orders handed over
                    </th>
                    <th scope="col" class="number">
                      Still to press
                    </th>
                  </tr>
                </thead>
                <tbody></tbody>
              </table>
            </section>
          </div>
        </div>
      </main>
    </Page>
  );
}

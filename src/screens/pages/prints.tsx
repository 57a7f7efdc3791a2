/** The price card and the crew's sheet, each to be printed on one page. */
import { AppBar } from "../parts/app-bar.tsx";
import { CrewNotices } from "../parts/crew-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

const HEADS = ["Design", "Transfer", "Heat", "Dwell", "Pressure", "Peel", "Press", "Take care"];

const CARE = [
  "A platen at working heat burns on touch: keep the public and children out of reach.",
  "Never leave a press closed or unattended. Let fumes out.",
  "Cables off walkways and out of the wet; ground-fault protection outdoors.",
  "These settings are what the stall typed in. The supplier's sheet wins; local codes and licensed people decide on power, tents and fire cover.",
];

export function PrintsPage({ fair, stall }: Place) {
  return (
    <Page title="To print" screen="prints" shares={["crew"]} data={{ fair, stall, prints: "card" }}>
      <AppBar title="Print" crew={{ fair, stall, here: "Print" }}>
        <button id="print-card" type="button" class="main">
          Price card
        </button>
        <button id="print-crew" type="button">
          Crew's sheet
        </button>
        <a class="button" href={`/at/${fair}/${stall}/poster`}>
          Poster
        </a>
      </AppBar>
      <main id="main" tabindex={-1}>
        <CrewNotices />
        <div id="sheets" hidden>
          <section class="sheet card" aria-labelledby="card-title">
            <h2 id="card-title" class="stall-name">
              {stall}
            </h2>
            <div id="card-garments" class="drawn-garments"></div>
            <ol id="prices"></ol>
            <p id="tax"></p>
          </section>
          <section class="sheet crew-sheet" aria-labelledby="sheet-title">
            <h2 id="sheet-title">
              <span class="stall-name">{stall}</span>: settings
            </h2>
            <section class="across" tabindex={0} aria-label="Settings of every design">
              <table id="settings">
                <thead>
                  <tr>
                    {HEADS.map((head) => (
                      <th scope="col">{head}</th>
                    ))}
                  </tr>
                </thead>
                <tbody id="settings-rows"></tbody>
              </table>
            </section>
            <h3>Every time</h3>
            <ul class="care">
              {CARE.map((one) => (
                <li>{one}</li>
              ))}
            </ul>
          </section>
        </div>
      </main>
    </Page>
  );
}

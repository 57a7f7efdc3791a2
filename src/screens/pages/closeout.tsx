/** The close-out's shell: one day's account, on one sheet of paper where it is printed. */
import { AppBar } from "../parts/app-bar.tsx";
import {
  AccountNotices,
  CloseStep,
  CountStep,
  DayDialogs,
  LoadStall,
  SaveStall,
  WhichDay,
} from "../parts/closeout-parts.tsx";
import { Page } from "../parts/layout.tsx";
import { MovedAway } from "../parts/moved-away.tsx";
import type { Place } from "../parts/place.ts";

/** A table whose rows the script fills. */
function Figures({ id, title, headings }: { id: string; title: string; headings: readonly string[] }) {
  return (
    <div class="figures" id={`${id}-part`}>
      <h3 id={`${id}-title`}>{title}</h3>
      <section class="wide" tabindex={0} aria-labelledby={`${id}-title`}>
        <table id={id}>
          <thead>
            <tr>
              {headings.map((heading, at) => (
                <th scope="col" class={at === 0 ? "" : "number"}>
                  {heading}
                </th>
              ))}
            </tr>
          </thead>
          <tbody></tbody>
        </table>
      </section>
    </div>
  );
}

const PIECES = [
  "Began with",
  "Delivered",
  "Corrected",
  "Pressed",
  "Spoiled",
  "Expected",
  "Counted",
  "Missing",
  "Worth next time",
];
const SOLD = ["Garments", "Sold for"];

export function CloseoutPage({ fair, stall }: Place) {
  return (
    <Page title="Close-out" screen="closeout" shares={["crew"]} data={{ fair, stall }}>
      <AppBar title="Close-out" titleId="title" crew={{ fair, stall, here: "Close-out" }} />
      <main id="main" tabindex={-1}>
        <AccountNotices />
        <div id="account" hidden>
          <WhichDay />
          <CountStep stock={`/crew/${fair}/${stall}/stock`} />
          <section class="no-print" aria-labelledby="costs-title">
            <h2 id="costs-title">2 Costs</h2>
            <p>Kept with this day. The next day begins with them.</p>
            <form id="costs"></form>
          </section>
          <h2 class="no-print" id="check">
            3 Check
          </h2>
          <p id="unpriced" class="notice no-print" hidden></p>
          <dl id="glance" class="figures-row"></dl>
          <div class="sheet">
            <section class="figures" aria-labelledby="money-title">
              <h3 id="money-title">Money</h3>
              <table id="money">
                <tbody></tbody>
              </table>
            </section>
            <Figures id="offers" title="Sold, by offer" headings={["Offer", ...SOLD]} />
            <Figures id="sizes" title="By size" headings={["Size", ...SOLD]} />
            <Figures id="colours" title="By colour" headings={["Colour", ...SOLD]} />
            <Figures id="hours" title="By hour" headings={["From", "Orders", ...SOLD]} />
            <Figures
              id="tenders"
              title="Taken, tax included"
              headings={["How", "Payments", "Taken", "Given back"]}
            />
            <Figures id="sold-out" title="Sold out" headings={["What", "Since", "Asked for after that"]} />
            <Figures id="waste" title="Waste" headings={["What", "Pieces"]} />
          </div>
          <Figures id="skus" title="Blanks" headings={["Blank", ...PIECES]} />
          <Figures id="transfers" title="Transfers" headings={["Transfer", ...PIECES]} />
          <p class="row no-print">
            <button id="print" type="button">
              Print
            </button>
            <button id="save-sheet" type="button">
              Save as a table
            </button>
          </p>
          <CloseStep />
          <SaveStall />
          <MovedAway />
        </div>
        <LoadStall />
      </main>
      <DayDialogs />
    </Page>
  );
}

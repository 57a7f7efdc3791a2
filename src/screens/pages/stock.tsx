/** The stock grid's shell. */
import { AppBar } from "../parts/app-bar.tsx";
import { CrewNotices } from "../parts/crew-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

export function StockPage({ fair, stall }: Place) {
  const crew = `/crew/${fair}/${stall}`;
  return (
    <Page title="Stock" screen="stock" shares={["crew"]} data={{ fair, stall }}>
      <AppBar title="Count" crew={{ fair, stall, here: "Count" }} />
      <main id="main" tabindex={-1}>
        <CrewNotices />
        <p id="loading" role="status">
          Fetching the stock…
        </p>
        <p id="no-menu" hidden>
          There is no menu yet, and so nothing to count. <a href={`${crew}/setup`}>Set the stall up first.</a>
        </p>
        <div id="stock" hidden>
          <fieldset class="way">
            <legend>What you type is</legend>
            <label>
              <input id="counted" type="radio" name="way" value="counted" checked /> a count: all that is not
              pressed yet
            </label>
            <label>
              <input id="delivered" type="radio" name="way" value="delivered" /> a delivery: pieces to add
            </label>
          </fieldset>
          <p class="small">
            Tab or the arrow keys move from cell to cell. Paste a range copied from a spreadsheet into any
            cell; its headings are recognised, colours down or across.
          </p>
          <nav id="jump" class="jump" aria-label="Tables"></nav>
          <div id="tables" class="tables"></div>
          <section id="conflicts" class="conflicts" aria-labelledby="conflicts-title" hidden>
            <h2 id="conflicts-title">Look at these before saving</h2>
            <ul id="conflict-list"></ul>
          </section>
          <div id="copied-part" hidden>
            <label for="copied">The table as copied</label>
            <textarea id="copied" rows={6} readonly></textarea>
          </div>
        </div>
      </main>
      <footer id="bar" class="bar" hidden>
        <p id="unsaved" role="status">
          All is saved.
        </p>
        <div class="row">
          <button id="save" class="main" type="button">
            Save the count
          </button>
          <button id="discard" class="danger" type="button" hidden>
            Throw away
          </button>
        </div>
      </footer>
    </Page>
  );
}

/** Where a customer orders: the same conversation as by text message, with buttons. */
import { Freshness, Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

/** The frame in which the page's script draws, so that nothing moves when it does. */
export function CustomerPage({ fair, stall }: Place) {
  return (
    <Page title="Order" screen="customer" data={{ fair, stall }}>
      <div id="page" class="talk-page">
        <header>
          <div class="top">
            <h1 id="stall-name">{stall}</h1>
            <Freshness />
          </div>
        </header>
        <main id="main" tabindex={-1}></main>
        <footer></footer>
      </div>
    </Page>
  );
}

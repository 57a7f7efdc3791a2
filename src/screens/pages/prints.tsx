/** The stall's printed papers: the price card, the crew's sheet, and a tag for each order. */
import { AppBar } from "../parts/app-bar.tsx";
import { CrewNotices } from "../parts/crew-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

export function PrintsPage({ fair, stall }: Place) {
  return (
    <Page title="To print" screen="prints" shares={["crew"]} data={{ fair, stall, prints: "card" }}>
      <AppBar title="Print" crew={{ fair, stall, here: "Print" }}>
        <a class="button" href={`/at/${fair}/${stall}/poster`}>
          Poster
        </a>
      </AppBar>
      <main id="main" tabindex={-1}>
        <CrewNotices />
        <div id="sheets" class="stack"></div>
      </main>
    </Page>
  );
}

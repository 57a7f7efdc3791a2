/**
 * The pickup board: numbers and their states, readable across a field; without orders, the garments on sale and how to
 * order.
 */
import { AppBar, NightSwitch } from "../parts/app-bar.tsx";
import { Code } from "../parts/code.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

export type BoardProps = Place & {
  /** Where customers order on the web; null if only this computer knows the address it was opened at. */
  readonly link: string | null;
};

export function BoardPage({ fair, stall, link }: BoardProps) {
  return (
    <Page title="Pickup board" screen="board" data={{ fair, stall }}>
      <AppBar title={stall} titleId="stall-name" asks>
        <button id="sound" type="button">
          Turn sound on
        </button>
        <NightSwitch />
        <a class="button" href={`/at/${fair}/${stall}`}>
          Order
        </a>
      </AppBar>
      <main id="main" tabindex={-1}>
        <div id="board"></div>
        <section id="order-code" class="stack order-code" aria-label="How to order" hidden>
          {link === null ? null : <Code text={link} label={`Code for ${link}`} />}
          <p class="figure">{link === null ? "Order at the counter" : "Scan to order"}</p>
        </section>
      </main>
    </Page>
  );
}

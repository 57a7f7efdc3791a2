/** To be drawn. */
import { Freshness, Page } from "./layout.tsx";
import type { Place } from "./place.ts";

export function PressPage({ fair, stall }: Place) {
  return (
    <Page title="Press" screen="press" data={{ fair, stall }}>
      <main>
        <h1>Press</h1>
        <Freshness />
      </main>
    </Page>
  );
}

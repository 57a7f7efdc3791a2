/** To be drawn. */
import { Freshness, Page } from "./layout.tsx";
import type { Place } from "./place.ts";

export function CounterPage({ fair, stall }: Place) {
  return (
    <Page title="Counter" screen="counter" data={{ fair, stall }}>
      <main>
        <h1>Counter</h1>
        <Freshness />
      </main>
    </Page>
  );
}

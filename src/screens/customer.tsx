/** To be drawn. */
import { Freshness, Page } from "./layout.tsx";
import type { Place } from "./place.ts";

export function CustomerPage({ fair, stall }: Place) {
  return (
    <Page title="Customer" screen="customer" data={{ fair, stall }}>
      <main>
        <h1>Customer</h1>
        <Freshness />
      </main>
    </Page>
  );
}

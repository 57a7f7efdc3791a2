/** To be drawn. */
import { Freshness, Page } from "./layout.tsx";
import type { Place } from "./place.ts";

export function BoardPage({ fair, stall }: Place) {
  return (
    <Page title="Board" screen="board" data={{ fair, stall }}>
      <main>
        <h1>Board</h1>
        <Freshness />
      </main>
    </Page>
  );
}

/** The day against its plan: the shell; its script fills it. */
import { AppBar } from "../parts/app-bar.tsx";
import { AccountNotices } from "../parts/closeout-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

export function DayPage({ fair, stall }: Place) {
  return (
    <Page title="How the day is going" screen="day" shares={["crew"]} data={{ fair, stall }}>
      <AppBar title="How the day is going" asks crew={{ fair, stall, here: "How the day is going" }} />
      <main id="main" tabindex={-1}>
        <AccountNotices />
        <div id="so-far" class="stack"></div>
      </main>
    </Page>
  );
}

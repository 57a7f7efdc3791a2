/** The close-out's shell: its script fills the day. */
import { AppBar } from "../parts/app-bar.tsx";
import { AccountNotices, LoadStall, SaveStall } from "../parts/closeout-parts.tsx";
import { Page } from "../parts/layout.tsx";
import { MovedAway } from "../parts/moved-away.tsx";
import type { Place } from "../parts/place.ts";

export function CloseoutPage({ fair, stall }: Place) {
  return (
    <Page title="Close-out" screen="closeout" shares={["crew"]} data={{ fair, stall }}>
      <AppBar title="Close-out" titleId="title" crew={{ fair, stall, here: "Close-out" }} />
      <main id="main" tabindex={-1}>
        <AccountNotices />
        <div id="account" hidden>
          <div id="of-day"></div>
          <SaveStall />
          <MovedAway />
        </div>
        <LoadStall />
      </main>
    </Page>
  );
}

/** My fairs: the shell; its script asks the stalls whose keys this browser keeps. */
import { AppBar, NightSwitch } from "../../parts/app-bar.tsx";
import { Page } from "../../parts/layout.tsx";

export function FairsPage() {
  return (
    <Page title="My fairs" screen="fairs">
      <AppBar title="My fairs">
        <a class="button" href="/plan">
          Plan a fair
        </a>
        <a class="button" href="/">
          All pages
        </a>
        <NightSwitch />
      </AppBar>
      <main id="main" tabindex={-1}>
        <p id="notice" class="notice" role="status" hidden></p>
        <div id="fairs"></div>
        <input id="load" class="offstage" type="file" accept="application/json,.json" />
      </main>
    </Page>
  );
}

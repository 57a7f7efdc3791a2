/** The shell of the organiser's page: its script fills it. */
import { AppBar, NightSwitch } from "../../parts/app-bar.tsx";
import { Page } from "../../parts/layout.tsx";

/** The fair at a glance: which stall is swamped, idle, out of stock, or has gone quiet. */
export function OrganiserPage({ fair }: { readonly fair: string }) {
  return (
    <Page title="Fair" screen="organiser" shares={["uplot"]} data={{ fair }}>
      <AppBar title={fair} titleId="fair-name" asks>
        <a class="button" href={`/fair/${fair}/keys`}>
          Hours, stalls, keys
        </a>
        <NightSwitch />
      </AppBar>
      <main id="main" tabindex={-1}>
        <p id="trouble" class="notice" role="alert" hidden></p>
        <div id="organiser-word" class="no-print"></div>
        <div id="account" hidden></div>
      </main>
    </Page>
  );
}

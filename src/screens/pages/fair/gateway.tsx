/** The shell of the page that makes the fair's text gateway known: its script fills it. */
import { AppBar, NightSwitch } from "../../parts/app-bar.tsx";
import { Page } from "../../parts/layout.tsx";

export function GatewayPage({ fair }: { readonly fair: string }) {
  return (
    <Page title="Text gateway" screen="gateway" styles={["start", "gateway"]} data={{ fair }}>
      <AppBar title="Text gateway" asks>
        <a class="button" href={`/fair/${fair}/keys`}>
          Hours, stalls, keys
        </a>
        <NightSwitch />
      </AppBar>
      <main id="main" tabindex={-1}>
        <p id="trouble" class="notice" role="alert" hidden></p>
        <div id="gateway"></div>
      </main>
    </Page>
  );
}

/** Pretend phones, for trying the text conversation on one computer. */
import { AppBar } from "../parts/app-bar.tsx";
import { Page } from "../parts/layout.tsx";

export function PhonesPage() {
  return (
    <Page title="Pretend phones" screen="phones">
      <AppBar title="Pretend phones" asks menu={{ label: "Other pages", groups: [] }}>
        <label>
          Fair
          <input id="fair" autocomplete="off" autocapitalize="off" spellcheck={false} maxlength={32} />
        </label>
        <button id="another" type="button">
          Another phone
        </button>
      </AppBar>
      <main id="main" tabindex={-1}>
        <p id="key-needed" class="notice" role="alert" hidden>
          Open this page by the link that the demo printed: its key is missing or old.
        </p>
        <p class="verdict">
          These are pretend numbers; no real texts are sent. Texts go to <b id="number">the fair</b>. Start
          with a stall's short name, or any word to be asked which stall.
        </p>
        <div id="phones" class="tiles"></div>
      </main>
    </Page>
  );
}

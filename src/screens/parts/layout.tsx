/** The shell every page shares: no data, no inline script or style; the page's own script fetches the rest. */

import { html } from "hono/html";
import type { Child } from "hono/jsx";

export type PageProps = {
  readonly title: string;
  /** Names the page's script, its style and its class: "press" is press.js, press.css, `.press`. */
  readonly screen: string;
  /** Styles that it shares with some other pages, and those of libraries, by name. */
  readonly shares?: readonly string[];
  /** Its own style sheets, if they are not named like its script. */
  readonly styles?: readonly string[];
  readonly language?: string;
  /** False for a page of text only: it has neither script nor style of its own. */
  readonly script?: false;
  /** Data for the script, as data attributes of the body. */
  readonly data?: Readonly<Record<string, string>>;
  readonly children?: Child;
};

/** Above every page of a rehearsal. */
function RehearsalStrip() {
  return (
    <aside class="row apart rehearsal-strip" aria-label="Rehearsal">
      <span>Rehearsal: nothing here is real.</span>
      <span id="rehearsal-said" role="status"></span>
      <button id="rehearsal-wipe" class="danger" type="button">
        End rehearsal
      </button>
    </aside>
  );
}

const SKIP: Readonly<Record<string, string>> & { readonly en: string } = {
  en: "Skip to the page",
  es: "Ir al contenido",
};

/** A whole document. */
export function Page({
  title,
  screen,
  shares = [],
  styles,
  language = "en",
  script,
  data = {},
  children,
}: PageProps) {
  const attributes = Object.fromEntries(Object.entries(data).map(([name, value]) => [`data-${name}`, value]));
  const rehearsal = data["stall"]?.endsWith(".rehearsal") === true;
  return html`<!doctype html>${(
    <html lang={language}>
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>{title}</title>
        <script src="/assets/theme.js"></script>
        <link
          rel="preload"
          href="/assets/atkinson-hyperlegible-next.woff2"
          as="font"
          type="font/woff2"
          crossorigin=""
        />
        <link rel="icon" href="/assets/icon.svg" type="image/svg+xml" />
        <link rel="stylesheet" href="/assets/screens.css" />
        {[...shares, ...(styles ?? (script === false ? [] : [screen]))].map((style) => (
          <link rel="stylesheet" href={`/assets/${style}.css`} />
        ))}
        {script === false ? null : <script type="module" src="/assets/cannot-start.js"></script>}
        {script === false ? null : <script type="module" src={`/assets/${screen}.js`}></script>}
        {rehearsal ? <link rel="stylesheet" href="/assets/rehearsal.css" /> : null}
        {rehearsal ? <script type="module" src="/assets/rehearsal.js"></script> : null}
      </head>
      <body class={rehearsal ? `${screen} rehearsing` : screen} {...attributes}>
        <a class="skip button" href="#main">
          {SKIP[language] ?? SKIP.en}
        </a>
        {rehearsal ? <RehearsalStrip /> : null}
        {children}
        {script === false ? null : (
          <noscript>
            <p class="notice">This page needs JavaScript. Ask at the counter, or order by text.</p>
          </noscript>
        )}
      </body>
    </html>
  )}`;
}

/** Where a page says how fresh it is; the kit's `poll` fills it. */
export function Freshness() {
  return (
    <p class="freshness-line no-print">
      <span id="freshness" class="freshness">
        connecting…
      </span>
      <span id="connection" class="offstage" role="status"></span>
    </p>
  );
}

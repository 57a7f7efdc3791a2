/** The shell every page shares: no data, no inline script or style; the page's own script fetches the rest. */

import { html } from "hono/html";
import type { Child } from "hono/jsx";

export type PageProps = {
  readonly title: string;
  /** Names the page's script, its style and its class: "press" is press.js, press.css, `.press`. */
  readonly screen: string;
  readonly language?: string;
  /** Styles of libraries it uses, by the name of their file. */
  readonly styles?: readonly string[];
  /** What the script needs to know, as data attributes of the body. */
  readonly data?: Readonly<Record<string, string>>;
  readonly children?: Child;
};

/** A whole document. */
export function Page({ title, screen, language = "en", styles = [], data = {}, children }: PageProps) {
  const attributes = Object.fromEntries(Object.entries(data).map(([name, value]) => [`data-${name}`, value]));
  return html`<!doctype html>${(
    <html lang={language}>
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light" />
        <title>{title}</title>
        <link rel="icon" href="/assets/icon.svg" type="image/svg+xml" />
        <link rel="stylesheet" href="/assets/screens.css" />
        {styles.map((name) => (
          <link rel="stylesheet" href={`/assets/${name}.css`} />
        ))}
        <link rel="stylesheet" href={`/assets/${screen}.css`} />
        <script type="module" src={`/assets/${screen}.js`}></script>
      </head>
      <body class={screen} {...attributes}>
        {children}
        <noscript>
          <p class="notice">This page needs JavaScript. Ask at the counter, or order by text.</p>
        </noscript>
      </body>
    </html>
  )}`;
}

/** Where a page says how fresh it is; the kit's `poll` fills it. */
export function Freshness() {
  return (
    <p class="freshness-line">
      <span id="freshness" class="freshness">
        connecting…
      </span>
      <span id="connection" class="offstage" role="status"></span>
    </p>
  );
}

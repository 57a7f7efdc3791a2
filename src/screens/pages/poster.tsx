/** The poster: print it, hang it up, and people order by scanning or texting. Both languages on one page. */
import { smsLink } from "../../texting/sms-link.ts";
import { Code } from "../parts/code.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

export type PosterProps = Place & {
  /** Where customers order on the web. */
  readonly link: string;
  /** The number texts go to; null where the stall takes none. */
  readonly number: string | null;
};

/** The steps in each language; the example row is filled in from the menu. */
const STEPS = {
  en: ["Scan or text.", "Pick by number: what, colour, size.", "Say YES. We text you when it is ready."],
  es: [
    "Escanea o manda un texto.",
    "Elige por número: qué, color, talla.",
    "Di SÍ. Te avisamos cuando esté.",
  ],
} as const;

function Steps({ language }: { readonly language: keyof typeof STEPS }) {
  return (
    <ol class="steps" lang={language}>
      {STEPS[language].map((step) => (
        <li>{step}</li>
      ))}
    </ol>
  );
}

export function PosterPage({ fair, stall, link, number }: PosterProps) {
  // The stall's word comes first: a fair may share one number among all its stalls.
  const opening = `${stall} menu`;
  return (
    <Page title="Order here" screen="poster" data={{ fair, stall }}>
      <main>
        <h1 id="stall-name">{stall}</h1>
        <p class="lead">
          Made to order while you wait · <span lang="es">Hecho al momento</span>
        </p>
        <div class="codes">
          <figure>
            <Code text={link} label={`Code for ${link}`} />
            <figcaption>
              On the web · <span lang="es">En la web</span>
              <br />
              <span class="address">{link.replace(/^https?:\/\//, "")}</span>
            </figcaption>
          </figure>
          {number === null ? null : (
            <figure>
              <Code text={smsLink(number, opening)} label={`Code for a text to ${number}`} />
              <figcaption>
                By text · <span lang="es">Por texto</span>
                <br />
                <strong>{opening}</strong> → <span class="address">{number}</span>
              </figcaption>
            </figure>
          )}
        </div>
        <div class="languages">
          <Steps language="en" />
          <Steps language="es" />
        </div>
        <p class="small">
          Texts about your order only. STOP ends them. ·{" "}
          <span lang="es">Solo textos de tu pedido. STOP los termina.</span>
        </p>
        <button id="print" type="button" class="main no-print">
          Print
        </button>
      </main>
    </Page>
  );
}

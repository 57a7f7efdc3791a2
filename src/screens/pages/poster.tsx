/** The poster: print it, hang it up, and people order by scanning or texting. Both languages on one page. */
import { smsLink } from "../../texting/sms-link.ts";
import { Code } from "../parts/code.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

export type PosterProps = Place & {
  /** Where customers order on the web; null if only this computer knows the address it was opened at. */
  readonly link: string | null;
  /** The number for texts; null if the stall takes none. */
  readonly number: string | null;
};

/** The steps in each language, for a stall that takes texts and for one that does not. */
const WEB_STEPS = {
  en: [
    "Scan the code.",
    "Pick by number what you like, and your size.",
    "Say YES. The page says when it is ready.",
  ],
  es: [
    "Escanea el código.",
    "Elige por número: qué, color, talla.",
    "Di SÍ. La página te avisa cuando esté.",
  ],
} as const;
const STEPS = {
  en: [
    "Scan or text.",
    "Pick by number what you like, and your size.",
    "Say YES. We’ll text you when it’s ready.",
  ],
  es: [
    "Escanea o manda un texto.",
    "Elige por número: qué, color, talla.",
    "Di SÍ. Te avisamos cuando esté.",
  ],
} as const;

function Steps({ language, texts }: { readonly language: keyof typeof STEPS; readonly texts: boolean }) {
  return (
    <ol class="steps lead" lang={language}>
      {(texts ? STEPS : WEB_STEPS)[language].map((step) => (
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
      <main id="main" class="stack" tabindex={-1}>
        <h1 id="stall-name" class="number-big">
          {stall}
        </h1>
        <p class="larger">
          Made to order while you wait · <span lang="es">Hecho al momento</span>
        </p>
        <div id="garments" class="drawn-garments"></div>
        <div id="prices" class="large"></div>
        <div class="row codes">
          {link === null ? (
            <p class="no-print" role="note">
              Only this computer can open the address you used, so its code is left out. Open the poster at
              the address other devices use (for example http://192.168.1.20:8787/at/{fair}/{stall}/poster),
              then print it.
            </p>
          ) : (
            <figure>
              <Code text={link} label={`Code for ${link}`} />
              <figcaption>
                On the web · <span lang="es">En la web</span>
                <br />
                <span class="address">{link.replace(/^https?:\/\//, "")}</span>
              </figcaption>
            </figure>
          )}
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
        <div class="tiles languages">
          <Steps language="en" texts={number !== null} />
          <Steps language="es" texts={number !== null} />
        </div>
        <p class="small" hidden={number === null}>
          We only text about your order. Text STOP to opt out. ·{" "}
          <span lang="es">Solo te escribimos sobre tu pedido. Envía STOP para no recibir más.</span>
        </p>
        {link === null ? null : (
          <p class="small">
            What we keep about you, and how to erase it ·{" "}
            <span lang="es">Lo que guardamos y cómo borrarlo</span>:{" "}
            <span class="address">{`${link.replace(/^https?:\/\//, "")}/your-data`}</span>
          </p>
        )}
        <button id="print" type="button" class="main no-print">
          Print
        </button>
      </main>
    </Page>
  );
}

/** The page at the old address of a stall that has moved, with its new address. */
import { AppBar } from "../../parts/app-bar.tsx";
import { Page } from "../../parts/layout.tsx";
import type { Place } from "../../parts/place.ts";

const WORDS = {
  en: {
    heading: "This stall has moved",
    told: "Orders, questions and pickup numbers are now at its new address.",
    go: "Go to the stall",
  },
  es: {
    heading: "Este puesto se ha mudado",
    told: "Los pedidos, las preguntas y los números de recogida están ahora en su nueva dirección.",
    go: "Ir al puesto",
  },
} as const;

export function MovedPage({
  fair,
  stall,
  to,
  language,
}: Place & { readonly to: string; readonly language: keyof typeof WORDS }) {
  const { heading, told, go } = WORDS[language];
  return (
    <Page title={heading} screen="moved" language={language} styles={["start"]} data={{ fair, stall }}>
      <AppBar title={heading} />
      <main id="main" tabindex={-1}>
        <p>{told}</p>
        <p>
          <a id="new-address" class="button main" href={to}>
            {go}
          </a>
        </p>
        <p>{to}</p>
      </main>
    </Page>
  );
}

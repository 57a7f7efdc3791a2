/** A fair's own page for visitors: its stalls, what they make, and how long each takes now. */
import { AppBar } from "../../parts/app-bar.tsx";
import { Page } from "../../parts/layout.tsx";

const WORDS = {
  en: { heading: "Which stall?", code: "Or scan the code at the stall." },
  es: { heading: "¿Qué puesto?", code: "O escanea el código del puesto." },
} as const;

type Props = { readonly fair: string; readonly language: keyof typeof WORDS };

export function SeenPage({ fair, language }: Props) {
  const words = WORDS[language];
  return (
    <Page title={words.heading} screen="seen" styles={["start"]} language={language} data={{ fair }}>
      <AppBar title={words.heading} />
      <main id="main" class="stack" tabindex={-1}>
        <div id="stalls"></div>
        <p>{words.code}</p>
      </main>
    </Page>
  );
}

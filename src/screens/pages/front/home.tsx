/** The front page, from which crew, organiser, planner and customer find their pages. */
import { AppBar, NightSwitch } from "../../parts/app-bar.tsx";
import { Page } from "../../parts/layout.tsx";

const WORDS = {
  en: {
    title: "Pressed to order at the fair",
    order: "To order, scan the code at the stall with your phone’s camera, or open the link it gave you.",
    given: "I was given a link",
    paste: "Paste the link here",
    open: "Open it",
    scan: "Were you shown a code? Point your phone’s own camera at it.",
    plan: "Plan a fair",
    planSays: "What to bring, how many presses, and whether the day can pay.",
    start: "Start a fair",
    startSays: "Make the fair, its stall, and the keys for its tablets.",
    fairs: "My fairs",
    fairsSays: "What every closed day earned, and what sells where.",
    help: "Help",
  },
  es: {
    title: "Estampado por encargo en la feria",
    order: "Para pedir, escanea el código del puesto con la cámara, o abre el enlace que te dieron.",
    given: "Me dieron un enlace",
    paste: "Pega aquí el enlace",
    open: "Abrir",
    scan: "¿Te mostraron un código? Apunta con la cámara del teléfono.",
    plan: "Planear una feria",
    planSays: "Qué llevar, cuántas planchas y si el día compensa.",
    start: "Crear una feria",
    startSays: "Crea la feria, su puesto y las claves de sus tabletas.",
    fairs: "Mis ferias",
    fairsSays: "Qué ganó cada día cerrado y qué se vende dónde.",
    help: "Ayuda",
  },
} as const;

export function HomePage({ language }: { readonly language: keyof typeof WORDS }) {
  const words = WORDS[language];
  return (
    <Page title={words.title} screen="home" language={language} styles={["start"]}>
      <AppBar title={words.title}>
        <a class="button" href="/help">
          {words.help}
        </a>
        <NightSwitch />
      </AppBar>
      <main id="main" tabindex={-1}>
        <p class="lead">{words.order}</p>
        <div id="cards" class="cards tiles"></div>
        <section class="card" aria-labelledby="given-title">
          <h2 id="given-title">{words.given}</h2>
          <form id="given-form" novalidate>
            <label for="given">{words.paste}</label>
            <div class="pair">
              <input
                id="given"
                autocomplete="off"
                spellcheck={false}
                aria-describedby="given-fault given-scan"
              />
              <button type="submit">{words.open}</button>
            </div>
            <p id="given-fault" class="fault" role="status"></p>
          </form>
          <p id="given-scan">{words.scan}</p>
        </section>
        <div class="cards tiles">
          {(["plan", "start", "fairs"] as const).map((way) => (
            <section class="card">
              <h2>{words[way]}</h2>
              <p>{words[`${way}Says`]}</p>
              <a class="button" href={`/${way}`}>
                {words[way]}
              </a>
            </section>
          ))}
        </div>
      </main>
    </Page>
  );
}

/** The page for a wrong address: what happened, and where each kind of visitor can go. */
import { type Spelling, spelt } from "../../../model/basics/region.ts";
import { AppBar } from "../../parts/app-bar.tsx";
import { Page } from "../../parts/layout.tsx";

/** An address of a fair without a stall, or an address of nothing. */
export type NoPage = "fair" | "unknown";

type Words = {
  readonly heading: Readonly<Record<NoPage, string>>;
  readonly toOrder: string;
  readonly crew: string;
  readonly organiser: string;
  readonly start: string;
  readonly ahead: string;
  readonly plan: string;
  readonly all: string;
};

const WORDS: Readonly<Record<"en" | "es", Words>> = {
  en: {
    heading: {
      fair: "Which stall?",
      unknown: "There’s no page here",
    },
    toOrder: "To order, scan the code at the stall or open the link it gave you.",
    crew: "Stall crew: open your crew link. The organiser can give you a new one.",
    organiser: "Organiser: open your fair’s link.",
    start: "Start a fair",
    ahead: "Before the fair: what to bring, and whether the day can pay.",
    plan: "Plan a fair",
    all: "Paste a link",
  },
  es: {
    heading: {
      fair: "¿Qué puesto?",
      unknown: "Aquí no hay ninguna página",
    },
    toOrder: "Para pedir, escanea el código del puesto o abre el enlace que te dieron.",
    crew: "Equipo del puesto: abre tu enlace. La organización puede darte uno nuevo.",
    organiser: "Organización: abre el enlace de tu feria.",
    start: "Crear una feria",
    ahead: "Antes de la feria: qué llevar y si el día compensa.",
    plan: "Planear una feria",
    all: "Pegar un enlace",
  },
};

type Props = { readonly what: NoPage; readonly language: "en" | "es"; readonly spelling: Spelling };

export function NoPageHere({ what, language, spelling }: Props) {
  const words = WORDS[language];
  const heading = words.heading[what];
  return (
    <Page title={heading} screen="no-page" language={language} script={false} styles={["start"]}>
      <AppBar title={heading} />
      <main id="main" tabindex={-1}>
        <p class="lead">{words.toOrder}</p>
        <ul class="ruled ways-on">
          {(
            [
              [spelt(words.crew, spelling), "/", words.all],
              [spelt(words.organiser, spelling), "/start", words.start],
              [words.ahead, "/plan", words.plan],
            ] as const
          ).map(([who, address, way]) => (
            <li class="row apart">
              <span>{who}</span>
              <a class="button" href={address}>
                {way}
              </a>
            </li>
          ))}
        </ul>
      </main>
    </Page>
  );
}

/** What a stall keeps about its customers, until when, and how they have it erased. */
import { type Spelling, spelt } from "../../../model/basics/region.ts";
import { AppBar } from "../../parts/app-bar.tsx";
import { Page } from "../../parts/layout.tsx";
import type { Place } from "../../parts/place.ts";

const WORDS = {
  en: {
    title: "What we keep about you",
    stall: "The stall",
    who: "keeps it, for its orders only. The fair’s organiser sees counts, never a name or a number.",
    contact: "Reach the stall:",
    what: "What is kept",
    kept: [
      "Ordered here: what you wrote and what was answered, and a code made from your network’s address.",
      "Ordered by text: your telephone number, what you wrote and what was answered.",
      "Ordered at the counter: the first name or number you gave, if you gave one.",
      "What you asked for on a garment, in your words.",
      "Never a card number, and nothing for advertising.",
    ],
    until: "Until when",
    days: "Names, numbers and conversations are erased after the fair, on",
    unknown: "Names, numbers and conversations are erased some days after the fair.",
    after:
      "Orders stay as counts, with nobody’s name. Copies of recent answers, kept so that nothing is done twice, go within two days.",
    now: "Erase mine now",
    onPage:
      "Your conversation, your name and your number here go at once. Open orders stay: keep the number and the word, since this page forgets them.",
    byText: "Ordered by text? Text ERASE ME to the same number.",
    erase: "Erase it now",
    erased: "It is erased.",
    failed: "It could not be erased just now. Try again when there is a connection.",
    none: "This browser has no conversation with this stall.",
    back: "Back to the stall",
  },
  es: {
    title: "Lo que guardamos de ti",
    stall: "El puesto",
    who: "lo guarda, solo para sus pedidos. La organización de la feria ve cifras, nunca un nombre ni un número.",
    contact: "Contacto del puesto:",
    what: "Qué se guarda",
    kept: [
      "Si pides aquí: lo que escribes, lo que se responde, y un código hecho con la dirección de tu red.",
      "Si pides por mensaje: tu número de teléfono, lo que escribes y lo que se responde.",
      "Si pides en el puesto: el nombre o el número que diste, si lo diste.",
      "Lo que pediste para una prenda, con tus palabras.",
      "Nunca un número de tarjeta, y nada para publicidad.",
    ],
    until: "Hasta cuándo",
    days: "Nombres, números y conversaciones se borran después de la feria, el",
    unknown: "Nombres, números y conversaciones se borran unos días después de la feria.",
    after:
      "Los pedidos quedan como cifras, sin nombres. Las respuestas guardadas para no repetir nada se van en dos días.",
    now: "Borrar lo mío ahora",
    onPage:
      "Tu conversación, tu nombre y tu número se borran aquí al momento. Los pedidos en curso siguen: guarda el número y la palabra, porque esta página los olvida.",
    byText: "¿Pediste por mensaje? Manda BORRAME al mismo número.",
    erase: "Borrar ahora",
    erased: "Ya está borrado.",
    failed: "Ahora no se pudo borrar. Prueba otra vez cuando haya conexión.",
    none: "Este navegador no tiene ninguna conversación con este puesto.",
    back: "Volver al puesto",
  },
} as const;

type Props = Place & { readonly language: keyof typeof WORDS; readonly spelling: Spelling };

export function YourDataPage({ fair, stall, language, spelling }: Props) {
  const words = WORDS[language];
  const { days, unknown, erased, failed, none } = words;
  return (
    <Page
      title={words.title}
      screen="your-data"
      styles={["start"]}
      language={language}
      data={{ fair, stall, days, unknown, erased, failed, none }}
    >
      <AppBar title={words.title} />
      <main id="main" class="stack tight" tabindex={-1}>
        <p>
          {words.stall} <strong id="stall-name">{stall}</strong> {spelt(words.who, spelling)}{" "}
          <span id="contact" hidden>
            {words.contact} <strong></strong>
          </span>
        </p>
        <h2>{words.what}</h2>
        <ul class="bullets">
          {words.kept.map((one) => (
            <li>{one}</li>
          ))}
        </ul>
        <h2>{words.until}</h2>
        <p>
          <span id="until">{words.unknown}</span> {words.after}
        </p>
        <h2>{words.now}</h2>
        <p>{words.onPage}</p>
        <p>
          <button id="erase" type="button" class="danger" disabled>
            {words.erase}
          </button>
        </p>
        <p id="said" role="status"></p>
        <p>{words.byText}</p>
        <p>
          <a href={`/at/${fair}/${stall}`}>{words.back}</a>
        </p>
      </main>
    </Page>
  );
}

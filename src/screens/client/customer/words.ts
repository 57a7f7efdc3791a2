/** The page's own words, in the languages the conversation speaks. The conversation's are the stall's. */
import type { OrderStage } from "../../../model/orders/order.ts";
import type { FreshnessWords } from "../kit/poll.ts";

export type PageWords = {
  readonly language: "en" | "es";
  /** Texts of the shell, by the name in `data-say`, `data-say-label` or `data-say-placeholder`. */
  readonly shell: Readonly<Record<string, string>>;
  readonly title: (stall: string) => string;
  readonly you: string;
  readonly stall: string;
  /** The words that can be tapped at any time, as the conversation understands them. */
  readonly shortcuts: readonly (readonly [say: string, label: string])[];
  readonly unsent: (count: number) => string;
  readonly sending: string;
  readonly notSent: string;
  readonly silent: string;
  readonly strange: string;
  readonly startedAgain: string;
  readonly number: string;
  readonly word: string;
  readonly place: (place: number) => string;
  readonly wait: (minutes: number) => string;
  readonly stages: Readonly<Record<OrderStage, string>>;
  readonly sayWord: string;
  /** Before the line that gets an order's news sent by text. */
  readonly byText: string;
  readonly textTo: (line: string, to: string) => string;
  readonly freshness: FreshnessWords;
};

const en: PageWords = {
  language: "en",
  shell: {
    talk: "Conversation",
    choose: "Tap one, or type",
    type: "Type a number or what you want",
    send: "Send",
    sendAgain: "Send now",
    shortcuts: "Short ways",
  },
  title: (stall) => `Order at ${stall}`,
  you: "You",
  stall: "Stall",
  shortcuts: [
    ["MENU", "Menu"],
    ["BACK", "Back"],
    ["STATUS", "My order"],
    ["HELP", "Help"],
  ],
  unsent: (count) =>
    count === 1
      ? "No connection: 1 message is kept here and will be sent."
      : `No connection: ${count} messages are kept here and will be sent.`,
  sending: "sending…",
  notSent: "not sent yet",
  silent: "The stall gave no answer to that. If you sent many messages, wait a minute.",
  strange: "The stall cannot be reached just now. Try again in a moment.",
  startedAgain: "This page lost its thread and starts anew. Orders you made still stand at the stall.",
  number: "Pickup number",
  word: "Pickup word",
  place: (place) => (place === 1 ? "Next in line" : `Number ${place} in line`),
  wait: (minutes) => `about ${minutes} min`,
  stages: {
    "to-pay": "Pay at the stall, then it joins the line",
    "to-claim": "Kept for you. Come to the stall, then it joins the line",
    waiting: "In line",
    pressing: "On the press now",
    ready: "Ready. Come and get it!",
    collected: "Handed over. Enjoy it!",
    dropped: "Dropped",
    uncollected: "Was ready, not collected",
    refunded: "Money given back",
    exchanged: "Exchanged",
  },
  sayWord: "At the counter, say the word",
  byText: "To get news by text, send",
  textTo: (line, to) => `${line} to ${to}`,
  freshness: {
    never: "not connected yet",
    ago: (seconds) => `last heard ${seconds} s ago`,
    lost: "No connection.",
    back: "Connected again.",
  },
};

const es: PageWords = {
  language: "es",
  shell: {
    talk: "Conversación",
    choose: "Toca una opción o escribe",
    type: "Escribe un número o lo que quieres",
    send: "Enviar",
    sendAgain: "Enviar ya",
    shortcuts: "Atajos",
  },
  title: (stall) => `Pedir en ${stall}`,
  you: "Tú",
  stall: "Puesto",
  shortcuts: [
    ["MENU", "Menú"],
    ["ATRAS", "Atrás"],
    ["ESTADO", "Mi pedido"],
    ["AYUDA", "Ayuda"],
  ],
  unsent: (count) =>
    count === 1
      ? "Sin conexión: 1 mensaje queda aquí y se enviará."
      : `Sin conexión: ${count} mensajes quedan aquí y se enviarán.`,
  sending: "enviando…",
  notSent: "sin enviar",
  silent: "El puesto no contestó a eso. Si mandaste muchos mensajes, espera un minuto.",
  strange: "Ahora no se puede llegar al puesto. Prueba otra vez en un momento.",
  startedAgain: "Esta página perdió el hilo y empieza de nuevo. Tus pedidos siguen en pie en el puesto.",
  number: "Número de entrega",
  word: "Palabra de entrega",
  place: (place) => (place === 1 ? "Eres el siguiente" : `Puesto ${place} en la fila`),
  wait: (minutes) => `unos ${minutes} min`,
  stages: {
    "to-pay": "Paga en el puesto y entra en la fila",
    "to-claim": "Apartado para ti. Ven al puesto y entra en la fila",
    waiting: "En la fila",
    pressing: "Se estampa ahora",
    ready: "Listo. ¡Ven por él!",
    collected: "Entregado. ¡Que lo disfrutes!",
    dropped: "Anulado",
    uncollected: "Estuvo listo y nadie lo retiró",
    refunded: "Dinero devuelto",
    exchanged: "Cambiado",
  },
  sayWord: "En el mostrador, di la palabra",
  byText: "Para recibir noticias por mensaje, manda",
  textTo: (line, to) => `${line} al ${to}`,
  freshness: {
    never: "sin conexión todavía",
    ago: (seconds) => `última señal hace ${seconds} s`,
    lost: "Sin conexión.",
    back: "Conectado otra vez.",
  },
};

/** The first of the browser's languages that the page speaks; English where it speaks none. */
export function pageWords(languages: readonly string[]): PageWords {
  const wanted = languages
    .map((tag) => tag.slice(0, 2).toLowerCase())
    .find((tag) => tag === "en" || tag === "es");
  return wanted === "es" ? es : en;
}

/** Puts the shell's words in. */
export function fillShell({ language, shell }: PageWords): void {
  document.documentElement.lang = language;
  const each = (name: string, put: (found: HTMLElement, words: string) => void): void => {
    for (const found of document.querySelectorAll<HTMLElement>(`[data-${name}]`)) {
      const words = shell[found.getAttribute(`data-${name}`) ?? ""];
      if (words !== undefined) put(found, words);
    }
  };
  each("say", (found, words) => {
    found.textContent = words;
  });
  each("say-label", (found, words) => found.setAttribute("aria-label", words));
  each("say-placeholder", (found, words) => found.setAttribute("placeholder", words));
}

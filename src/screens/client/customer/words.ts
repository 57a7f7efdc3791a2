/** The page's own words, in the languages the conversation speaks. The conversation's are the stall's. */

import { ordinal } from "../../../chat/wording/ordinal.ts";
import type { Bill } from "../../../chat/wording/shape.ts";
import type { Spelling } from "../../../model/basics/region.ts";
import type { OrderStage } from "../../../model/orders/order.ts";
import type { FreshnessWords } from "../kit/poll.ts";

export type PageWords = {
  readonly language: "en" | "es";
  readonly shell: Readonly<
    Record<"talk" | "choose" | "type" | "hint" | "send" | "sendAgain" | "shortcuts", string>
  >;
  /** The step that the list of offers was, once it is answered. */
  readonly menu: string;
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
  /** What a customer can do about a refusal, by the problem's name; for the others the stall's words are shown. */
  readonly problems: Readonly<Record<string, string>>;
  readonly number: string;
  readonly word: string;
  readonly place: (place: number) => string;
  readonly wait: (minutes: number, paused: boolean) => string;
  readonly bill: (bill: Bill) => string;
  readonly paused: string;
  readonly stages: (spelling: Spelling) => Readonly<Record<OrderStage, string>>;
  readonly sayWord: string;
  /** Before the line that gets an order's news sent by text. */
  readonly byText: string;
  readonly textTo: (line: string, to: string) => string;
  /** The way to what the stall keeps about its customers. */
  readonly yourData: string;
  /** The way from an order to the stall's board. */
  readonly board: string;
  readonly cancel: {
    /** The command that the conversation understands before an order's number. */
    readonly say: string;
    readonly button: string;
    readonly sure: (number: number) => string;
    readonly yes: string;
    readonly no: string;
  };
  readonly freshness: FreshnessWords;
};

const en: PageWords = {
  language: "en",
  shell: {
    talk: "Conversation",
    choose: "Tap one, or type",
    type: "Type a number or what you want",
    hint: "Number or words",
    send: "Send",
    sendAgain: "Send now",
    shortcuts: "Shortcuts",
  },
  menu: "Menu",
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
  silent: "No reply yet. If you’ve sent a lot of messages, wait a minute.",
  strange: "We can’t reach the stall right now. Try again in a moment.",
  startedAgain: "This page had to start over. Orders you placed are safe.",
  problems: {
    "no-menu": "This stall isn’t set up yet. Come back in a little while.",
    "no-such-stall": "There’s no stall at this address. Scan the code at the stall again.",
    "key-reused": "That message got mixed up. Please send it again.",
  },
  number: "Pickup number",
  word: "Pickup word",
  place: (place) => (place === 1 ? "Next in line" : `${ordinal(place)} in line`),
  wait: (minutes, paused) => `about ${minutes} min${paused ? " once we start again" : ""}`,
  bill: ({ net, tax, total, taxInPrice }) =>
    tax === null ? total : taxInPrice ? `${total} (includes ${tax} tax)` : `${net} + ${tax} tax = ${total}`,
  paused: "The stall has paused. You keep your place.",
  stages: (spelling) => ({
    "to-pay": "Pay at the stall to join the line",
    "to-claim": "Kept for you. Come to the stall to join the line",
    waiting: "In line",
    pressing: "Being pressed now",
    ready: "Ready. Come and get it!",
    collected: "Handed over. Enjoy it!",
    dropped: spelling === "american" ? "Canceled" : "Cancelled",
    uncollected: "Not collected",
    refunded: "Refunded",
    exchanged: "Exchanged",
  }),
  sayWord: "At the counter, say the word",
  byText: "To get updates by text, send",
  textTo: (line, to) => `${line} to ${to}`,
  yourData: "What we keep about you",
  board: "Watch the board",
  cancel: {
    say: "DROP",
    button: "Cancel order",
    sure: (number) => `Cancel order ${number}?`,
    yes: "Yes, cancel",
    no: "Keep it",
  },
  freshness: {
    never: "Not connected yet",
    current: "Up to date",
    ago: (seconds) => `Updated ${seconds} s ago`,
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
    hint: "Número o palabras",
    send: "Enviar",
    sendAgain: "Enviar ya",
    shortcuts: "Atajos",
  },
  menu: "Menú",
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
  silent: "Aún no hay respuesta. Si mandaste muchos mensajes, espera un minuto.",
  strange: "Ahora no hay conexión con el puesto. Inténtalo de nuevo en un momento.",
  startedAgain: "Esta página tuvo que empezar de nuevo. Tus pedidos están a salvo.",
  problems: {
    "no-menu": "Este puesto aún no está listo. Vuelve en un rato.",
    "no-such-stall": "No hay ningún puesto en esta dirección. Escanea otra vez el código del puesto.",
    "key-reused": "Ese mensaje se mezcló con otro. Envíalo otra vez, por favor.",
  },
  number: "Número de pedido",
  word: "Palabra para recogerlo",
  place: (place) => (place === 1 ? "Eres el siguiente en la fila" : `Vas ${place}.º en la fila`),
  wait: (minutes, paused) => `unos ${minutes} min${paused ? " cuando sigamos" : ""}`,
  bill: ({ net, tax, total, taxInPrice }) =>
    tax === null
      ? total
      : taxInPrice
        ? `${total} (incluye ${tax} de impuesto)`
        : `${net} + ${tax} de impuesto = ${total}`,
  paused: "El puesto está en pausa. Conservas tu lugar.",
  stages: () => ({
    "to-pay": "Falta pagar: paga en el puesto y entra en la fila",
    "to-claim": "Apartado para ti. Ven al puesto y entra en la fila",
    waiting: "En la fila",
    pressing: "Lo estamos estampando",
    ready: "Listo. ¡Ven por él!",
    collected: "Entregado. ¡Que lo disfrutes!",
    dropped: "Anulado",
    uncollected: "No se recogió",
    refunded: "Reembolsado",
    exchanged: "Cambiado",
  }),
  sayWord: "En el mostrador, di la palabra",
  byText: "Para recibir avisos por mensaje, manda",
  textTo: (line, to) => `${line} al ${to}`,
  yourData: "Lo que guardamos de ti",
  board: "Ver el tablero",
  cancel: {
    say: "ANULAR",
    button: "Anular pedido",
    sure: (number) => `¿Anular el pedido ${number}?`,
    yes: "Sí, anular",
    no: "Conservarlo",
  },
  freshness: {
    never: "Sin conexión todavía",
    current: "Al día",
    ago: (seconds) => `Actualizado hace ${seconds} s`,
    lost: "Sin conexión.",
    back: "Conectado otra vez.",
  },
};

/** The first of the browser's languages that the page speaks; English if there is none. */
export function pageWords(languages: readonly string[]): PageWords {
  const wanted = languages
    .map((tag) => tag.slice(0, 2).toLowerCase())
    .find((tag) => tag === "en" || tag === "es");
  return wanted === "es" ? es : en;
}

/** Spanish: every sentence the stall says, in words that need few letters outside the text alphabet. */
import type { Brevity } from "../fitting/fit.ts";
import { joined, known, lead, listed, orderLines, rows } from "./compose.ts";
import { esWords } from "./es-words.ts";
import type { Bill, OrderFacts, Saved, Sentences, Wording } from "./shape.ts";

const gone = (brevity: Brevity): string => (brevity < 4 ? "agotado" : "no hay");

const about = (minutes: number): string => `unos ${minutes} min`;

const MIDNIGHT = "medianoche";

/**
 * A time after "hasta": "las 22:00", "la 1:00 de la madrugada", "la medianoche", and with its day "el dom a las 10:00".
 * The small hours are named, since "la 1:00" alone reads as one in the afternoon.
 */
export function hour(time: string): string {
  const { day, clock = time } = /^(?<day>\p{L}+),? (?<clock>.+)$/u.exec(time)?.groups ?? {};
  const article = clock === MIDNIGHT || /^1\b/.test(clock) ? "la" : "las";
  const at = `${article} ${clock}${/^[0-5]:/.test(clock) ? " de la madrugada" : ""}`;
  return day === undefined ? at : `el ${day} a ${at}`;
}

/** When something happens: "a las 22:00", "el dom a las 10:00". */
export const atHour = (time: string): string => hour(time).replace(/^la/, "a la");

const wait = ({ minutes, paused }: OrderFacts, brevity: Brevity): string =>
  !paused ? about(minutes) : brevity < 4 ? `${about(minutes)} cuando sigamos` : `en pausa, ${minutes} min`;

function sum({ net, tax, total, taxInPrice }: Bill, brevity: Brevity): string {
  if (tax === null) return total;
  if (taxInPrice) return brevity < 3 ? `${total} (incluye ${tax} de impuesto)` : total;
  return brevity < 4 ? `${net} + ${tax} de impuesto = ${total}` : `${total} con impuesto`;
}

/** "Any 2 tees: ahorras $8." */
const saving = (saved: readonly Saved[] = []): string =>
  saved.map((one) => `${one.name}: ahorras ${one.saving}.`).join(" ");

const more = (n: number): string => `y ${n} más`;
const place = (n: number): string => `${n}.º en la fila`;
const say = (word: string): string => `di “${word}”`;

function standing(order: OrderFacts, brevity: Brevity): string {
  const { number, word, stage, short } = order;
  const where = (): string => {
    switch (stage) {
      case "ready":
        return brevity < 2 ? `LISTO. Muestra el ${number} y ${say(word)}.` : `LISTO, ${say(word)}.`;
      case "to-pay":
        return brevity < 2 ? "falta pagar. Paga en el puesto." : "falta pagar.";
      case "to-claim":
        return brevity < 2 ? "apartado. Ven al puesto para entrar en la fila." : "ven al puesto.";
      case "collected":
        return "entregado.";
      case "dropped":
        return "anulado.";
      case "uncollected":
        return "no se recogió.";
      case "refunded":
        return "reembolsado.";
      case "exchanged":
        return "cambiado.";
      case "waiting":
      case "pressing":
        return joined(
          [
            stage === "pressing"
              ? "lo estamos estampando"
              : `${brevity < 2 ? "vas " : ""}${place(order.place)}`,
            short > 0 && `${short} sin material`,
            wait(order, brevity),
            brevity < 1 && `palabra ${word}`,
          ],
          ", ",
        ).concat(".");
      default:
        return stage satisfies never;
    }
  };
  return `${number}: ${where()}`;
}

const sentences: Sentences = {
  midnight: MIDNIGHT,
  from: (lowest) => `desde ${lowest}`,
  menu:
    ({ stall, items, example, more, basket, bundles = [], lastOrders }) =>
    (brevity) =>
      joined(
        [
          joined([
            brevity < 1 && `${stall}.`,
            lastOrders === true && brevity < 4 && "¡Últimos pedidos!",
            basket > 0 && brevity < 5 && `Llevas ${basket}.`,
            brevity < 2
              ? `Manda un número, o todo junto: ${example}`
              : brevity < 5
                ? "Manda un número:"
                : "Número:",
          ]),
          listed(items, gone(brevity), brevity, "\n"),
          brevity < 2 && bundles.join(", "),
          more && "MÁS para ver el resto",
        ],
        "\n",
      ),
  askOffer:
    ({ known: what, items, more }) =>
    (brevity) =>
      joined(
        [`${lead(what, brevity)} ¿Cuál?`.trim(), listed(items, gone(brevity), brevity, "\n"), more && "MÁS"],
        "\n",
      ),
  askColour:
    ({ known: what, items, more }) =>
    (brevity) =>
      `${lead(what, brevity)} ¿De qué color? ${listed(items, gone(brevity), brevity)}${more ? " MÁS" : ""}`.trim(),
  askSize:
    ({ known: what, items, more }) =>
    (brevity) =>
      `${lead(what, brevity)} ¿Qué talla? ${listed(items, gone(brevity), brevity)}${more ? " MÁS" : ""}`.trim(),
  askQuantity:
    ({ known: what, most }) =>
    (brevity) =>
      `${lead(what, brevity)} ¿Cuántas?${most > 1 ? ` De 1 a ${most}` : " 1"}`.trim(),
  askWhich:
    ({ known: what, items, more: further }) =>
    (brevity) =>
      joined(
        [
          joined([lead(what, brevity), "¿Cuál quieres?"]),
          listed(items, gone(brevity), brevity, "\n"),
          further && "MÁS",
        ],
        "\n",
      ),
  instead:
    ({ gone: wanted, left, items }) =>
    (brevity) => {
      const name = brevity < 5 ? known(wanted) : (wanted.offer ?? "");
      const soldOut = `${brevity < 1 ? "Lo siento, " : ""}${name}: agotado.`;
      return joined(
        [
          left > 0
            ? `Solo quedan ${left}: ${name}.`
            : joined([soldOut, items.length > 0 && (brevity < 4 ? "Todavía hay:" : "Hay:")]),
          listed(items, gone(brevity), brevity, "\n"),
        ],
        "\n",
      );
    },
  doesNotCome:
    ({ offer, what }) =>
    (brevity) =>
      brevity < 4
        ? `${offer} no viene en ${what === "colour" ? "ese color" : "esa talla"}.`
        : brevity < 5
          ? `No hay ${what === "colour" ? "ese color" : "esa talla"}.`
          : "",
  confirm:
    ({ lines, bill, saved, minutes, wish, taken }) =>
    (brevity) =>
      joined(
        [
          wish !== null &&
            (taken !== null && brevity < 4
              ? `${taken.name}${taken.more === null ? "" : `, ${taken.more} más,`} solo en el mostrador: ven a pedirlo.`
              : brevity < 4
                ? `Se estampa como se muestra, sin “${wish}”; si no, ven al mostrador.`
                : brevity < 5
                  ? taken !== null
                    ? `${taken.name}${taken.more === null ? "" : `, ${taken.more} más`}: solo en el mostrador.`
                    : "Se estampa como se muestra, sin tu extra."
                  : "Sin extras."),
          `${orderLines(lines, brevity, more)}: ${sum(bill, brevity)}, en ${about(minutes)}.`,
          brevity < 4 && saving(saved),
          joined([
            wish !== null ? brevity < 4 && "¿Confirmas así?" : brevity < 2 && "¿Confirmas?",
            brevity < 2 ? "1 SI 2 OTRA más 3 CAMBIAR" : "1 SI 2 OTRA 3 CAMBIAR",
          ]),
        ],
        "\n",
      ),
  wishes:
    ({ wish, taken }) =>
    (brevity) =>
      taken !== null
        ? `${taken.name}${taken.more === null ? ": pídelo" : ` cuesta ${taken.more} más: pídelo`} en el mostrador.`
        : joined([
            brevity < 3 ? `Estampamos como se muestra, sin “${wish}”.` : "Estampamos como se muestra.",
            "Para algo distinto, ven al mostrador.",
          ]),
  priceChanged: () => () => "El precio cambió.",
  placed:
    ({ order, bill, saved, paying, payMinutes, claimMinutes, payAt }) =>
    (brevity) =>
      joined([
        brevity < 1 && "¡Gracias!",
        `Pedido ${order.number}, palabra para recogerlo: ${order.word}.`,
        order.stage === "to-claim"
          ? `Ven al puesto en ${claimMinutes} min para entrar en la fila, ${wait(order, brevity)}.`
          : `Vas ${place(order.place)}, ${wait(order, brevity)}${paying === "first" ? " tras el pago" : ""}.`,
        paying === "first"
          ? `Paga ${sum(bill, brevity)} en el puesto en ${payMinutes} min.`
          : paying === "at-pickup"
            ? `${sum(bill, brevity)}, paga al recogerlo.`
            : `${sum(bill, brevity)}.`,
        brevity < 3 && saving(saved),
        brevity < 2 && "ESTADO cuando quieras.",
        payAt !== null && `Pago: ${payAt}`,
      ]),
  changeWhich:
    ({ items, more }) =>
    (brevity) =>
      joined(["¿Cuál quieres cambiar?", listed(items, gone(brevity), brevity, "\n"), more && "MÁS"], "\n"),
  changeWhat:
    ({ known: what, items }) =>
    (brevity) =>
      `${lead(what, brevity)} ¿Qué quieres cambiar? ${listed(items, gone(brevity), brevity)}`,
  orderChanged:
    ({ order, lines, bill, saved, due, giveBack, added }) =>
    (brevity) =>
      joined([
        `${brevity < 2 ? "Listo. " : ""}Pedido ${order.number}: ${orderLines(lines, brevity, more)}.`,
        due !== null
          ? `Paga ${due} más al recoger.`
          : giveBack !== null
            ? `Te devolvemos ${giveBack} en el puesto.`
            : `${sum(bill, brevity)}.`,
        brevity < 3 && saving(saved),
        brevity < 4 &&
          (order.stage === "waiting" || order.stage === "pressing") &&
          `Listo en ${wait(order, brevity)}.`,
        brevity < 1 && added && "Lo agregado va al final de la fila.",
      ]),
  cannotChange:
    ({ number, why }) =>
    () => {
      switch (why) {
        case "on-press":
          return `El pedido ${number} ya está en la prensa y sale como se pidió. Pregunta en el puesto.`;
        case "ready":
          return `El pedido ${number} está listo. Para cambiarlo, ven al puesto.`;
        case "all-of-it":
          return `Eso es todo el pedido ${number}. Para cancelarlo, escribe ANULAR ${number}.`;
        case "too-many":
          return `Es demasiado para el pedido ${number} por teléfono; ven al puesto.`;
        case "closed":
          return `Ahora no se puede agregar nada al pedido ${number}.`;
        case "over":
          return `No tienes ningún pedido abierto ${number}.`;
        case "sorry":
          return `El pedido ${number} no se puede cambiar aquí; ven al puesto.`;
        default:
          return why satisfies never;
      }
    },
  part: (part) =>
    ({ offer: "prenda", colour: "color", size: "talla", quantity: "cantidad", all: "quitarla" })[part],
  dropWhich:
    ({ items }) =>
    (brevity) =>
      joined(
        ["¿Cuál quieres anular?", listed(items, gone(brevity), brevity, brevity < 3 ? "\n" : " ")],
        "\n",
      ),
  unconfirmed: () => "lo que no has confirmado",
  cancelNothing: () => "nada",
  orderItem: (number) => `pedido ${number}`,
  dropped:
    ({ number }) =>
    (brevity) =>
      joined([`El pedido ${number} queda anulado.`, brevity < 1 && "Manda MENU para pedir otra vez."]),
  basketDropped: () => (brevity) =>
    joined(["No has pedido nada.", brevity < 1 && "Manda MENU para empezar."]),
  nothingToDrop: () => () => "No tienes ningún pedido que anular. Manda MENU para pedir.",
  dropAsked:
    ({ number }) =>
    () =>
      `Quizás ya estamos estampando el pedido ${number}. Ya preguntamos: en un momento te decimos si queda anulado.`,
  cannotDrop:
    ({ number, stage }) =>
    () =>
      stage === "ready"
        ? `El pedido ${number} ya está listo; ven al puesto, por favor.`
        : stage === "pressing"
          ? `Ya estamos estampando el pedido ${number}; ven al puesto, por favor.`
          : `No tienes abierto el pedido ${number}.`,
  status:
    ({ orders }) =>
    (brevity) =>
      rows(
        orders.map((order) => standing(order, brevity)),
        brevity,
        more,
      ).join("\n"),
  ended:
    ({ number, stage }) =>
    (brevity) =>
      standing({ number, stage, word: "", place: 0, minutes: 0, short: 0, paused: false }, brevity),
  noOrder: () => () => "Aún no tienes pedido. Manda MENU para ver lo que hay.",
  numberConfirmed:
    ({ number }) =>
    () =>
      `Este teléfono recibe desde ahora los mensajes del pedido ${number}.`,
  codeDoesNotFit: () => (brevity) =>
    joined(["Ese número y esa palabra no coinciden.", brevity < 2 && "Míralos en la página de tu pedido."]),
  codeTriedTooOften: () => () => "Demasiados intentos. Ven al puesto y di tu palabra.",
  help:
    ({ stall, contact }) =>
    (brevity) =>
      joined([
        `${brevity < 4 ? `${stall}: ` : ""}MENU para pedir, ${brevity < 1 ? "ATRAS para volver, ESTADO de tu pedido" : "ATRAS, ESTADO"}, ANULAR para cancelarlo, TALLAS, STOP para no recibir más${brevity < 4 ? ", BORRAME para olvidarte" : ""}.`,
        contact !== null && `Escríbenos: ${contact}`,
      ]),
  chests:
    ({ items }) =>
    (brevity) =>
      `${brevity < 2 ? "Pulgadas de pecho, en plano" : "Pecho, pulgadas"}: ${rows(
        items.map(({ name, price }) => joined([name, price])),
        brevity,
        more,
      ).join(", ")}.`,
  noChests: () => () => "Las tallas no se han medido; pruébate una en el puesto.",
  optedOut:
    ({ stall, contact, orders }) =>
    (brevity) =>
      joined([
        `${brevity < 4 ? stall : "OK"}: no recibirás más mensajes.`,
        orders > 0 &&
          `${orders === 1 ? "Tu pedido sigue" : "Tus pedidos siguen"}; para anular${brevity < 3 ? (orders === 1 ? "lo" : " uno") : ""} manda START y luego ANULAR.`,
        contact !== null && brevity < 4 && `Escríbenos: ${contact}.`,
        (orders === 0 || brevity < 2) && "START para recibirlos otra vez.",
      ]),
  optedIn:
    ({ stall }) =>
    () =>
      `Te damos la bienvenida de nuevo a ${stall}.`,
  erased:
    ({ stall, orders }) =>
    (brevity) =>
      joined([
        `${brevity < 4 ? `${stall} borró` : "Borramos"} tu número y lo que se dijo aquí.`,
        orders > 0 &&
          `${orders === 1 ? "Tu pedido sigue en pie" : "Tus pedidos siguen en pie"}: guarda el número y la palabra${brevity < 3 ? "; no habrá más mensajes" : ""}.`,
      ]),
  notUnderstood: () => (brevity) => (brevity < 2 ? "Perdona, no entendí." : "No entendí."),
  notOnTheList: () => () => "Ese número no está en la lista.",
  nothingBack: () => () => "Ese era el primer paso.",
  welcome: () => (brevity) => joined(["¡De nada!", brevity < 1 && "ESTADO te dice cómo va tu pedido."]),
  idle: () => () => "Manda MENU para pedir, AYUDA para saber más.",
  closed:
    ({ stall, opens }) =>
    (brevity) =>
      joined([`${brevity < 2 ? stall : "El puesto"} está cerrado ahora.`, `Vuelve ${atHour(opens)}.`]),
  over:
    ({ stall, fair, contact }) =>
    (brevity) =>
      joined([
        brevity < 4 ? `${stall} en ${fair} ya terminó.` : "La feria terminó.",
        brevity < 1 && "¡Gracias por venir!",
        contact !== null && `Escríbenos: ${contact}`,
      ]),
  paused: () => (brevity) =>
    joined([
      "Estamos en pausa y no tomamos pedidos por ahora.",
      brevity < 4 && "Prueba otra vez en unos 10 minutos.",
    ]),
  fairStopped: (reason) => (brevity) =>
    joined([
      `La feria ha parado todos los pedidos por ahora${brevity < 3 ? `: ${reason}` : ""}.`,
      brevity < 2 && "Lo que ya pediste conserva su lugar.",
    ]),
  lineTooLong:
    ({ closes, opens }) =>
    (brevity) =>
      joined([
        `${brevity < 1 ? "Lo siento: la" : "La"} fila es muy larga para estampar eso antes de cerrar ${atHour(closes)}.`,
        opens !== null && `Vuelve ${atHour(opens)}.`,
      ]),
  tooMany:
    ({ most, of }) =>
    (brevity) =>
      of === "open-orders"
        ? `Tienes ${most} pedidos abiertos; recoge uno antes, o ven al puesto.`
        : joined([
            `Hasta ${most} ${of === "line" ? "de un tipo" : "en un pedido"} por mensaje${brevity < 4 ? ";" : "."}`,
            brevity < 4 && "para más ven al puesto.",
          ]),
  allGone: () => () => "Todo está agotado por ahora. Pregunta en el puesto.",
  webOff: () => () => "Ahora no se puede pedir en esta página; ven al puesto o manda un mensaje.",
  sorry: () => () => "Eso no se puede pedir ahora; ven al puesto, por favor.",
  ready:
    ({ order: { number, word }, toPay }) =>
    (brevity) =>
      joined([
        `¡Pedido ${number} listo! ${brevity < 3 ? `Muestra el ${number} y ${say(word)}.` : `Ven y ${say(word)}.`}`,
        toPay !== null && `Trae ${toPay}.`,
      ]),
  late:
    ({ order }) =>
    (brevity) =>
      `${brevity < 1 ? "Lo siento: el" : "El"} pedido ${order.number} tarda más: ahora ${wait(order, brevity)}.`,
  paid:
    ({ order }) =>
    (brevity) =>
      joined([
        brevity < 1 && "Pagado, gracias.",
        `Pedido ${order.number}: vas ${place(order.place)}, ${wait(order, brevity)}.`,
      ]),
  short:
    ({ order: { number, short }, what, items, instead, paid }) =>
    (brevity) =>
      joined(
        [
          joined([
            brevity < 4
              ? `${brevity < 1 ? "Lo siento: " : ""}${short} del pedido ${number} no se puede estampar, falta material${what === null ? "" : ` (${known(what)})`}.`
              : `Pedido ${number}: falta ${what === null ? "material" : known(what)}.`,
            paid && brevity < 2 && "Tu dinero está a salvo.",
            instead && (brevity < 4 ? "En su lugar:" : "Hay:"),
          ]),
          listed(items, gone(brevity), brevity, "\n"),
        ],
        "\n",
      ),
  whichStall:
    ({ items }) =>
    (brevity) =>
      joined(
        [
          brevity < 1
            ? "¿Qué puesto? Escribe su número para pedir ahí; STALLS los muestra."
            : "¿Qué puesto? Escribe su número.",
          listed(
            items.map(({ minutes, ...item }) =>
              minutes === null ? item : { ...item, price: about(minutes) },
            ),
            gone(brevity),
            brevity,
            "\n",
          ),
        ],
        "\n",
      ),
  movedTo:
    ({ stall, to }) =>
    (brevity) =>
      brevity < 1
        ? `${stall} ha cambiado de sitio. Pide y pregunta en su nueva dirección: ${to}`
        : `${stall} ahora está en ${to}`,
  keepWaiting: () => "esperar",
  leaveOut: () => "quitarlo",
  moneyBack: () => "te devuelven el dinero en el puesto",
  leftOut:
    ({ number, less }) =>
    (brevity) =>
      joined([
        `Quitado del pedido ${number}; el total baja ${less}.`,
        brevity < 2 && "Si pagaste, te lo devuelven en el puesto.",
      ]),
  tookInstead:
    ({ order, taken }) =>
    (brevity) =>
      `Hecho: ${known(taken)} en el pedido ${order.number}, al mismo precio. Listo en ${wait(order, brevity)}.`,
  dropIt: () => "anularlo",
  gaveUp:
    ({ number, why }) =>
    (brevity) =>
      joined([
        why === "unpaid"
          ? `El pedido ${number} no se pagó a tiempo y queda anulado.`
          : why === "unclaimed"
            ? `Nadie vino al puesto a tiempo por el pedido ${number}, así que queda anulado.`
            : why === "as-asked"
              ? `El pedido ${number} queda anulado, como pediste.`
              : `Lo siento, el pedido ${number} queda anulado: falta material.`,
        brevity < 2 && "Manda MENU para pedir otra vez.",
      ]),
  fromCrew:
    ({ number, said, closes }) =>
    () => {
      switch (said) {
        case "five-minutes":
          return `El pedido ${number} tarda unos 5 minutos más.`;
        case "closing-soon":
          return `Cerramos ${closes === null ? "en unos minutos" : `${atHour(closes)}`}. Recoge antes el pedido ${number}, por favor.`;
        case "come-back":
          return `Por favor, vuelve al puesto con el pedido ${number}: algo salió mal y lo vamos a arreglar.`;
        default:
          return said satisfies never;
      }
    },
  closingSoon:
    ({ order: { number, word }, closes }) =>
    () =>
      `El pedido ${number} está listo y cerramos ${atHour(closes)}. Ven y ${say(word)}.`,
};

export const es: Wording = { sentences, words: esWords };

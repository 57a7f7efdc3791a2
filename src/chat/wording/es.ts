/** Spanish: every sentence the stall says, in words that need few letters outside the text alphabet. */
import { type Brevity, named } from "../fitting/fit.ts";
import { joined, known, lead, listed, orderLines } from "./compose.ts";
import { esWords } from "./es-words.ts";
import type { OrderFacts, Sentences, Wording } from "./shape.ts";

const GONE = "agotado";
const GONE_SHORT = "agot.";

const about = (minutes: number): string => `unos ${minutes} min`;

function standing({ number, word, stage, place, minutes, short }: OrderFacts, brevity: Brevity): string {
  const where = (): string => {
    switch (stage) {
      case "ready":
        return brevity < 2 ? `LISTO, ven con la palabra ${word}.` : `LISTO, palabra ${word}.`;
      case "to-pay":
        return brevity < 2 ? "espera tu pago en el puesto." : "por pagar.";
      case "to-claim":
        return brevity < 2 ? "apartado: ven al puesto para que entre en la fila." : "ven al puesto.";
      case "collected":
        return "ya fue entregado.";
      case "dropped":
        return "fue anulado.";
      case "uncollected":
        return "estuvo listo y nadie lo retiró.";
      case "refunded":
        return "fue reembolsado.";
      case "exchanged":
        return "fue cambiado.";
      case "waiting":
      case "pressing":
        return joined(
          [
            stage === "pressing" ? "se estampa" : brevity < 2 ? `puesto ${place} en la fila` : `n.º ${place}`,
            short > 0 && `${short} sin material`,
            brevity < 2 ? about(minutes) : `${minutes} min`,
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
  menu:
    ({ stall, items, example, more, basket, lastOrders }) =>
    (brevity) =>
      joined(
        [
          joined([
            brevity < 1 && `${stall}.`,
            lastOrders === true && brevity < 4 && "¡Últimos pedidos!",
            basket > 0 && `Llevas ${basket}.`,
            brevity < 2 ? `Manda un número, o todo junto: ${example}` : "Manda un número:",
          ]),
          listed(items, brevity < 4 ? GONE : GONE_SHORT, brevity, "\n"),
          more && "MÁS para ver el resto",
        ],
        "\n",
      ),
  askOffer:
    ({ known: what, items, more }) =>
    (brevity) =>
      joined(
        [
          `${lead(what, brevity)} ¿Cuál?`.trim(),
          listed(items, brevity < 4 ? GONE : GONE_SHORT, brevity, "\n"),
          more && "MÁS",
        ],
        "\n",
      ),
  askColour:
    ({ known: what, items, more }) =>
    (brevity) =>
      `${lead(what, brevity)} ¿De qué color? ${listed(items, brevity < 4 ? GONE : GONE_SHORT, brevity)}${more ? " MÁS" : ""}`.trim(),
  askSize:
    ({ known: what, items, more }) =>
    (brevity) =>
      `${lead(what, brevity)} ¿Qué talla? ${listed(items, brevity < 4 ? GONE : GONE_SHORT, brevity)}${more ? " MÁS" : ""}`.trim(),
  askQuantity:
    ({ known: what, most }) =>
    (brevity) =>
      `${lead(what, brevity)} ¿Cuántas?${most > 1 ? ` De 1 a ${most}` : " 1"}`.trim(),
  askWhich:
    ({ known: what, items }) =>
    (brevity) =>
      joined(
        [
          joined([lead(what, brevity), "¿Cuál quieres decir?"]),
          listed(items, brevity < 4 ? GONE : GONE_SHORT, brevity, "\n"),
        ],
        "\n",
      ),
  instead:
    ({ gone, left, items }) =>
    (brevity) =>
      joined(
        [
          left > 0
            ? `Quedan ${left}: ${known(gone, brevity)}.`
            : `${brevity < 1 ? "Lo siento, " : ""}${known(gone, brevity)}: ${GONE}.${items.length > 0 ? " Queda:" : ""}`,
          listed(items, brevity < 4 ? GONE : GONE_SHORT, brevity, "\n"),
        ],
        "\n",
      ),
  doesNotCome:
    ({ offer, what }) =>
    (brevity) =>
      `${named(offer, brevity)} no viene en ${what === "colour" ? "ese color" : "esa talla"}.`,
  confirm:
    ({ lines, total, minutes }) =>
    (brevity) =>
      joined(
        [
          `${orderLines(lines, brevity, (n) => `y ${n} más`)}: ${total}, en ${about(minutes)}.`,
          brevity < 2 ? "¿Lo pides? 1 SI 2 OTRA más 3 CAMBIAR" : "1 SI 2 OTRA 3 CAMBIAR",
        ],
        "\n",
      ),
  priceChanged: () => () => "El precio ha cambiado entretanto.",
  placed:
    ({ order: { number, word, stage, place, minutes }, total, paying, payMinutes, claimMinutes, payAt }) =>
    (brevity) =>
      joined([
        brevity < 1 && "¡Gracias!",
        `Pedido ${number}, palabra para retirarlo: ${word}.`,
        stage === "to-claim"
          ? `Ven al puesto en ${claimMinutes} min: así entra en la fila, ${about(minutes)}.`
          : `Puesto ${place} en la fila, ${about(minutes)}${paying === "first" ? " tras el pago" : ""}.`,
        paying === "first"
          ? `Paga ${total} en el puesto en ${payMinutes} min.`
          : paying === "at-pickup"
            ? `${total} al retirarlo.`
            : `${total}.`,
        brevity < 2 && "ESTADO cuando quieras.",
        payAt !== null && `Pago: ${payAt}`,
      ]),
  changeWhich:
    ({ items, more }) =>
    (brevity) =>
      joined(
        ["¿Cuál cambias?", listed(items, brevity < 4 ? GONE : GONE_SHORT, brevity, "\n"), more && "MÁS"],
        "\n",
      ),
  changeWhat:
    ({ known: what, items }) =>
    (brevity) =>
      `${lead(what, brevity)} ¿Qué cambias? ${listed(items, brevity < 4 ? GONE : GONE_SHORT, brevity)}`,
  part: (part) =>
    ({ offer: "prenda", colour: "color", size: "talla", quantity: "cantidad", all: "quitarla" })[part],
  dropWhich:
    ({ items }) =>
    (brevity) =>
      joined(["¿Cuál dejas?", listed(items, brevity < 4 ? GONE : GONE_SHORT, brevity, "\n")], "\n"),
  unconfirmed: () => "lo que no has confirmado",
  orderItem: (number) => `pedido ${number}`,
  dropped:
    ({ number }) =>
    (brevity) =>
      joined([`El pedido ${number} queda anulado.`, brevity < 1 && "Manda MENU para pedir otra vez."]),
  basketDropped: () => (brevity) =>
    joined(["No has pedido nada.", brevity < 1 && "Manda MENU para empezar."]),
  nothingToDrop: () => () => "No tienes ningún pedido que dejar. Manda MENU para pedir.",
  dropAsked:
    ({ number }) =>
    () =>
      `Puede que el pedido ${number} ya se estampe. Lo preguntamos: en un momento te decimos si queda anulado.`,
  cannotDrop:
    ({ number, stage }) =>
    () =>
      stage === "pressing" || stage === "ready"
        ? `El pedido ${number} ya ${stage === "ready" ? "espera listo" : "se estampa"}; ven al puesto, por favor.`
        : `No tienes abierto el pedido ${number}.`,
  howToDrop: () => () =>
    "Para dejar un pedido manda SOLTAR. (CANCELAR a solas para todos los mensajes, no el pedido.)",
  status:
    ({ orders }) =>
    (brevity) =>
      orders.map((order) => standing(order, brevity)).join("\n"),
  ended:
    ({ number, stage }) =>
    (brevity) =>
      standing({ number, stage, word: "", place: 0, minutes: 0, short: 0 }, brevity),
  noOrder: () => () => "Aún no tienes pedido. Manda MENU para ver lo que hay.",
  numberConfirmed:
    ({ number }) =>
    () =>
      `Este teléfono recibe desde ahora los mensajes del pedido ${number}.`,
  codeDoesNotFit: () => (brevity) =>
    joined(["Ese número y esa palabra no van juntos.", brevity < 2 && "Míralos en la página de tu pedido."]),
  codeTriedTooOften: () => () => "Demasiados intentos. Ven al puesto y di allí tu palabra.",
  help:
    ({ stall, contact }) =>
    (brevity) =>
      joined([
        `${brevity < 4 ? `${stall}: ` : ""}MENU para pedir, ATRAS un paso, ESTADO de tu pedido, SOLTAR para dejarlo, TALLAS, STOP para no recibir más.`,
        contact !== null && `Aquí estamos: ${contact}`,
      ]),
  chests:
    ({ items }) =>
    (brevity) =>
      `${brevity < 2 ? "Pulgadas de pecho, en plano" : "Pecho, pulgadas"}: ${items.map(({ name, price }) => `${named(name, brevity)} ${price ?? ""}`).join(", ")}.`,
  noChests: () => () => "Las tallas no se han medido; pruébate una en el puesto.",
  optedOut:
    ({ stall, contact }) =>
    (brevity) =>
      joined([
        `${brevity < 4 ? stall : "OK"}: no te llegan más mensajes. Tus pedidos siguen${contact === null ? "; pregunta en el puesto" : `; aquí estamos: ${contact}`}.`,
        "START para recibirlos otra vez.",
      ]),
  optedIn:
    ({ stall }) =>
    () =>
      `Te damos la bienvenida de nuevo a ${stall}.`,
  notUnderstood: () => (brevity) => (brevity < 2 ? "Perdona, no te he entendido." : "No entendido."),
  notOnTheList: () => () => "Ese número no sale en la lista.",
  nothingBack: () => () => "Ese era el primer paso.",
  welcome: () => (brevity) => joined(["¡De nada!", brevity < 1 && "ESTADO te dice cómo va tu pedido."]),
  idle: () => () => "Manda MENU para pedir, AYUDA para saber más.",
  closed:
    ({ stall, opens }) =>
    (brevity) =>
      joined([`${brevity < 2 ? stall : "El puesto"} no abre ahora.`, `Vuelve: ${opens}.`]),
  over:
    ({ stall, fair, contact }) =>
    (brevity) =>
      joined([
        brevity < 4 ? `${stall} en ${fair} ha terminado.` : "La feria ha terminado.",
        brevity < 1 && "¡Gracias por venir!",
        contact !== null && `Aquí estamos: ${contact}`,
      ]),
  paused: () => (brevity) =>
    joined(["Ahora mismo no tomamos pedidos.", brevity < 4 && "Prueba otra vez en unos 10 minutos."]),
  lineTooLong:
    ({ closes, opens }) =>
    (brevity) =>
      joined([
        brevity < 1 && "Lo siento:",
        `la fila es muy larga para estampar eso antes de cerrar a las ${closes}.`,
        opens !== null && `Vuelve: ${opens}.`,
      ]),
  tooMany:
    ({ most, of }) =>
    (brevity) =>
      of === "open-orders"
        ? `Tienes ${most} pedidos abiertos; retira uno antes, o ven al puesto.`
        : joined([
            `Hasta ${most} ${of === "line" ? "de una clase" : "en un pedido"} por mensaje${brevity < 4 ? ";" : "."}`,
            brevity < 4 && "para más ven al puesto.",
          ]),
  allGone: () => () => "Ahora no queda nada. Pregunta en el puesto, por favor.",
  webOff: () => () => "Ahora no se puede pedir en esta página; ven al puesto o manda un mensaje.",
  sorry: () => () => "Eso no se puede pedir ahora; ven al puesto, por favor.",
  ready:
    ({ order: { number, word }, toPay }) =>
    () =>
      joined([`¡Pedido ${number} listo! Ven con tu palabra: ${word}.`, toPay !== null && `Trae ${toPay}.`]),
  late:
    ({ order: { number, minutes } }) =>
    (brevity) =>
      joined([brevity < 1 && "Lo siento:", `el pedido ${number} tarda más: ahora ${about(minutes)}.`]),
  paid:
    ({ order: { number, place, minutes } }) =>
    (brevity) =>
      joined([
        brevity < 1 && "Pagado, gracias.",
        `Pedido ${number}:`,
        `Puesto ${place} en la fila, ${about(minutes)}.`,
      ]),
  short:
    ({ order: { number, short }, items, instead, paid }) =>
    (brevity) =>
      joined(
        [
          `${brevity < 1 ? "Lo siento: " : ""}${short} del pedido ${number} no se puede estampar, falta material.${paid && brevity < 2 ? " Tu dinero queda a salvo." : ""}${instead ? " En su lugar:" : ""}`,
          listed(items, brevity < 4 ? GONE : GONE_SHORT, brevity, "\n"),
        ],
        "\n",
      ),
  whichStall:
    ({ items }) =>
    (brevity) =>
      joined(
        [
          brevity < 1
            ? "¿Qué puesto? Escribe su número; STALLS muestra esta lista otra vez."
            : "¿Qué puesto? Escribe su número.",
          listed(items, GONE, brevity, "\n"),
        ],
        "\n",
      ),
  keepWaiting: () => "esperar a que llegue",
  leaveOut: ({ paid }) => (paid ? "sin eso, dinero de vuelta en el puesto" : "sin eso"),
  leftOut:
    ({ number, less }) =>
    (brevity) =>
      joined([
        `El pedido ${number} va sin eso y cuesta ${less} menos.`,
        brevity < 2 && "Si pagaste, te lo devuelven en el puesto.",
      ]),
  tookInstead:
    ({ order: { number, minutes }, taken }) =>
    (brevity) =>
      `Hecho: ${known(taken, brevity)} en el pedido ${number}, al mismo precio. Listo en ${about(minutes)}.`,
  dropIt: ({ paid }) => (paid ? "dejarlo, dinero de vuelta en el puesto" : "dejarlo"),
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
  closingSoon:
    ({ order: { number, word }, closes }) =>
    () =>
      `El pedido ${number} espera listo y cerramos a las ${closes}. Ven con tu palabra: ${word}.`,
};

export const es: Wording = { sentences, words: esWords };

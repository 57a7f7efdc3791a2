/** Spanish: questions and their answers. */
import { joined, rows } from "../wording/compose.ts";
import { atHour, hour } from "../wording/es.ts";
import type { AnswerSentences, AnswerWording, QuestionWords } from "./shape.ts";

const WHAT = "que/q/k/ke/cual";
const THEY = "estan/estas/andan/quedan/queda/encuentro/encontrar/ubicados";
const KID =
  "nino/ninos/nina/ninas/nene/nena/nenes/nenas/bebe/bebes/infantil/infantiles/chiquito/chiquitos/juvenil/juveniles";
const GARMENT =
  "camiseta/camisetas/playera/playeras/remera/remeras/polera/ropa/chamarra/chaqueta/sudadera/gorra/bolsa/prenda/prendas";

const words: QuestionWords = {
  subjects: {
    exchange: {
      words:
        "devolucion/devoluciones/devolver/devolverla/devolverlo/regresarla/regresarlo/reembolso/reembolsos",
      patterns: [
        "si queda/quedan/sirve chica/chico/grande/pequena/mal/apretada",
        "si no queda/quedan/sirve",
        "aceptan/hacen/hay cambios",
        "cambiar/cambio si/talla no",
      ],
    },
    "own-garment": {
      patterns: [
        `mi/propia/propio/mia/mio ${GARMENT}`,
        `${GARMENT} mi/propia/propio/mia/mio/traigo/trae/tengo`,
        `traigo/llevo/traer/llevar mi/mis/propia/propio ${GARMENT}`,
        "estampan/imprimen/estampar ropa/prenda/algo trae/traigo/propia/tengo",
      ],
      not: "pedido/pedidos/donde/esta/lista/listo",
    },
    shipping: {
      words:
        "envio/envios/envian/enviar/enviarlo/mandan/mandar/mandarlo/mandarmelo/domicilio/internet/online/web/paqueteria/correo",
    },
    fabric: {
      words:
        "algodon/poliester/material/materiales/tela/lavar/lava/lavan/lavarla/lavarlas/lavado/encoge/encogen/secadora/destine/destinen",
    },
    children: {
      patterns: [
        `tienen/tiene/hay/venden/algo/talla/tallas ${KID}`,
        "hijo/hija/hijos/hijas/nino/nina anos/queda/talla/tallas",
        "anos queda/talla/tallas",
        "nene/nena/nino/nina/bebe anos/meses",
      ],
    },
    payment: {
      alone: "tarjeta/tarjetas/efectivo/credito/debito/pago/pagos/pagar",
      patterns: [
        "aceptan/acepta/reciben/recibe/toman/cobran/manejan tarjeta/tarjetas/efectivo/credito/debito",
        "pagar/pago/paga/pagas con tarjeta/cel/celular/telefono/efectivo/movil",
        "como paga/pagar/pago",
        "solo/nomas efectivo/tarjeta",
        "efectivo/tarjeta o tarjeta/efectivo",
      ],
    },
    hours: {
      alone: "horario/horarios/hora/cierran/cierre/abren/abierto/abiertos/cerraron/cerrado/cerrados",
      patterns: [
        `hasta/asta ${WHAT} hora`,
        `hasta/asta cuando`,
        `${WHAT} hora/horas cierran/abren/terminan/estan/van/cierra/abre`,
        "cuando cierran/abren/terminan",
        "siguen/estan/esta/sigue abierto/abiertos/abierta",
        `${WHAT} horario`,
        "estan/estaran/van/abren manana/hoy/sabado/domingo/lunes/viernes",
        `${WHAT} dias`,
      ],
      not: "pedido/listo/lista",
    },
    place: {
      alone: "ubicacion/direccion/lugar",
      patterns: [
        `donde/onde/adonde ${THEY}`,
        "donde esta puesto/stand/local/tienda",
        "no los/las/te encuentro/veo",
        `en ${WHAT}/cual parte/fila/pasillo/lado/puesto`,
        "donde recojo/recoger/recogen/paso/puesto/stand/local",
        "como llego/llegar",
      ],
      not: "bano/banos/estacionamiento/comida",
    },
    price: {
      words: "cuanto/cuestan/cuesta",
      alone: "precio/precios",
      patterns: ["precio/precios", "a como", "que valor/precio"],
      not: "tiempo/tardan/tarda/demora/demoran/espera/esperar/falta/faltan/en",
    },
    wait: {
      alone: "espera/fila/cola/tardan/tarda",
      patterns: [
        "cuanto tardan/tarda/demora/demoran/falta/espera/esperar/tiempo",
        `en/cuanto/${WHAT} tiempo/rato`,
        "hay/mucha/larga fila/cola/espera",
        "fila/cola larga",
        "tardan/demoran mucho",
      ],
    },
  },
  fillers:
    "el la los las un una unos unas de d del en con por x para y o u a al que q k me te se nos lo le ya hay es son esta estan hola buenas buenos dias tardes favor si solo como cual cuales su sus tienen tiene puedo puede pueden acepta aceptan reciben talla tallas ropa ahora ahorita",
  cues: "que/q/k/cual/cuales/donde/cuando/cuanto/cuanta/como/hay/tienen/tiene/aceptan/es/son/hacen/puedo/se/pueden/si",
};

const min = (minutes: number): string => `unos ${minutes} min`;

const sentences: AnswerSentences = {
  payment:
    ({ paying, byLink }) =>
    (brevity) =>
      joined([
        paying === "first"
          ? "Pagas en el puesto, y luego lo estampamos."
          : paying === "at-pickup"
            ? "Pagas en el puesto al recogerlo."
            : "Pagas en el puesto.",
        byLink && brevity < 4 && "O con el enlace del mensaje de tu pedido.",
        brevity < 2 && "Pregunta ahí por la tarjeta.",
      ]),
  place:
    ({ stall, fair }) =>
    () =>
      `Busca ${stall} en ${fair}.`,
  hours:
    ({ closes, opens }) =>
    (brevity) =>
      joined([
        closes === null ? "Ahora está cerrado." : `Abierto hasta ${hour(closes)}.`,
        opens !== null && (closes === null || brevity < 3) && `Abrimos otra vez ${atHour(opens)}.`,
      ]),
  children:
    ({ sizes, smallest }) =>
    (brevity) =>
      sizes.length === 0
        ? `No hay tallas de niño; la más chica es ${smallest}.`
        : `Sí, tallas de niño: ${rows(sizes, brevity, (n) => `y ${n} más`).join(", ")}.`,
  ownGarment:
    ({ name, more }) =>
    () =>
      `Sí, tráela al puesto (${name}${more === null ? "" : `, ${more} más`}).`,
  fabric:
    ({ blanks }) =>
    (brevity) =>
      joined([
        `${rows(
          blanks.map(({ name, fabric }) => `${name}: ${fabric}`),
          brevity,
          (n) => `y ${n} más`,
        ).join(", ")}.`,
        brevity < 4 && "Lávala al revés y en frío; sin plancha sobre el estampado.",
      ]),
  exchange: () => () => "Tráelo al puesto con tu número y vemos qué se puede hacer.",
  shipping: () => () => "Lo que pides aquí se recoge en el puesto. Si quieres un envío, pregunta ahí.",
  askStall: () => () => "Pregunta en el puesto, por favor.",
  price:
    ({ prices, plusTax }) =>
    (brevity) =>
      `${rows(
        prices.map(({ name, price }) => `${name} ${price}`),
        brevity,
        (n) => `y ${n} más`,
      ).join(", ")}${plusTax && brevity < 4 ? ", más impuesto" : ""}.`,
  wait:
    ({ minutes, paused }) =>
    () =>
      paused
        ? `Estamos en pausa; al seguir tarda ${min(minutes)}.`
        : `Si pides ahora, tarda ${min(minutes)}.`,
  goOn: "¿Y qué número de la lista?",
  fabrics: { cotton: "algodón", polyester: "poliéster", blend: "mezcla", other: "pregúntanos" },
};

export const ES_ANSWERS: AnswerWording = { words, sentences };

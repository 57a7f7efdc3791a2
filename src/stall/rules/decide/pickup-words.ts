/** The words that go with pickup numbers: easy to say, spell and tell apart. */

import type { Language } from "../../../model/basics/words.ts";

/** Plain, short, unlike-sounding words; the customer says one at hand-over. */
// biome-ignore format: ten words a line
const ENGLISH = [
  "acorn", "almond", "amber", "anchor", "anvil", "apple", "arrow", "aspen", "autumn", "bagel",
  "bamboo", "banjo", "barley", "basil", "basket", "beacon", "birch", "biscuit", "blossom", "bobbin",
  "bonnet", "border", "bottle", "breeze", "brick", "bridge", "bucket", "buckle", "bugle", "button",
  "cabin", "cactus", "candle", "canoe", "canvas", "caramel", "carrot", "castle", "cedar", "cherry",
  "chimney", "cider", "cinder", "clover", "cobalt", "comet", "copper", "coral", "cotton", "cradle",
  "crayon", "cricket", "crystal", "daisy", "dapple", "denim", "desert", "dipper", "domino", "donkey",
  "dragon", "drum", "eagle", "elbow", "ember", "engine", "falcon", "feather", "fennel", "ferry",
  "fiddle", "finch", "flint", "forest", "fossil", "garden", "garlic", "ginger", "glacier", "goblet",
  "granite", "grape", "guitar", "hammer", "harbor", "harvest", "hazel", "heron", "hickory", "honey",
  "horizon", "iris", "island", "ivory", "jacket", "jasper", "jigsaw", "juniper", "kettle", "kiosk",
  "kitten", "ladder", "lagoon", "lantern", "lemon", "lentil", "lilac", "lizard", "lobster", "lotus",
  "magnet", "maple", "marble", "meadow", "melon", "mirror", "mitten", "mosaic", "muffin", "mustard",
  "napkin", "nectar", "needle", "nickel", "nutmeg", "oatmeal", "ocean", "olive", "onion", "orbit",
  "orchid", "otter", "oyster", "paddle", "panda", "paper", "parsley", "peanut", "pebble", "pencil",
  "pepper", "piano", "pickle", "pigeon", "pillow", "planet", "plum", "pocket", "poppy", "prairie",
  "pumpkin", "puzzle", "quartz", "quilt", "rabbit", "radish", "raven", "ribbon", "river", "robin",
  "rocket", "rosemary", "saddle", "sailor", "salmon", "sandal", "satin", "shadow", "signal", "silver",
  "slipper", "sparrow", "spider", "spinach", "spruce", "summer", "sunset", "syrup", "tango", "teapot",
  "temple", "thistle", "thunder", "ticket", "timber", "tomato", "trumpet", "tulip", "tunnel", "turnip",
  "turtle", "umbrella", "valley", "vanilla", "velvet", "violet", "violin", "waffle", "walnut", "walrus",
  "whistle", "willow", "window", "winter", "wizard", "yarrow", "zebra", "zephyr",
] as const;

/** The same in Spanish, in letters without accents: they are typed on phones. */
// biome-ignore format: ten words a line
const SPANISH = [
  "abeja", "abrigo", "aceite", "aguja", "ajo", "aldea", "alfombra", "almendra", "ancla", "anillo",
  "ardilla", "armario", "arroz", "avena", "avestruz", "bahia", "ballena", "banco", "barco", "barro",
  "bodega", "bosque", "botella", "brisa", "bufanda", "burro", "caballo", "cabra", "cacao", "cadena",
  "calabaza", "camello", "camino", "campana", "canela", "cangrejo", "canoa", "caracol", "carreta", "castillo",
  "cebolla", "cedro", "cereza", "cerro", "chaleco", "ciervo", "ciruela", "clavel", "cobre", "cocina",
  "cometa", "conejo", "coral", "corcho", "cuaderno", "cuchara", "delfin", "desierto", "dragon", "durazno",
  "elefante", "encino", "escoba", "espejo", "espiga", "estrella", "farol", "flauta", "fogata", "foca",
  "fresa", "fuente", "gallina", "ganso", "garza", "gato", "girasol", "globo", "gorila", "granja",
  "grillo", "guitarra", "hamaca", "harina", "helado", "hormiga", "huerta", "iglesia", "iguana", "isla",
  "jarra", "jazmin", "jirafa", "ladrillo", "laguna", "lechuga", "lenteja", "libro", "llave", "lobo",
  "luna", "madera", "maiz", "maleta", "mango", "manzana", "mapa", "marfil", "mariposa", "martillo",
  "melon", "mercado", "miel", "molino", "montura", "mosaico", "naranja", "nido", "nogal", "nube",
  "oliva", "orilla", "oveja", "palmera", "paloma", "papel", "paraguas", "pato", "pepino", "perla",
  "piano", "pimienta", "planeta", "pluma", "pozo", "pradera", "puente", "queso", "rama", "raqueta",
  "reloj", "remo", "roble", "romero", "rueda", "sandia", "semilla", "sendero", "silla", "sombra",
  "sombrero", "tambor", "taza", "tejado", "tigre", "tomate", "toro", "trigo", "trompeta", "tulipan",
  "uva", "vaca", "valle", "vela", "ventana", "violin", "yegua", "zanahoria", "zapato", "zorro",
] as const;

const PICKUP_WORDS: Readonly<Record<Language, readonly string[]>> = { en: ENGLISH, es: SPANISH };

export const PICKUP_WORD_SET: ReadonlySet<string> = new Set(Object.values(PICKUP_WORDS).flat());

/** A word for a new order, not one that an open order already has if that can be helped. */
export function pickupWord(chance: number, language: Language, taken: (word: string) => boolean): string {
  const words = PICKUP_WORDS[language];
  const start = Math.floor(chance * words.length);
  for (let step = 0; step < words.length; step++) {
    const word = words[(start + step) % words.length];
    if (word !== undefined && !taken(word)) return word;
  }
  return words[start] ?? ENGLISH[0];
}

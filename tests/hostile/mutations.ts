/** Bodies that go wrong in the ways that bodies go wrong: by accident, by other programs, and on purpose. */
import type { Random } from "../../src/maths/random.ts";

const STRANGE: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  1.5,
  1e308,
  -0,
  2 ** 53,
  2 ** 31,
  "",
  " ",
  "\u0000",
  "\u202Eevil",
  "\uD800",
  "🧵".repeat(50),
  "a".repeat(5000),
  "=1+1",
  "<img src=x onerror=alert(1)>",
  "../../etc",
  "2027-02-30T25:61:61Z",
  "9999999-99T",
  "__proto__",
  "constructor",
  [],
  {},
  [[[[[[]]]]]],
  { __proto__x: 1 },
  { toString: 1, length: -1 },
];
const NAMES = [
  "__proto__",
  "constructor",
  "prototype",
  "toString",
  "",
  "0",
  "length",
  "type",
  "lines",
  "$ref",
];

type Parent = { readonly at: Record<string, unknown> | unknown[]; readonly key: string };

/** Every place in a value that something else could be put into. */
function placesIn(value: unknown, found: Parent[] = []): readonly Parent[] {
  if (typeof value !== "object" || value === null) return found;
  for (const key of Object.keys(value)) {
    found.push({ at: value as Parent["at"], key }); // an object or a list, as was just asked
    placesIn((value as Record<string, unknown>)[key], found);
  }
  return found;
}

function put({ at, key }: Parent, value: unknown): void {
  if (Array.isArray(at)) at[Number(key)] = value;
  // Assigning to __proto__ would set the prototype here; in the body it is to be a field like any other.
  else Object.defineProperty(at, key, { value, enumerable: true, configurable: true, writable: true });
}

/** Changes a value in one place, as JSON would carry it. */
function changed(value: unknown, random: Random): unknown {
  const copy: unknown = structuredClone(value);
  const places = placesIn(copy);
  if (places.length === 0) return random.pick(STRANGE);
  const place = random.pick(places);
  const { at, key } = place;
  switch (random.below(5)) {
    case 0:
      if (Array.isArray(at)) at.splice(Number(key), 1);
      else delete at[key];
      break;
    case 1:
      put(place, random.pick(STRANGE));
      break;
    case 2:
      if (Array.isArray(at)) at.push(...Array.from({ length: 1 + random.below(300) }, () => at[0]));
      else put({ at, key: random.pick(NAMES) }, random.pick(STRANGE));
      break;
    case 3:
      put(place, Array.isArray(at) ? at[0] : [(at as Record<string, unknown>)[key]]);
      break;
    default: {
      const other = random.pick(places);
      put(place, structuredClone((other.at as Record<string, unknown>)[other.key]));
    }
  }
  return copy;
}

const deep = (open: string, close: string, levels: number): string =>
  open.repeat(levels) + close.repeat(levels);

/** Text that is no longer the JSON it was. */
function garbled(text: string, random: Random): string {
  const at = random.below(Math.max(1, text.length));
  switch (random.below(7)) {
    case 0:
      return text.slice(0, at);
    case 1:
      return text.slice(0, at) + String.fromCharCode(random.below(65_536)) + text.slice(at + 1);
    case 2:
      return text + text;
    case 3:
      return deep("[", "]", 1 + random.below(20_000));
    case 4:
      return deep('{"a":', "", 1 + random.below(8_000));
    case 5:
      return `{"__proto__":${text},"constructor":{"prototype":${text}}}`;
    default:
      return text.replaceAll('"', random.pick(["'", "", '\\"', "“"]));
  }
}

/** A request's body: as the schema has it, changed in up to three places, or no longer JSON. */
export function bodyFrom(value: unknown, random: Random): string {
  const chance = random.next();
  if (chance < 0.35) return JSON.stringify(value) ?? "null";
  if (chance > 0.9) return garbled(JSON.stringify(value) ?? "null", random);
  let body = value;
  for (let n = 1 + random.below(3); n > 0; n--) body = changed(body, random);
  return JSON.stringify(body) ?? "null";
}

const WORDS =
  "1 2 3 9 99 101 0 -1 x2 yes no si menu status drop stop start help navy sand black l xl medium kite otter tee cap gorra camiseta quiero two dos and y + , . ? ! order cancel back more change".split(
    " ",
  );

/** Texts as a customer, a child, a script or a cat may write them. */
export function saying(random: Random): string {
  const chance = random.next();
  if (chance < 0.7) return Array.from({ length: 1 + random.below(6) }, () => random.pick(WORDS)).join(" ");
  if (chance < 0.8)
    return random
      .pick(WORDS)
      .repeat(1 + random.below(200))
      .slice(0, 1600);
  if (chance < 0.9)
    return Array.from({ length: random.below(60) }, () =>
      String.fromCodePoint(random.below(random.chance(0.5) ? 0x250 : 0xffff)),
    ).join("");
  const piece = random.pick([
    " ",
    "\n",
    "a",
    "1",
    "x",
    "ñ",
    "👕",
    "\u0301",
    "1,",
    "2 x ",
    "--",
    "((((",
    "l l ",
  ]);
  return piece.repeat(random.below(1600)).slice(0, 1600);
}

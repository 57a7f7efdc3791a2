/** The shape a blank is drawn in: one of a handful, typed by the stall or guessed from the blank's name. */
import { z } from "zod";

export const Outline = z
  .enum(["tee", "long-sleeve", "hoodie", "tank", "cap", "tote", "bandana", "other"])
  .meta({ id: "Outline", description: "The shape that a blank is drawn in" });
export type Outline = z.infer<typeof Outline>;

/** Words that name a shape, the more particular first: a "hooded long-sleeve tee" has a hood. */
const WORDS: readonly (readonly [RegExp, Outline])[] = [
  [/hood|capucha|sudadera/, "hoodie"],
  [/long.?sleeve|manga larga|sweatshirt|crewneck|jumper|sweater/, "long-sleeve"],
  [/tank|vest|singlet|sleeveless|sin mangas|tirantes/, "tank"],
  [/\bcaps?\b|\bhats?\b|beanie|visor|gorr[ao]/, "cap"],
  [/\btotes?\b|\bbags?\b|shopper|sack|bols[ao]/, "tote"],
  [/bandana|neckerchief|scarf|kerchief|panuelo/, "bandana"],
  [/\btees?\b|t-?shirt|\bshirts?\b|camiseta|playera|polera|remera/, "tee"],
];

/** The outline that a blank's name suggests; `other` if none. Everything on a cap platen is a cap. */
export function guessedOutline(name: string, platen: "flat" | "cap" = "flat"): Outline {
  const plain = name.normalize("NFD").replaceAll(/\p{M}/gu, "").toLowerCase();
  return WORDS.find(([words]) => words.test(plain))?.[1] ?? (platen === "cap" ? "cap" : "other");
}

/** The outline of a blank: what the stall chose, or else what its name suggests. */
export const outlineOf = (blank: {
  readonly name: string;
  readonly platen: "flat" | "cap";
  readonly outline?: Outline | undefined;
}): Outline => blank.outline ?? guessedOutline(blank.name, blank.platen);

/** The menu: blanks, designs, offers and presses. */

import { z } from "zod";
import { BlankId, ColourId, DesignId, OfferId, PressId, SizeId } from "../basics/ids.ts";
import { Currency, minorUnits } from "../basics/money.ts";
import { Language, plainText } from "../basics/words.ts";
import { Outline } from "../garment/outline.ts";
import { Spot } from "../garment/spot.ts";
import { Swatch } from "../garment/swatch.ts";
import { Answers } from "./answers.ts";
import { Bundle } from "./bundles.ts";
import { Rules } from "./rules.ts";
import { GarmentWish } from "./wishes.ts";

/** The heated shape of a press: a blank needs one kind. */
export const Platen = z.enum(["flat", "cap"]).meta({ id: "Platen" });
export type Platen = z.infer<typeof Platen>;

const Fabric = z.enum(["cotton", "polyester", "blend", "other"]).meta({ id: "Fabric" });

/** A name, with its translations if the stall wrote any. */
const named = {
  name: plainText(40),
  translations: z.partialRecord(Language, plainText(40)).optional(),
  offered: z
    .boolean()
    .default(true)
    .describe("false: stays in its place on the menu but can no longer be chosen"),
};

export const Colour = z
  .strictObject({
    id: ColourId,
    ...named,
    swatch: Swatch.optional().describe("Drawn in this; without it, in what the name suggests"),
  })
  .meta({ id: "Colour" });
export type Colour = z.infer<typeof Colour>;

export const Size = z
  .strictObject({
    id: SizeId,
    ...named,
    chestInches: z.number().min(5).max(100).optional().describe("Width across the chest, laid flat"),
    surcharge: minorUnits().optional().describe("What it costs on top of an offer's price, in minor units"),
    child: z.boolean().default(false).describe("A child's size: never what a bare S, M or L means"),
  })
  .meta({ id: "Size" });
export type Size = z.infer<typeof Size>;

export const Blank = z
  .strictObject({
    id: BlankId,
    ...named,
    platen: Platen,
    fabric: Fabric.default("cotton"),
    outline: Outline.optional().describe("Without it, what the name suggests"),
    colours: z.array(Colour).min(1).max(40),
    sizes: z.array(Size).min(1).max(20),
  })
  .meta({ id: "Blank", description: "An undecorated item in its colours and sizes" });
export type Blank = z.infer<typeof Blank>;

export const TransferKind = z
  .enum(["screen-printed", "film", "cut-vinyl", "dye-sublimation"])
  .meta({ id: "TransferKind" });
export type TransferKind = z.infer<typeof TransferKind>;

export const Settings = z
  .strictObject({
    temperatureFahrenheit: z.int().min(150).max(450),
    dwellSeconds: z.int().min(1).max(120),
    pressure: z.enum(["light", "medium", "firm"]),
    peel: z.enum(["hot", "warm", "cold"]),
    presses: z.int().min(1).max(3).default(1).describe("How many times the platen comes down on it"),
    secondDwellSeconds: z.int().min(1).max(120).optional(),
  })
  .meta({ id: "Settings", description: "What a transfer needs; the supplier's sheet wins" });
export type Settings = z.infer<typeof Settings>;

export const Design = z
  .strictObject({
    id: DesignId,
    ...named,
    kind: TransferKind,
    widthInches: z.number().min(0.5).max(30),
    heightInches: z.number().min(0.5).max(30),
    settings: Settings,
    placement: plainText(80).optional().describe("Where it goes: centre front, 3 in below the collar"),
    spot: Spot.optional().describe("The same as data, for drawings; without it, read from those words"),
  })
  .meta({ id: "Design", description: "Artwork whose transfer is pressed on" });
export type Design = z.infer<typeof Design>;

export const Offer = z
  .strictObject({
    id: OfferId,
    ...named,
    blank: BlankId,
    design: DesignId,
    second: z
      .strictObject({ design: DesignId })
      .optional()
      .describe("A second transfer on every garment of it, pressed on its own: the back of a front and back"),
    price: minorUnits().describe("In minor units; before tax unless the rules say that prices include it"),
    surcharges: z
      .record(SizeId, minorUnits())
      .optional()
      .describe("By size, in place of the surcharge that the blank's size has; 0 for none"),
    colours: z.array(ColourId).min(1).max(40).optional().describe("Only these of the blank's colours"),
    sizes: z.array(SizeId).min(1).max(20).optional().describe("Only these of the blank's sizes"),
  })
  .meta({ id: "Offer", description: "One line of the menu: a design on a blank at a price" });
export type Offer = z.infer<typeof Offer>;

export const Press = z
  .strictObject({
    id: PressId,
    platen: Platen,
    garmentSeconds: z
      .int()
      .min(10)
      .max(900)
      .default(75)
      .describe("From one pull to the next, as the crew expects it, before any garment was timed"),
  })
  .meta({ id: "Press" });
export type Press = z.infer<typeof Press>;

export const Menu = z
  .strictObject({
    currency: Currency,
    language: Language.default("en"),
    blanks: z.array(Blank).min(1).max(24),
    designs: z.array(Design).min(1).max(60),
    offers: z.array(Offer).min(1).max(40),
    presses: z.array(Press).min(1).max(12),
    bundles: z.array(Bundle).max(8).optional().describe("Garments that cost less together"),
    wishes: z.array(GarmentWish).max(12).optional().describe("What the counter can take beyond the menu"),
    answers: Answers.optional().describe("Answers to people's questions, in the stall's own words"),
    rules: Rules.prefault({}),
  })
  .meta({ id: "Menu", description: "All that a stall sells and presses with, and its rules" });
export type Menu = z.infer<typeof Menu>;

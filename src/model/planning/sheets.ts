/**
 * Gang sheets: the planner's request and answer. The planner checks ranges itself (planning/sheets/faults.ts), so that
 * every fault is answered at once with its pointer and how to fix it.
 */
import { z } from "zod";

const length = (description: string) =>
  z.number().meta({ description: `${description}, in the request's unit` });
const money = (description: string) =>
  z.number().meta({ description: `${description}, in minor units of the currency` });
const inches = z.number().meta({ description: "Inches" });
const name = z.string().max(80);

export const SheetDesign = z
  .strictObject({
    id: name,
    name,
    width: length("Width of the printed art"),
    height: length("Height of the printed art"),
    count: z.number().meta({ description: "Transfers wanted" }),
    mayTurn: z.boolean().default(true).meta({ description: "The art may lie turned by 90 degrees" }),
    valueOfOneMore: money(
      "What one transfer more than wanted is worth; where some design has it, spare room is filled",
    ).optional(),
  })
  .meta({ id: "SheetDesign", description: "A design and how many transfers of it are wanted" });

const SheetPrice = z
  .strictObject({
    copies: z.number().meta({ description: "From this many copies of one layout" }),
    price: money("Price of each sheet"),
  })
  .meta({
    id: "SheetPrice",
    description: "One line of a price table: the price per sheet from this many copies of one layout",
  });

export const SheetSize = z
  .strictObject({
    id: name,
    name,
    width: length("Width of the sheet"),
    height: length("Height of the sheet"),
    margin: length("Margin kept clear along every edge"),
    gap: length("Gap kept between pieces"),
    minimumCopies: z
      .number()
      .default(1)
      .meta({ description: "Fewest copies of one layout that can be ordered" }),
    prices: z
      .array(SheetPrice)
      .meta({ description: "In rising order of copies; the first starts at the minimum copies or below" }),
  })
  .meta({ id: "SheetSize", description: "A size of sheet that can be bought, and its prices" });

const SheetQuestion = z
  .discriminatedUnion("ask", [
    z.strictObject({ ask: z.literal("least-cost") }),
    z.strictObject({
      ask: z.literal("affordable"),
      sheets: z.number().optional().meta({ description: "Sheets that can be afforded" }),
      money: money("Money that can be spent").optional(),
    }),
  ])
  .meta({
    id: "SheetQuestion",
    description:
      "The cheapest layouts that meet every count, or the best mix of transfers for so many sheets or so much money",
  });

export const SheetRequest = z
  .strictObject({
    unit: z.enum(["in", "cm"]).default("in"),
    currency: z
      .string()
      .regex(/^[A-Z]{3}$/)
      .default("USD")
      .meta({ description: "ISO 4217" }),
    designs: z.array(SheetDesign),
    sheets: z.array(SheetSize),
    extraLayoutPrice: money("Price of every layout after the first").default(0),
    cuts: z.enum(["free", "guillotine"]).default("free").meta({
      description:
        "guillotine: every piece can be cut out with straight cuts from edge to edge, as on a trimmer",
    }),
    question: SheetQuestion.default({ ask: "least-cost" }),
    steps: z.number().default(20_000_000).meta({ description: "Work allowed, in steps; more can only help" }),
    seed: z.number().default(1).meta({ description: "Same request and seed, same answer" }),
  })
  .meta({ id: "SheetRequest", description: "Designs, sheets and prices to plan gang sheets from" });

const Point = z.object({ x: inches, y: inches });

export const SheetPiece = z
  .object({
    design: name,
    x: inches.meta({ description: "Inches from the sheet's left edge" }),
    y: inches.meta({ description: "Inches from the sheet's bottom edge" }),
    width: inches.meta({ description: "Inches, as it lies" }),
    height: inches.meta({ description: "Inches, as it lies" }),
    turned: z.boolean(),
  })
  .meta({ id: "SheetPiece", description: "One transfer on a layout" });

const SheetCut = z
  .object({
    order: z.int(),
    direction: z.enum(["across", "upward"]),
    from: Point,
    to: Point,
  })
  .meta({ id: "SheetCut", description: "One straight cut from edge to edge of the part in hand" });

export const SheetRoom = z
  .object({
    design: name,
    use: z.enum(["cap-front", "pocket"]),
    width: inches,
    height: inches,
    x: inches,
    y: inches,
    turned: z.boolean(),
    scale: z.number().meta({ description: "Share of the design's own size" }),
  })
  .meta({ id: "SheetRoom", description: "A design at a smaller size that fits the room left on a layout" });

export const SheetLayout = z
  .object({
    layout: z.int(),
    sheet: name,
    width: inches,
    height: inches,
    copies: z.int(),
    pricePerSheet: z.int(),
    price: z.int(),
    pieces: z.array(SheetPiece),
    cuts: z
      .array(SheetCut)
      .nullable()
      .meta({ description: "In cutting order; null if straight cuts cannot separate the pieces" }),
    fill: z.number().meta({ description: "Share of the sheet that is printed" }),
    room: z.array(SheetRoom),
  })
  .meta({ id: "SheetLayout", description: "One layout, to be ordered in copies" });

export const SheetPlan = z
  .object({
    kind: z.literal("plan"),
    currency: z.string(),
    ask: z.enum(["least-cost", "affordable"]),
    layouts: z.array(SheetLayout),
    sheets: z.int(),
    cost: z.object({ sheets: z.int(), extraLayouts: z.int(), total: z.int() }),
    transfers: z.array(
      z.object({ design: name, wanted: z.int(), made: z.int(), spare: z.int(), missing: z.int() }),
    ),
    value: z.number().meta({
      description: "What the wanted transfers made are worth (affordable), or the spares (least-cost)",
    }),
    bound: z
      .object({
        measure: z.enum(["cost", "value"]),
        limit: z.number().meta({ description: "No plan costs less, or is worth more, than this" }),
        gap: z.number().meta({ description: "How far the plan is from the limit, as a share of it" }),
        proven: z.boolean().meta({ description: "The plan is proven to be the best" }),
      })
      .meta({ description: "How good the plan is" }),
    oneDesignASheet: z
      .object({ sheets: z.int(), cost: z.int(), savedSheets: z.int(), savedMoney: z.int() })
      .nullable()
      .meta({ description: "What the same counts cost with one design on every sheet" }),
    stepsUsed: z.int(),
    notes: z.array(z.string()),
  })
  .meta({ id: "SheetPlan", description: "Layouts and copies, with how good they are" });

export const SheetFault = z.object({ pointer: z.string(), fault: z.string(), mend: z.string() }).meta({
  id: "SheetFault",
  description: "One fault of a request: its place (RFC 6901), what is wrong, and how to fix it",
});

export const SheetRefusal = z
  .object({ kind: z.literal("refused"), faults: z.array(SheetFault) })
  .meta({ id: "SheetRefusal", description: "Why no sheets can be planned: every fault found" });

export type SheetDesign = z.infer<typeof SheetDesign>;
export type SheetSize = z.infer<typeof SheetSize>;
export type SheetRequest = z.infer<typeof SheetRequest>;
export type SheetPiece = z.infer<typeof SheetPiece>;
export type SheetRoom = z.infer<typeof SheetRoom>;
export type SheetLayout = z.infer<typeof SheetLayout>;
export type SheetPlan = z.infer<typeof SheetPlan>;
export type SheetFault = z.infer<typeof SheetFault>;
export type SheetRefusal = z.infer<typeof SheetRefusal>;

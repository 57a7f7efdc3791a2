import { z } from "zod";
import { Length, Weight } from "../basics/measure.ts";

/** Ranges are judged by the planner (planning/pitch-faults.ts), so that one answer names every fault at once. */
const Name = z.string().min(1).max(60);

export const Side = z.enum(["front", "back", "left", "right"]);
export type Side = z.infer<typeof Side>;

const Border = z.enum(["public", "crew", "closed"]).meta({
  description:
    "Who is on the other side: the public, only the crew, or nobody (a wall or a neighbour's back).",
});

export const Piece = z
  .strictObject({
    piece: Name,
    kind: z.enum(["counter", "table", "press", "rack", "other"]),
    width: Length.meta({ description: "Along its working side, with the stand or table it stands on." }),
    depth: Length,
    swing: z
      .strictObject({ side: z.enum(["behind", "left", "right"]), reach: Length })
      .optional()
      .meta({
        description:
          "Where a lid or arm swings out beyond the footprint, seen by the person who works at it.",
      }),
    clearance: Length.optional().meta({ description: "Kept free around it; a press has a default." }),
    standing: Length.optional().meta({ description: "Depth of floor kept free for who works at it." }),
  })
  .meta({ id: "Piece", description: "Something that stands on the pitch." });
export type Piece = z.infer<typeof Piece>;

export const PitchRequest = z
  .strictObject({
    pitch: z.strictObject({
      width: Length.meta({ description: "Along the front, where customers come." }),
      depth: Length,
    }),
    borders: z
      .strictObject({ back: Border.optional(), left: Border.optional(), right: Border.optional() })
      .optional()
      .meta({ description: "The front is the public's. Left out: crew behind, closed at the sides." }),
    pieces: z.array(Piece),
    queue: z
      .strictObject({ people: z.int(), where: z.enum(["inside", "outside"]) })
      .meta({ description: "Customers waiting at the counter, on the pitch or on the aisle before it." }),
    exit: z.strictObject({ side: Side.optional(), width: Length.optional() }).optional(),
    hotSide: z
      .strictObject({ distance: Length, reason: z.string().max(500).optional() })
      .optional()
      .meta({
        description: "Another distance between hot parts and the public; less than the rule needs a reason.",
      }),
    vehicles: z
      .array(z.strictObject({ vehicle: Name, payload: Weight, trips: z.int().optional() }))
      .optional(),
    cargo: z.array(z.strictObject({ item: Name, weight: Weight, count: z.int().optional() })).optional(),
  })
  .meta({ id: "PitchRequest" });
export type PitchRequest = z.infer<typeof PitchRequest>;

/** Millimetres; x runs right from the left edge, y back from the front edge. */
export const Rectangle = z
  .strictObject({ x: z.number(), y: z.number(), width: z.number(), depth: z.number() })
  .meta({ id: "Rectangle" });
export type Rectangle = z.infer<typeof Rectangle>;

const PlacedPiece = z.strictObject({
  piece: Name,
  kind: Piece.shape.kind,
  facing: Side.meta({ description: "The side it is worked from." }),
  footprint: Rectangle,
  swept: Rectangle.meta({ description: "With the swing of its lid." }),
  kept: Rectangle.meta({ description: "With its clearance." }),
  standing: Rectangle.nullable(),
  publicMillimetres: z
    .number()
    .nullable()
    .meta({ description: "From a hot part to the nearest place for the public." }),
});
export type PlacedPiece = z.infer<typeof PlacedPiece>;

const VehicleLoad = z.strictObject({
  vehicle: Name,
  trip: z.int(),
  items: z.array(z.strictObject({ item: Name, count: z.int() })),
  kilograms: z.number(),
  pounds: z.number(),
  payloadKilograms: z.number(),
});
export type VehicleLoad = z.infer<typeof VehicleLoad>;

export const PitchPlan = z
  .strictObject({
    fits: z.boolean(),
    widthMillimetres: z.number(),
    depthMillimetres: z.number(),
    placed: z.array(PlacedPiece),
    unplaced: z.array(z.strictObject({ piece: Name, why: z.string() })),
    would: z.array(z.string()).meta({ description: "Changes that were tried and do make it fit." }),
    queue: z.strictObject({ people: z.int(), room: z.int(), area: Rectangle, inside: z.boolean() }),
    hotDistanceMillimetres: z.number(),
    hotRule: z.strictObject({
      millimetres: z.number(),
      source: z.string(),
      overriddenBecause: z.string().nullable(),
    }),
    exit: z.strictObject({
      side: Side,
      widthMillimetres: z.number(),
      way: z.array(z.strictObject({ x: z.number(), y: z.number() })).meta({
        description: "From the deepest working place to the outside; empty when there is none.",
      }),
    }),
    freeSquareMetres: z.number(),
    vehicles: z
      .strictObject({ loads: z.array(VehicleLoad), left: z.array(z.string()), says: z.string() })
      .nullable(),
    notes: z.array(z.string()),
    cautions: z.array(z.string()),
  })
  .meta({ id: "PitchPlan" });
export type PitchPlan = z.infer<typeof PitchPlan>;

import { z } from "zod";
import { Length, MinorUnits, Temperature } from "../basics/measure.ts";
import { Generator, GeneratorAnswer } from "./generator.ts";
import { MoneyGiven } from "./plan-given.ts";

/** Ranges are judged by the planner (planning/power-faults.ts), so that one answer names every fault at once. */
const Name = z.string().min(1).max(60);

export const Region = z
  .enum(["north-america", "united-kingdom", "europe"])
  .meta({ id: "Region", description: "Whose electrical rules the estimate follows." });
export type Region = z.infer<typeof Region>;

export const CordRun = z
  .strictObject({
    distance: Length.meta({
      description: "From the socket to the machine, along the way the cord will lie.",
    }),
    length: Length.optional().meta({
      description: "The cord's length; left out, the next usual length is taken.",
    }),
    size: z.string().max(20).optional().meta({
      description: 'The conductor of a cord already owned, such as "14 AWG" or "2.5 mm2"; it is judged.',
    }),
  })
  .meta({ id: "CordRun" });
export type CordRun = z.infer<typeof CordRun>;

export const PowerLoad = z
  .strictObject({
    load: Name.meta({ description: "A name used once in the request, such as press-a." }),
    kind: z.enum(["press", "till", "light", "computer", "motor", "other"]).meta({
      description: "motor: a fridge, a compressor, a pump, and everything that restarts automatically.",
    }),
    watts: z
      .number()
      .optional()
      .meta({ description: "From the specification plate. Give watts, amps or both." }),
    amps: z.number().optional(),
    volts: z
      .union([z.number(), z.strictObject({ from: z.number(), to: z.number() })])
      .optional()
      .meta({ description: "From the plate: one voltage, or a range for a universal supply (100 to 240)." }),
    startingWatts: z.number().optional().meta({
      description: "For a moment on switching on; a heater has none. A motor without it: four times.",
    }),
    restarts: z.boolean().optional().meta({
      description:
        "Starts again by itself at any time (thermostat, pressure switch); left out, all that surges.",
    }),
    powerFactor: z.number().optional().meta({
      description: "From the plate, 0.3 to 1; left out, 0.8 for a motor and 1 for the rest.",
    }),
    continuous: z.boolean().optional().meta({
      description: "At full current for three hours or more; left out, judged from the hours of the day.",
    }),
    ownCircuit: z.boolean().optional().meta({
      description: "Needs a circuit of its own; a press does by default, but may share with a till.",
    }),
    plugAmps: z.number().optional().meta({
      description: "What its plug is rated for. Left out: an ordinary plug (15 or 20 A in North America).",
    }),
    warmUpMinutes: z.number().optional().meta({ description: "Cold to working heat at its plate voltage." }),
    holdingShare: z
      .number()
      .optional()
      .meta({ description: "Share of its watts that holding heat takes, 0 to 1." }),
    cord: CordRun.optional(),
  })
  .meta({ id: "PowerLoad" });
export type PowerLoad = z.infer<typeof PowerLoad>;

const DistributionBox = z
  .strictObject({
    breakerAmps: z.number().meta({ description: "Of each of its own breakers, 15 or 20 A." }),
    outlets: z.int().meta({ description: "Outlets you use, each behind a breaker of its own." }),
  })
  .meta({
    id: "DistributionBox",
    description: "Stands between a large circuit and ordinary plugs; its outlets share the circuit equally.",
  });

export const CircuitKind = z
  .strictObject({ volts: z.number(), breakerAmps: z.number(), price: MoneyGiven.optional() })
  .meta({ id: "CircuitKind", description: "A kind of circuit that can be ordered." });
export type CircuitKind = z.infer<typeof CircuitKind>;

export const SiteCircuit = z
  .strictObject({
    circuit: Name,
    volts: z.number(),
    breakerAmps: z.number(),
    box: DistributionBox.optional(),
  })
  .meta({ id: "SiteCircuit", description: "A circuit the site gives, or an outlet of the generator." });
export type SiteCircuit = z.infer<typeof SiteCircuit>;

export const PowerRequest = z
  .strictObject({
    region: Region,
    currency: z
      .string()
      .regex(/^[A-Z]{3}$/, "must be an ISO 4217 code such as USD")
      .optional(),
    hours: z.number().meta({ description: "From the first warm-up to switching off." }),
    pressTemperature: Temperature.optional().meta({ description: "The hottest platen, for the cautions." }),
    loads: z.array(PowerLoad),
    circuits: z
      .array(SiteCircuit)
      .meta({ description: "What the site gives; empty when nothing is known yet." }),
    offered: z.array(CircuitKind).optional().meta({ description: "What could be ordered." }),
    generator: Generator.optional().meta({ description: "When it feeds the circuits above." }),
  })
  .meta({ id: "PowerRequest" });
export type PowerRequest = z.infer<typeof PowerRequest>;

const CircuitUse = z.strictObject({
  circuit: z.string(),
  volts: z.number(),
  breakerAmps: z
    .number()
    .meta({ description: "Of the breaker before the plugs: a box's own if it has one." }),
  carriesAmps: z.number().meta({ description: "Less than its breaker only behind a distribution box." }),
  receptacle: z.string().nullable().meta({
    description: "The receptacle, and the plugs that go into it; null if no standard can be cited.",
  }),
  ordered: z.boolean().meta({ description: "Not among the circuits given: to be ordered." }),
  loads: z.array(
    z.strictObject({ load: Name, amps: z.number(), countedAmps: z.number(), alone: z.boolean() }),
  ),
  amps: z.number(),
  countedAmps: z.number().meta({ description: "With continuous loads counted by the region's factor." }),
  roomAmps: z.number(),
});
export type CircuitUse = z.infer<typeof CircuitUse>;

export const PricedKind = z
  .strictObject({
    volts: z.number(),
    breakerAmps: z.number(),
    price: MinorUnits.nullable().meta({ description: "Null if no price was given." }),
  })
  .meta({ id: "PricedKind" });
export type PricedKind = z.infer<typeof PricedKind>;

const Change = z.discriminatedUnion("change", [
  z.strictObject({ change: z.literal("more-circuits"), circuits: z.array(PricedKind), says: z.string() }),
  z.strictObject({ change: z.literal("fewer-presses"), leave: z.array(Name), says: z.string() }),
  z.strictObject({
    change: z.literal("smaller-presses"),
    presses: z.array(Name),
    mostWatts: z.number(),
    says: z.string(),
  }),
  z.strictObject({
    change: z.literal("distribution-box"),
    circuits: z.array(z.string()),
    breakerAmps: z.number(),
    outlets: z.int(),
    says: z.string(),
  }),
  z.strictObject({
    change: z.literal("larger-generator"),
    runningWatts: z.number(),
    startingWatts: z.number(),
    says: z.string(),
  }),
]);
export type Change = z.infer<typeof Change>;

const CordAdvice = z.strictObject({
  load: Name,
  size: z.string().nullable().meta({ description: "The lightest safe conductor; null when none listed is." }),
  ratedAmps: z.number().nullable().meta({ description: "The table's ampacity." }),
  lengthMetres: z.number(),
  lengthFeet: z.number(),
  amps: z.number(),
  dropVolts: z.number().nullable().meta({ description: "At full plate current." }),
  dropShare: z.number().nullable(),
  voltsAtLoad: z.number().nullable().meta({ description: "With a heater's own fall in current counted." }),
  heatShare: z
    .number()
    .nullable()
    .meta({ description: "Of the watts on the plate; goes with the square of the volts." }),
  warmUpMinutes: z.number().nullable().meta({ description: "Null when it has none, or never gets hot." }),
  own: z
    .strictObject({
      size: z.string(),
      safe: z.boolean(),
      judgement: z.enum(["good", "advised-against", "unsafe"]),
      why: z.array(z.string()),
    })
    .nullable()
    .meta({ description: "Judgement on the cord that was named." }),
  says: z.string(),
});
export type CordAdvice = z.infer<typeof CordAdvice>;

const WarmUp = z.strictObject({
  together: z.enum(["holds", "trips", "does-not-fit"]),
  turns: z.array(z.strictObject({ atMinute: z.number(), loads: z.array(Name) })),
  ready: z.array(z.strictObject({ load: Name, atMinute: z.number() })),
  allReadyMinute: z.number(),
  never: z.array(Name).meta({ description: "Loads that cannot be started at all on this supply." }),
});
export type WarmUp = z.infer<typeof WarmUp>;

const PowerCheck = z.strictObject({
  about: z.string().meta({ description: "A circuit, a load or the generator." }),
  holds: z.boolean(),
  says: z.string(),
  source: z.string().meta({ description: "The rule it follows; says so if it is from memory." }),
});
export type PowerCheck = z.infer<typeof PowerCheck>;

export const PowerPlan = z
  .strictObject({
    fits: z.boolean(),
    circuits: z.array(CircuitUse),
    circuitsUsed: z.int(),
    circuitsAtLeast: z
      .int()
      .meta({ description: "Proven: fewer cannot do. Equal to circuitsUsed when exact." }),
    unplaced: z.array(Name),
    order: z.string().meta({ description: "What to ask the organiser for, in one sentence." }),
    orderPrice: MinorUnits.nullable(),
    least: Change.nullable(),
    changes: z.array(Change),
    cords: z.array(CordAdvice),
    generator: GeneratorAnswer.nullable(),
    warmUp: WarmUp,
    notes: z.array(z.string()),
    cautions: z.array(z.string()),
    checks: z.array(PowerCheck),
    rules: z.array(z.strictObject({ rule: z.string(), source: z.string() })),
  })
  .meta({ id: "PowerPlan" });
export type PowerPlan = z.infer<typeof PowerPlan>;

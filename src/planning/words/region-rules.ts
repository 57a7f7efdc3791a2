import type { PricedKind, Region } from "../../model/planning/power.ts";

/** A figure or rule with its source. */
type Sourced = { readonly rule: string; readonly source: string };

/** A region's facts for an electrical estimate. Estimates only: the code in force and the fair's own rules decide. */
export type RegionRules = {
  readonly name: string;
  /** Voltages of the sockets one meets there, the ordinary one first. */
  readonly volts: readonly number[];
  /** A continuous load counts this many times against its breaker. */
  readonly continuousFactor: number;
  /** Hours at full current from which a load is continuous. */
  readonly continuousHours: number;
  /** Most of its circuit that one cord-and-plug load may draw, whatever the hours; null if no rule can be cited. */
  readonly oneLoadShare: number | null;
  /** The largest circuit that ordinary plugs go on directly; null if no rule can be cited. */
  readonly ordinaryPlugsUpToAmps: number | null;
  /** The circuits to ask for if nothing is known, the smallest first. */
  readonly usualCircuits: readonly Omit<PricedKind, "price">[];
  /** The ordinary plug. */
  readonly plugAmps: number;
  /** Fused plug: the fuse, not the breaker, protects the cord. */
  readonly plugIsFused: boolean;
  /** A drop along a cord beyond this share of the voltage is advised against. */
  readonly dropAdvised: number;
  /** A drop beyond this share is called unsafe here. */
  readonly dropLimit: number;
  readonly cordSystem: "awg" | "mm2";
  /** Usual made-up cord lengths, in metres. Common practice, no source. */
  readonly cordLengthsMetres: readonly number[];
  readonly rules: readonly Sourced[];
};

const METRES_PER_FOOT = 0.3048;

const EUROPEAN_RULES: readonly Sourced[] = [
  {
    rule: "The design current of a circuit is at most the rating of its breaker, and that is at most what the cable may carry; nothing is added for continuous loads.",
    source: "IEC 60364-4-43, 433.1 (from memory)",
  },
  {
    rule: "Outdoor and fairground sockets up to 32 A need a residual-current device of 30 mA.",
    source: "IEC 60364-7-740 and 60364-4-41, 411.3.3 (from memory)",
  },
  {
    rule: "Voltage drop: 3 % for lighting and 5 % for other uses from the origin. Here a cord is advised against beyond 3 % and called unsafe beyond 5 %.",
    source: "IEC 60364-5-52, annex G (from memory)",
  },
  {
    rule: "Cord resistance: class 5 copper at 20 °C, taken to 70 °C.",
    source: "IEC 60228, class 5; temperature by its annex",
  },
  {
    rule: "Which plugs may go on which circuit, and how much of a circuit one load may take, is not judged here: ask the licensed electrician.",
    source: "no rule that we could cite",
  },
];

export const REGION_RULES: Readonly<Record<Region, RegionRules>> = {
  "north-america": {
    name: "North America",
    volts: [120, 240],
    continuousFactor: 1.25,
    continuousHours: 3,
    oneLoadShare: 0.8,
    ordinaryPlugsUpToAmps: 20,
    usualCircuits: [
      { volts: 120, breakerAmps: 20 },
      { volts: 240, breakerAmps: 20 },
      { volts: 240, breakerAmps: 30 },
      { volts: 240, breakerAmps: 50 },
    ],
    plugAmps: 15,
    plugIsFused: false,
    dropAdvised: 0.03,
    dropLimit: 0.05,
    cordSystem: "awg",
    cordLengthsMetres: [25, 50, 100].map((feet) => feet * METRES_PER_FOOT),
    rules: [
      {
        rule: "A breaker is rated for at least the non-continuous load plus 125 % of the continuous load.",
        source: "NEC 210.20(A)",
      },
      {
        rule: "Continuous: the greatest current is expected for three hours or more.",
        source: "NEC Article 100",
      },
      {
        rule: "One cord-and-plug load draws at most 80 % of its circuit, whatever the hours, if the circuit has two or more outlets. A double receptacle is two, so every circuit is taken to have them.",
        source:
          "NEC 210.23(A)(1) for 15 and 20 A; 210.23(B) for 30 A (from memory); kept for larger circuits too",
      },
      {
        rule: "A 15 A circuit has 15 A receptacles, a 20 A circuit 15 or 20 A ones, a 30 A circuit 30 A ones, a 50 A circuit 50 A ones.",
        source: "NEC Table 210.21(B)(3)",
      },
      {
        rule: "A 15 A plug goes into a 15 A or a 20 A receptacle of its voltage, and into none that is larger.",
        source: "ANSI/NEMA WD 6 (from memory)",
      },
      {
        rule: "Voltage drop of 3 % to the farthest outlet and 5 % in all is advised, not required. A cord that loses more than 5 % is called unsafe here.",
        source: "NEC 210.19(A) and 215.2(A), informational notes; the limit is our own",
      },
      {
        rule: "Cord ampacity with two current-carrying conductors at 30 °C.",
        source: "NEC Table 400.5(A)(1), column B",
      },
      {
        rule: "A 20 A circuit may feed a made-up extension cord of 16 AWG or larger.",
        source: "NEC 240.5(B)(4)",
      },
      { rule: "Cord resistance: stranded uncoated copper at 75 °C.", source: "NEC Chapter 9, Table 8" },
      { rule: "Temporary outdoor sockets need ground-fault protection.", source: "NEC 590.6 (from memory)" },
    ],
  },
  "united-kingdom": {
    name: "United Kingdom",
    volts: [230],
    continuousFactor: 1,
    continuousHours: 3,
    oneLoadShare: null,
    ordinaryPlugsUpToAmps: null,
    usualCircuits: [
      { volts: 230, breakerAmps: 16 },
      { volts: 230, breakerAmps: 32 },
    ],
    plugAmps: 13,
    plugIsFused: true,
    dropAdvised: 0.03,
    dropLimit: 0.05,
    cordSystem: "mm2",
    cordLengthsMetres: [5, 10, 15, 25, 50],
    rules: [
      ...EUROPEAN_RULES,
      {
        rule: "A plug holds a fuse of at most 13 A, which protects the cord behind it.",
        source: "BS 1363 (from memory)",
      },
      { rule: "Cord ampacity of flexible cords.", source: "BS 7671, Table 4F3A (from memory)" },
    ],
  },
  europe: {
    name: "Europe",
    volts: [230],
    continuousFactor: 1,
    continuousHours: 3,
    oneLoadShare: null,
    ordinaryPlugsUpToAmps: null,
    usualCircuits: [
      { volts: 230, breakerAmps: 16 },
      { volts: 230, breakerAmps: 32 },
    ],
    plugAmps: 16,
    plugIsFused: false,
    dropAdvised: 0.03,
    dropLimit: 0.05,
    cordSystem: "mm2",
    cordLengthsMetres: [5, 10, 15, 25, 50],
    rules: [
      ...EUROPEAN_RULES,
      { rule: "Cord ampacity of flexible cords, the values of BS 7671 Table 4F3A.", source: "from memory" },
    ],
  },
};

/**
 * How far a platen stays from where the public can stand: arm's reach. In millimetres.
 * IEC 60364-4-41, annex B, takes 1.25 m as the horizontal reach of an outstretched arm (from memory; it is
 * written for live parts, and taken here for hot ones).
 */
export const HOT_RULE = {
  millimetres: 1250,
  source: "arm's reach of 1.25 m, IEC 60364-4-41, annex B (from memory)",
} as const;

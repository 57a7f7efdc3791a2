/**
 * The least distance of a platen from the public, in millimetres: arm's reach. IEC 60364-4-41, annex B, takes 1.25 m as
 * the horizontal reach of an outstretched arm (from memory; written for live parts, used here for hot ones).
 */
export const HOT_RULE = {
  millimetres: 1250,
  source: "arm's reach of 1.25 m, IEC 60364-4-41, annex B (from memory)",
} as const;

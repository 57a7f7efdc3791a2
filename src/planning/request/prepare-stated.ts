import type { StatedDemand } from "../../model/planning/plan-given.ts";
import type { FaultPath, Faults } from "./faults.ts";
import type { Reader } from "./given.ts";
import { sharesOf } from "./prepare-crowd.ts";

/** Faults of a stated distribution that its shape alone does not show. */
export function checkStated(demand: StatedDemand, path: FaultPath, read: Reader, faults: Faults): void {
  switch (demand.kind) {
    case "negative-binomial":
      if (demand.deviation ** 2 <= demand.mean) {
        faults.add(
          [...path, "deviation"],
          "is no larger than chance alone makes it",
          `give more than ${Math.sqrt(demand.mean).toPrecision(3)}, or use a poisson demand`,
        );
      }
      return;
    case "uniform":
      if (demand.high <= demand.low)
        faults.add([...path, "high"], "is not above low", "put the larger figure in high");
      return;
    case "table": {
      sharesOf(
        demand.rows.map(({ chance }, index) => ({ given: chance, at: [...path, "rows", index, "chance"] })),
        [...path, "rows"],
        "the chances",
        read,
        faults,
      );
      demand.rows.forEach((row, index) => {
        const before = demand.rows[index - 1];
        if (before !== undefined && row.garments <= before.garments) {
          faults.add(
            [...path, "rows", index, "garments"],
            "is not above the row before",
            "put the rows in rising order, each count once",
          );
        }
      });
      return;
    }
    case "normal":
    case "poisson":
    case "observed":
      return;
    default:
      demand satisfies never;
  }
}

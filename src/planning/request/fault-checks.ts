import { type FaultPath, type Faults, gatherFaults } from "./faults.ts";

/** Gathers faults, with the checks that the planners share. */
export type Checks = Faults & {
  /**
   * Checks that a number, if there is one, lies between two ends, both allowed; else adds a fault. `what` begins a
   * sentence.
   */
  readonly between: (
    path: FaultPath,
    value: number | undefined,
    least: number,
    most: number,
    what: string,
  ) => boolean;
  /** Names that must differ from one another. */
  readonly distinct: (names: readonly (readonly [FaultPath, string])[], what: string) => void;
};

export function gatherChecks(): Checks {
  const faults = gatherFaults();
  return {
    ...faults,
    between: (path, value, least, most, what) => {
      if (value === undefined || (value >= least && value <= most)) return true;
      faults.add(path, `${what} is ${value}`, `give a number from ${least} to ${most}`);
      return false;
    },
    distinct: (names, what) => {
      const seen = new Set<string>();
      for (const [path, name] of names) {
        if (seen.has(name)) faults.add(path, `${what} "${name}" is named twice`, "give each its own name");
        seen.add(name);
      }
    },
  };
}

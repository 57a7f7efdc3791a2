import { type MendableFault, pointer } from "../../model/basics/faults.ts";

export type FaultPath = readonly (string | number)[];

/** Collects every fault of a request, so that all are answered at once. */
export type Faults = {
  readonly add: (path: FaultPath, detail: string, mend: string) => void;
  readonly found: () => readonly MendableFault[];
};

export function gatherFaults(): Faults {
  const list: MendableFault[] = [];
  return {
    add: (path, detail, mend) => {
      list.push({ pointer: pointer(path), detail, mend });
    },
    found: () => list,
  };
}

/** One thing wrong with a request: where (RFC 6901 pointer in a URI fragment), what, and what would mend it. */
export type Fault = { readonly pointer: string; readonly detail: string; readonly mend: string };

export type Path = readonly (string | number)[];

/** Gathers every fault of a request, so that all are told at once. */
export type Faults = {
  readonly add: (path: Path, detail: string, mend: string) => void;
  readonly found: () => readonly Fault[];
};

export function gatherFaults(): Faults {
  const list: Fault[] = [];
  return {
    add: (path, detail, mend) => {
      const parts = path.map((part) => `/${String(part).replaceAll("~", "~0").replaceAll("/", "~1")}`);
      list.push({ pointer: `#${parts.join("")}`, detail, mend });
    },
    found: () => list,
  };
}

/**
 * `npm run keep-store`: plays half a simulated fair and keeps the rows of its objects, one on each line, in
 * `stall-SHAPE.jsonl` and `fair-SHAPE.jsonl` beside this file. Run it once for a released shape, and never again: the
 * kept rows are what people have.
 */
import { existsSync, writeFileSync } from "node:fs";
import { isDeepStrictEqual } from "node:util";
import { run } from "../simulation/whole/run.ts";

const SEED = 4;
const ACTS = 140;
type Kept = { readonly name: string; readonly rows: Map<string, unknown> };

const kept: Kept[] = [];
let taken: readonly (readonly [string, string])[] = [];

function take(): void {
  taken = kept.map(({ name, rows }) => {
    const lines = [...rows].sort(([one], [other]) => (one < other ? -1 : 1));
    for (const line of lines)
      if (!isDeepStrictEqual(JSON.parse(JSON.stringify(line)), structuredClone(line)))
        throw new Error(`${line[0]} is not kept by JSON`);
    const shape = rows.get("records-version") ?? 1;
    return [`${name}-${shape}.jsonl`, `${lines.map((line) => JSON.stringify(line)).join("\n")}\n`];
  });
}

const { fault } = await run(
  SEED,
  ({ index }) => {
    if (index === ACTS) take();
    return index < ACTS;
  },
  (house) => {
    const cells = [
      { name: "fair", rows: house.fair.rows },
      { name: "stall", rows: [...house.stalls.values()][0]?.rows },
    ];
    for (const { name, rows } of cells) {
      if (rows === undefined) throw new Error("the fair has no stall");
      const seen = new Map<string, unknown>();
      kept.push({ name, rows: seen });
      const [set, remove] = [rows.set.bind(rows), rows.delete.bind(rows)];
      rows.set = (key, value) => {
        seen.set(key, structuredClone(value));
        set(key, value);
      };
      rows.delete = (key) => {
        seen.delete(key);
        return remove(key);
      };
    }
  },
);
if (fault !== null) throw new Error(fault.message);
for (const [name, text] of taken) {
  const file = `${import.meta.dirname}/${name}`;
  if (existsSync(file)) console.log(`${name} is kept already and stays as it is`);
  else {
    writeFileSync(file, text);
    console.log(`${name}: ${text.length} bytes`);
  }
}

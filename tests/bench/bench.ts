/**
 * `npm run bench -- NAME [--json]`: runs one bench, or every one without a name. `--instances FILE` is read
 * by the bench of sheets.
 * A bench is a file beside this one that exports `bench`.
 */
import { readdir } from "node:fs/promises";
import { arch, availableParallelism, platform } from "node:os";
import { type Bench, type Figure, met } from "./figure.ts";

const NOT_BENCHES = new Set(["bench.ts", "figure.ts", "place.ts"]);

function inWords(goal: Figure["goal"]): string {
  if (goal === null) return "";
  return "atLeast" in goal ? `at least ${goal.atLeast}` : `at most ${goal.atMost}`;
}

async function load(name: string): Promise<Bench> {
  const module = (await import(`./${name}.ts`)) as { bench: Bench }; // each bench file exports exactly this
  return module.bench;
}

const args = process.argv.slice(2);
const json = args.includes("--json");
const wanted = args.filter((argument, at) => !argument.startsWith("--") && args[at - 1] !== "--instances");
const files = await readdir(new URL(".", import.meta.url), { withFileTypes: true });
const all = files
  .filter((entry) => entry.isFile() && entry.name.endsWith(".ts") && !NOT_BENCHES.has(entry.name))
  .map((entry) => entry.name.replace(/\.ts$/, ""));
const unknown = wanted.filter((name) => !all.includes(name));
if (unknown.length > 0) {
  console.error(`No bench called ${unknown.join(", ")}. There are: ${all.join(", ")}.`);
  process.exit(2);
}

if (!json) console.log(`${platform()} ${arch()}, ${availableParallelism()} cores, Node ${process.version}\n`);
for (const name of wanted.length > 0 ? wanted : all) {
  const bench = await load(name);
  for (const figure of await bench.run()) {
    const reached = met(figure);
    if (json) {
      console.log(JSON.stringify({ ...figure, goal: inWords(figure.goal) || null, met: reached }));
      continue;
    }
    const value = Number.isInteger(figure.figure) ? String(figure.figure) : figure.figure.toPrecision(4);
    const verdict = reached === null ? "" : reached ? "met" : "NOT MET";
    console.log(
      `${figure.bench.padEnd(8)} ${figure.name.padEnd(62)} ${value.padStart(10)} ${figure.unit.padEnd(12)} ${inWords(figure.goal).padEnd(14)} ${verdict}`,
    );
  }
}

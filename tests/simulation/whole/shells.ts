/** Which files of src may ask for the time and for chance: read off what they import and call. */
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";

const root = join(import.meta.dirname, "../../../src");
/** The objects that a simulation runs. */
const OBJECTS = ["stall/stall.ts", "fair/fair.ts"];

/** The files that a file's code needs when it runs: imports of types only are gone by then. */
const importsOf = (file: string, text: string): readonly string[] =>
  [...text.matchAll(/^(?:import|export)\s(?!type\b)[^"]*?from\s+"(\.{1,2}\/[^"]+)"/gm)].map(([, path = ""]) =>
    join(dirname(file), path),
  );

/** Code without comments. */
const codeIn = (text: string): string => text.replaceAll(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, "");

/** The class that an object hands its storage to, by the file it is imported from. */
function storageKeeper(file: string, code: string): string {
  const keeper = /new (\w+)\(\s*this\.ctx\.storage\b/.exec(code)?.[1];
  const from = new RegExp(`import\\s[^;]*\\b${keeper}\\b[^;]*?from\\s+"([^"]+)"`).exec(code)?.[1];
  if (keeper === undefined || from === undefined) throw new Error(`${file} hands its storage to nobody`);
  return join(dirname(file), from);
}

/** A call of the network begins where the outside does. */
const callsNetwork = (code: string): boolean => /(?<![.\w])fetch\(/.test(code);

/**
 * The shells, by their full names: what keeps an object's storage, and what calls the network, among all that the objects
 * import. Every other file of src is handed the time and chance as arguments.
 */
export function shells(): ReadonlySet<string> {
  const found = new Set<string>();
  const seen = new Set<string>();
  const objects = OBJECTS.map((file) => join(root, file));
  const waiting = [...objects];
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    if (seen.has(file)) continue;
    seen.add(file);
    const code = codeIn(readFileSync(file, "utf8"));
    waiting.push(...importsOf(file, code));
    if (objects.includes(file)) found.add(storageKeeper(file, code));
    if (callsNetwork(code)) found.add(file);
  }
  return found;
}

/** The tree itself: which room may use which, how large a room may be, and that no import runs in a circle. */
import { globSync, readFileSync } from "node:fs";
import { dirname, join, normalize } from "node:path/posix";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("..", import.meta.url));

/**
 * The floors of the house, top to bottom. A room may use the rooms on floors below its own; rooms on one floor do not
 * know each other. A folder belongs to the longest name here that it begins with.
 */
const FLOORS: readonly (readonly string[])[] = [
  ["src/worker.ts", "src/local"],
  ["src/http"],
  ["src/screens"],
  ["src/stall"],
  ["src/stall/calls"],
  ["src/stall/transact.ts"],
  ["src/stall/messages"],
  ["src/stall/storage"],
  ["src/stall/rules"],
  ["src/stall/line"],
  ["src/stall/day"],
  ["src/stall/stock"],
  ["src/stall/state"],
  ["src/fair"],
  ["src/chat", "src/planning"],
  ["src/lessons", "src/pictures", "src/texting", "src/time"],
  ["src/model"],
  ["src/maths", "src/tracing"],
];

const MOST_FILES = 15;

const files = globSync("src/**/*.{ts,tsx}", { cwd: root }).sort();
const known = new Set(files);

/** The files of src that a file names in its imports, types included. */
function importsOf(file: string): readonly string[] {
  const text = readFileSync(join(root, file), "utf8");
  return [...text.matchAll(/(?:\bfrom|\bimport)\s*\(?\s*"(\.{1,2}\/[^"]+)"/g)]
    .map(([, path]) => normalize(join(dirname(file), path ?? "")))
    .filter((target) => known.has(target));
}

const imports = new Map(files.map((file) => [file, importsOf(file)]));

/** The room of a file, and its floor counted from the top. */
function roomOf(file: string): { readonly room: string; readonly floor: number } {
  const rooms = FLOORS.flatMap((names, floor) => names.map((room) => ({ room, floor })));
  const found = rooms
    .filter(({ room }) => file === room || file.startsWith(`${room}/`))
    .sort((one, other) => other.room.length - one.room.length)[0];
  if (found === undefined) throw new Error(`${file} stands in no room of this list`);
  return found;
}

/** Every file that can be reached from itself, with the way round. */
function circles(): readonly string[] {
  const done = new Set<string>();
  const found: string[] = [];
  const visit = (file: string, way: readonly string[]): void => {
    const start = way.indexOf(file);
    if (start >= 0) {
      found.push([...way.slice(start), file].join(" -> "));
      return;
    }
    if (done.has(file)) return;
    for (const target of imports.get(file) ?? []) visit(target, [...way, file]);
    done.add(file);
  };
  for (const file of files) visit(file, []);
  return found;
}

describe("the house", () => {
  it("has no imports in a circle, types included", () => {
    expect(circles()).toEqual([]);
  });

  it("imports downward only", () => {
    const upward = files.flatMap((file) => {
      const from = roomOf(file);
      return (imports.get(file) ?? []).flatMap((target) => {
        const to = roomOf(target);
        return to.room === from.room || to.floor > from.floor ? [] : [`${file} -> ${target}`];
      });
    });
    expect(upward).toEqual([]);
  });

  it(`has rooms of ${MOST_FILES} files at the most`, () => {
    const sizes = new Map<string, number>();
    for (const file of globSync("src/**/*.*", { cwd: root })) {
      sizes.set(dirname(file), (sizes.get(dirname(file)) ?? 0) + 1);
    }
    expect([...sizes].filter(([, size]) => size > MOST_FILES)).toEqual([]);
  });

  it("gives a type's name to one thing only, in the rooms that work together", () => {
    const homes = new Map<string, string[]>();
    // Pages, planners and local tools are left out: their names stay inside their own room.
    const apart = /^src\/(?:screens|planning|model\/planning|local|maths|lessons)\//;
    for (const file of files.filter((one) => !apart.test(one))) {
      const text = readFileSync(join(root, file), "utf8");
      for (const [, name] of text.matchAll(/^export (?:type|interface|class|abstract class) (\w+)/gm))
        homes.set(name ?? "", [...(homes.get(name ?? "") ?? []), file]);
    }
    expect([...homes].filter(([, where]) => where.length > 1)).toEqual([]);
  });
});

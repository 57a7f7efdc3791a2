/** Help: no link is dead, every command exists as it is written, and the search finds what a crew types. */
import { execFile } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { beforeAll, describe, expect, it } from "vitest";
import { found, foundWords } from "../../src/screens/client/help/search.ts";
import { placeOf } from "../../src/screens/pages/help/answer.ts";
import { SUBJECTS } from "../../src/screens/pages/help/subjects.ts";
import { type Running, shared } from "./running.ts";

const root = new URL("../../", import.meta.url);
const fileText = (path: string): string => readFileSync(new URL(path, root), "utf8");

let running: Running;
beforeAll(async () => {
  running = await shared();
});

/** The text of an address; throws if it has none. */
async function textAt(path: string): Promise<string> {
  const response = await fetch(running.url + path);
  if (response.status !== 200) throw new Error(`${path} answered ${response.status}`);
  return response.text();
}

const hrefsIn = (text: string): readonly string[] =>
  [...text.matchAll(/href="([^"]+)"/g)]
    .map(([, href]) => href ?? "")
    .filter((href) => !href.startsWith("/assets/"));

const PAGES = ["/help", "/help/booklet", ...SUBJECTS.map(({ id }) => `/help/${id}`)];

it("leads nowhere that is not there, down to the question", async () => {
  const texts = new Map(await Promise.all(PAGES.map(async (path) => [path, await textAt(path)] as const)));
  const links = [...texts].flatMap(([page, text]) =>
    hrefsIn(text).map((href) => ({
      page,
      href,
      path: href.replace(/#.*/, "") || page,
      place: href.split("#")[1],
    })),
  );
  expect(links.length).toBeGreaterThan(SUBJECTS.flatMap(({ answers }) => answers).length);
  for (const path of new Set(links.map((link) => link.path)))
    if (!texts.has(path)) texts.set(path, await textAt(path));
  const dead = links.filter(({ path, place }) => {
    if (place === undefined || place === "main") return false;
    return !texts.get(path)?.includes(`id="${place}"`);
  });
  expect(dead).toEqual([]);
});

it("gives each question of a subject a place of its own, and a name that no route has", () => {
  for (const { id, answers } of SUBJECTS) {
    const places = answers.map(([question]) => placeOf(question));
    expect([id, new Set(places).size]).toEqual([id, places.length]);
    expect(["api", "booklet"]).not.toContain(id);
  }
});

it("has every subject and every answer in the booklet", async () => {
  const booklet = await textAt("/help/booklet");
  for (const { answers } of SUBJECTS)
    for (const [question] of answers) expect(booklet).toContain(`id="${placeOf(question)}"`);
  expect(fileText("src/screens/styles/start.css")).toMatch(
    /@media print \{\s*\.booklet > section \{\s*break-before: page/,
  );
});

/** Commands of help, and of the README's blocks of commands. */
const commands = [
  ...SUBJECTS.flatMap(({ answers }) =>
    answers.flatMap(([, ...lines]) =>
      lines.flatMap((line) => (typeof line === "object" && "run" in line ? [line.run] : [])),
    ),
  ),
  ...[...fileText("README.md").matchAll(/```sh\n([\s\S]*?)```/g)].flatMap(([, block]) =>
    (block ?? "")
      .split("\n")
      .map((line) => line.replace(/\s+#.*/, "").trim())
      .filter((line) => /^(?:[A-Z_]+=\S+ )*np[mx] /.test(line)),
  ),
];

describe("every command", () => {
  const { scripts } = JSON.parse(fileText("package.json")) as { readonly scripts: Record<string, string> };
  const bare = [...new Set(commands.map((command) => command.replace(/^(?:[A-Z_]+=\S+ )+/, "")))];
  const settings = commands.flatMap((command) => command.match(/^(?:[A-Z_]+(?==\S+ ))+/) ?? []);

  it("of npm is a script of the package", () => {
    const names = bare.flatMap((command) => {
      const [, run, plain] = /^npm (?:run ([\w-]+)|(\w+))/.exec(command) ?? [];
      return run ?? (plain === undefined || plain === "ci" ? [] : plain);
    });
    expect(names.length).toBeGreaterThan(5);
    expect(names.filter((name) => scripts[name] === undefined)).toEqual([]);
    expect(bare.filter((command) => !/^np[mx] /.test(command))).toEqual([]);
  });

  it("sets only what the program reads", () => {
    const read = fileText("src/local/settings.ts");
    expect(settings.filter((name) => !read.includes(`"${name}"`))).toEqual([]);
    expect(settings).toContain("STALLPRESS_COPIES");
  });

  it("of wrangler is one that the installed wrangler has", async () => {
    const wanted = [
      ...new Set(
        bare.filter((one) => one.startsWith("npx wrangler ")).map((one) => one.slice("npx wrangler ".length)),
      ),
    ];
    expect(wanted).toContain("rollback");
    const run = promisify(execFile);
    const bin = fileURLToPath(new URL("node_modules/wrangler/bin/wrangler.js", root));
    const groups = [...new Set(wanted.map((command) => command.split(" ").slice(0, -1).join(" ")))];
    const help = await Promise.all(
      groups.map(async (group) => {
        const words = group.split(" ").filter((word) => /^[a-z]/.test(word));
        const { stdout } = await run(process.execPath, [bin, ...words.slice(0, 1), "--help"], {
          env: { ...process.env, WRANGLER_SEND_METRICS: "false" },
        });
        return stdout;
      }),
    );
    const unknown = wanted.filter((command) => {
      const words = command.split(" ").filter((word) => /^[a-z]/.test(word));
      return !help.some((text) => new RegExp(`^\\s*wrangler ${words.join(" ")}\\b`, "m").test(text));
    });
    expect(unknown).toEqual([]);
  }, 60_000);
});

describe("the search", () => {
  const entries = SUBJECTS.flatMap(({ answers }) =>
    answers.map(([question, ...lines]) => ({
      question,
      text: lines.filter((line) => typeof line === "string").join(" "),
    })),
  );
  it.each([
    ["spoiled", "A garment is spoiled"],
    ["roll back", "Roll back a live deployment"],
    ["ERASE ME", "Somebody wants to be forgotten"],
    ["upgr tablets", "Upgrade a live deployment with tablets open"],
    ["stick", "Keep copies on a stick"],
  ])("finds %s", (sought, question) => {
    expect(found(entries, sought)[0]?.question).toBe(question);
  });
  it("shows nothing for nothing, and says so if there is no answer", () => {
    expect(found(entries, "  ")).toEqual([]);
    expect(found(entries, "zeppelin")).toEqual([]);
    expect([foundWords(" ", 0), foundWords("x", 1), foundWords("x", 3)]).toEqual([
      "",
      "One answer.",
      "3 answers.",
    ]);
    expect(foundWords("zeppelin", 0)).toContain("Nothing about “zeppelin”");
  });
});

/**
 * No pattern the worker holds, its libraries' among them, can be made to run for long: each is judged by an analyser of
 * regular expressions (recheck, from the registry), which proves that its steps grow with the text's length at most, or
 * gives a text for which they do not.
 */
import { parse } from "acorn";
import { simple } from "acorn-walk";
import { checkSync } from "recheck";
import { beforeAll, expect, it } from "vitest";
import { Client } from "../../src/local/client.ts";
import { readSender } from "../../src/texting/senders.ts";
import { GATEWAY_SECRET } from "../http/secrets.ts";
import { BUNDLING, loaded, workerText } from "./in-process.ts";

/** Patterns that may take longer, because nothing a stranger sends ever reaches them, or nothing long. */
const NEVER_GIVEN: Readonly<Record<string, string>> = {
  "/^-+|-+$/g": "zod's slugify, which no schema here uses",
  "/^[-+]?P(?!$)(?:(?:[-+]?\\d+Y)|(?:[-+]?\\d+[.,]\\d+Y$))?(?:(?:[-+]?\\d+M)|(?:[-+]?\\d+[.,]\\d+M$))?(?:(?:[-+]?\\d+W)|(?:[-+]?\\d+[.,]\\d+W$))?(?:(?:[-+]?\\d+D)|(?:[-+]?\\d+[.,]\\d+D$))?(?:T(?=[\\d+-])(?:(?:[-+]?\\d+H)|(?:[-+]?\\d+[.,]\\d+H$))?(?:(?:[-+]?\\d+M)|(?:[-+]?\\d+[.,]\\d+M$))?(?:[-+]?\\d+(?:[.,]\\d+)?S)?)??$/":
    "zod's long duration, which no schema here uses",
  "/\\{[^}]+\\}/g": "hono reads the worker's own routes with it, once",
  "/\\{(?:\\{[\\d,]+\\}|[^}])+\\}/g": "hono reads the worker's own routes with it, once",
  "/\\/{(.+?)}/g": "zod-openapi reads the worker's own routes with it, once",
  "/0+$/": "structured-headers writes numbers with it, of at most three decimals",
};

/** Only libphonenumber has digits of four scripts: it is given forty characters at most, and no letter or semicolon. */
const SHORT_ONLY = /０-９٠-٩۰-۹/;

const written = new Set<string>();
const builtBy = new Set<string>();
const built = new Set<string>();

/** Replaces the worker's constructor, to collect the patterns it makes. */
const Noting = new Proxy(RegExp, {
  construct: (kind, [source, flags]: [string | RegExp, string | undefined]) => {
    const made = new kind(source, flags);
    built.add(String(made));
    return made;
  },
  apply: (_, __, [source, flags]: [string | RegExp, string | undefined]) => new Noting(source, flags),
});

beforeAll(async () => {
  const text = await workerText("");
  const lines = text.split("\n");
  const fileAt = (line: number): string => {
    for (let at = line - 1; at >= 0; at--) {
      const file = /^\/\/ (\S+\.\w+)$/.exec(lines[at] ?? "")?.[1];
      if (file !== undefined) return file;
    }
    return "?";
  };
  simple(parse(text, { ecmaVersion: "latest", sourceType: "module", locations: true }), {
    Literal: ({ regex }) => {
      if (regex !== undefined && regex !== null) written.add(`/${regex.pattern}/${regex.flags}`);
    },
    NewExpression: ({ callee, loc }) => {
      if (callee.type === "Identifier" && callee.name === "RegExp") builtBy.add(fileAt(loc?.start.line ?? 0));
    },
  });

  // What is put together while the worker runs is seen by running it.
  Object.assign(globalThis, { workersRegExp: Noting });
  const { fetch } = (await loaded(`const RegExp = globalThis.workersRegExp;\n${text}`))();
  expect((await new Client("http://stallpress.test", GATEWAY_SECRET, fetch).get("/v1/nowhere")).status).toBe(
    404,
  );
}, BUNDLING);

/** A pattern without a repetition, and with few optional parts, takes few steps: there is nothing to judge. */
const repeats = (pattern: string): boolean => /[*+{]/.test(pattern) || pattern.split("?").length > 8;

/** The analyser stops by the clock and then knows nothing: on a busy machine it needs longer than its usual ten seconds. */
const PATIENCE = { timeout: 90_000 };

/**
 * A router's pattern is a tree of segments: its only repetitions stop at the next slash, and what follows one is a slash
 * or the end. It reads a path once for each way down the tree, of which there is a fixed number. The analyser takes half
 * a minute over the largest.
 */
const isTreeOfSegments = (pattern: string): boolean => {
  const rest = pattern
    .replaceAll(/\(\[\^\/\]\+\)(?=\\\/|\$\(\)|\(\?:\\\/|\(\?:\$\(\))/g, "")
    .replaceAll("(?:|\\/[^]*)$()", "")
    .replace("|[^]*$())/", "");
  return pattern.startsWith("/^(?:\\/") && !/[*+{]/.test(rest);
};

const judged = new Map<string, string | null>();

/** The analyser's objection to a pattern; null if its steps grow at most with the text's length. */
function judge(pattern: string): string | null {
  const end = pattern.lastIndexOf("/");
  const { status, complexity, attack } = checkSync(
    pattern.slice(1, end),
    pattern.slice(end + 1),
    PATIENCE,
  ) as {
    readonly status: string;
    readonly complexity?: { readonly summary: string };
    readonly attack?: { readonly pattern: string };
  };
  return status === "safe" ? null : `${pattern} ${complexity?.summary ?? status}: ${attack?.pattern ?? ""}`;
}

/** The objections to every pattern not known to be at most linear; each pattern is judged once. */
function slow(patterns: Iterable<string>): readonly string[] {
  return [...patterns]
    .filter((pattern) => repeats(pattern) && !isTreeOfSegments(pattern))
    .flatMap((pattern) => {
      const before = judged.get(pattern);
      const said = before === undefined ? judge(pattern) : before;
      judged.set(pattern, said);
      return said === null ? [] : [said];
    });
}

it("judges: a pattern known to be slow is found, with a text for it", () => {
  expect(slow(["/^(a+)+$/"])[0]).toMatch(/exponential/);
  expect(slow(["/ +$/"])[0]).toMatch(/2nd degree/);
  expect(slow(["/^(a?){30}a{30}$/"])).toHaveLength(1);
  expect(slow(["/^[a-z0-9-]{1,40}$/"])).toEqual([]);
  expect(isTreeOfSegments("/^(?:\\/at\\/([^/]+)(?:$()|\\/([^/]+)$()))/")).toBe(true);
  expect(isTreeOfSegments("/^(?:\\/at\\/([^/]+)([^/]+)$())/")).toBe(false);
  expect(isTreeOfSegments("/^(?:\\/at\\/(\\d+)$())/")).toBe(false);
});

it("holds only patterns whose steps grow with the text's length at most", () => {
  expect(written.size).toBeGreaterThan(150);
  for (const known of Object.keys(NEVER_GIVEN)) expect(written).toContain(known);
  expect(slow([...written].filter((pattern) => NEVER_GIVEN[pattern] === undefined))).toEqual([]);
}, 400_000);

it("puts together only such patterns, the routes' own among them", () => {
  expect([...builtBy].filter((file) => !file.startsWith("node_modules/"))).toEqual([
    "src/model/basics/region.ts",
    "src/texting/sending/retry-after.ts",
  ]);
  expect([...built].some((pattern) => pattern.includes("fairs"))).toBe(true);
  expect([...built].some((pattern) => pattern.includes("GMT"))).toBe(true);
  expect([...built].some((pattern) => SHORT_ONLY.test(pattern))).toBe(true);
  expect([...built].filter(isTreeOfSegments).length).toBeGreaterThan(3);
  expect(slow([...built].filter((pattern) => !SHORT_ONLY.test(pattern)))).toEqual([]);
}, 400_000);

it("hands the library for numbers nothing that it would be long over", () => {
  for (const text of [
    `+1${"- ".repeat(100_000)}`,
    `${"0".repeat(100_000)}!`,
    `${" ,-".repeat(30_000)}Б`,
    // For hours, if the part after the semicolon were read.
    `tel:2125550123;phone-context=0${"0.0".repeat(70)}!`,
    `2125550123;PHONE-CONTEXT=0${"0.0".repeat(70)}!`,
  ])
    expect(readSender(text, "US").type).toMatch(/phone|unreadable|name/);
});

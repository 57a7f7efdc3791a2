/** English on screens is spelt as the stall's buyers spell it: by its currency, else by the browser's language. */
import { globSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { afterEach, expect, it } from "vitest";
import { spellingIn, spelt } from "../../src/model/basics/region.ts";
import { spellAs } from "../../src/screens/client/kit/spelling.ts";
import { Fields, type FormContext } from "../../src/screens/client/plan/form/field.tsx";
import { pages } from "../../src/screens/pages.tsx";

/** The two spellings of what these screens are about, from memory. */
const AMERICAN =
  /\b(?:colors?|center(?:ed|s)?|organizers?|canceled|recognized?|(?:centi|milli)?meters?|favorites?)\b/i;
const BRITISH =
  /\b(?:colours?|centre[ds]?|organisers?|cancelled|recognised?|(?:centi|milli)?metres?|favourites?)\b/i;

/** Spanish, and the name of a media query. */
const OTHER = /qué, color, talla|prefers-color-scheme/g;

/** The readable text of a page: neither its tags nor its scripts. */
const read = (html: string): string =>
  html.replaceAll(/<(?:script|style).*?<\/(?:script|style)>|<[^>]*>/gs, " ");

afterEach(() => spellAs("GBP"));

it("spells a sentence either way, and leaves other words alone", () => {
  expect(spelt("Colours down, the organiser's centimetres: cancelled", "american")).toBe(
    "Colors down, the organizer's centimeters: canceled",
  );
  expect(spelt("A colour, a colourful tee", "british")).toBe("A colour, a colourful tee");
  expect(spelt("Discolouration, epicentre", "american")).toBe("Discolouration, epicentre");
  expect(["en-US", "en-us-posix", "en", "en-GB", "es-US"].map(spellingIn)).toEqual([
    "american",
    "american",
    "british",
    "british",
    "british",
  ]);
});

it.each([
  "/",
  "/help",
  "/start",
  "/plan",
  "/at",
  "/fair/brackenfield",
  "/fair/brackenfield/keys",
  "/at/brackenfield/tern",
  "/at/brackenfield/tern/board",
  "/at/brackenfield/tern/poster",
  "/crew/brackenfield/tern",
  "/crew/brackenfield/tern/counter",
  "/crew/brackenfield/tern/setup",
  "/crew/brackenfield/tern/prints",
  "/crew/brackenfield/tern/closeout",
  "/crew/brackenfield/tern/stock",
  "/crew/brackenfield/tern/passers-by",
  "/problems/fair-stopped",
  "/problems/no-such-choice",
])("sends %s in the browser's spelling", async (path) => {
  const shell = async (language: string): Promise<string> => {
    const headers = { "Accept-Language": language };
    const answer = await pages.request(path, { headers }, { ASSETS: null });
    return read(await answer.text());
  };
  expect(await shell("en-US,en;q=0.9")).not.toMatch(BRITISH);
  expect((await shell("es,en-GB;q=0.8")).replaceAll(OTHER, "")).not.toMatch(AMERICAN);
});

it("spells what a page draws by the currency of its stall", () => {
  const desk: FormContext = { part: "plan", request: {}, change: () => undefined, faults: new Map() };
  const field = { pointer: "#/a", label: "Colour", help: "Ask the organiser." };
  const drawn = (currency: string): string => {
    spellAs(currency);
    return read(renderToString(h(Fields, { fields: [field], desk })));
  };
  expect(drawn("USD")).toMatch(/Color.*Ask the organizer\./s);
  expect(drawn("GBP")).toMatch(/Colour.*Ask the organiser\./s);
});

it("is written in British spelling everywhere, so that a British stall reads no other", () => {
  const root = fileURLToPath(new URL("../../src/screens/", import.meta.url));
  const texts = globSync("{client,pages,parts}/**/*.{ts,tsx}", { cwd: root }).flatMap((file) =>
    readFileSync(root + file, "utf8")
      .split("\n")
      // Only sentences: names that web standards spell are alone between their quotes.
      .filter(
        (line) =>
          / [a-z]/.test(line) &&
          AMERICAN.test(line.replaceAll(/"[\w-]+"|`[\w-]+`/g, "").replaceAll(OTHER, "")),
      )
      .map((line) => `${file}: ${line.trim()}`),
  );
  expect(texts).toEqual([]);
});

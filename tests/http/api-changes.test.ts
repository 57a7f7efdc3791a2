/** The list of the API's changes agrees with its document. */
import { expect, it } from "vitest";
import { API_CHANGES } from "../../src/screens/pages/front/api-changes.tsx";
import type { Document } from "../hostile/document.ts";
import { shared } from "./running.ts";

type Described = Document & { readonly info: { readonly version: string } };

const STALL = "/v1/fairs/{fair}/stalls/{stall}";
const said = API_CHANGES.flatMap(({ changes }) => changes);
/** The paths that the list names, whole. */
const named = said
  .flatMap((change) => change.match(/\/[\w{}/-]+[\w}]/g) ?? [])
  .map((path) => (path.startsWith("/v1/") ? path : STALL + path));

it("the newest change is the document's version, and a page tells all of them", async () => {
  const { url, anyone } = await shared();
  const { body } = await anyone.get<Described>("/v1/openapi.json");
  expect(body.info.version).toBe(API_CHANGES[0].version);
  const page = await (await fetch(`${url}/help/api`)).text();
  for (const { version } of API_CHANGES) expect(page).toContain(version);
  expect(page.match(/<dd>/g)).toHaveLength(said.length);
});

it("every path that is named exists, and every path of earlier programs is named with what takes its place", async () => {
  const { body } = await (await shared()).anyone.get<Described>("/v1/openapi.json");
  expect(named.length).toBeGreaterThan(10);
  for (const path of named) expect(Object.keys(body.paths)).toContain(path);
  const earlier = Object.entries(body.paths).flatMap(([path, ways]) =>
    Object.values(ways).some((way) => "deprecated" in way) ? [path] : [],
  );
  expect(earlier.length).toBeGreaterThan(1);
  for (const path of earlier) expect(named).toContain(path);
});

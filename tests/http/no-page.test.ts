/** Addresses that no page has: a person gets a page, a program a problem. */
import { beforeAll, expect, it } from "vitest";
import { PROBLEMS } from "../../src/screens/pages/front/problems.tsx";
import { example, type Running, shared } from "./running.ts";

let running: Running;
beforeAll(async () => {
  running = await shared();
});

const PLACES = [
  ["/", 200, "Pressed to order at the fair"],
  ["/at", 404, "Which stall?"],
  ["/at/No Fair", 404, "Which stall?"],
  ["/at/never-set-up", 404, "Which stall?"],
  ["/at/brackenfield/tern/nowhere", 404, "There’s no page here"],
  ["/at/No Fair/Tern", 404, "There’s no page here"],
  ["/menu", 404, "There’s no page here"],
  ["/assets/nothing.js", 404, "There’s no page here"],
] as const;

it("answer a browser with a page that says where to go", async () => {
  for (const [path, status, heading] of PLACES) {
    const answer = await fetch(running.url + path, { headers: { Accept: "text/html" } });
    const text = await answer.text();
    expect([path, answer.status, answer.headers.get("content-type")]).toEqual([
      path,
      status,
      "text/html; charset=UTF-8",
    ]);
    expect(text).toContain(`<h1>${heading}</h1>`);
    expect(text).toContain("scan the code at the stall");
    // The front page shows what this browser keeps; the others need no script of their own.
    expect(text.includes('type="module"')).toBe(path === "/");
  }
});

it("answer a fair that was set up with its stalls", async () => {
  const { fair } = await example(running);
  expect((await fetch(`${running.url}/at/${fair}`)).status).toBe(200);
});

it("answer in Spanish to a browser that prefers it", async () => {
  const answer = await fetch(`${running.url}/at/No Fair`, {
    headers: { "Accept-Language": "es-MX,es;q=0.9,en;q=0.5" },
  });
  const text = await answer.text();
  expect(text).toContain('lang="es"');
  expect(text).toContain("¿Qué puesto?");
});

it("answer a program under /v1, and one that writes, with a problem", async () => {
  for (const [method, path] of [
    ["GET", "/v1/nothing"],
    ["GET", "/v1"],
    ["POST", "/menu"],
  ] as const) {
    const answer = await fetch(running.url + path, { method });
    expect([path, answer.status, answer.headers.get("content-type")]).toEqual([
      path,
      404,
      "application/problem+json",
    ]);
  }
});

it("has a page for each type of problem, which says what to do", async () => {
  const { type } = (await (await fetch(`${running.url}/v1/nowhere`)).json()) as { type: string };
  expect(type).toBe("/problems/not-found");
  for (const name of Object.keys(PROBLEMS)) {
    const page = await fetch(`${running.url}/problems/${name}`);
    expect([name, page.status]).toEqual([name, 200]);
    expect(await page.text()).toContain("What to do");
  }
  expect((await fetch(`${running.url}/problems/toString`)).status).toBe(404);
});

import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { seenFair } from "../../src/fair/calls/seen.ts";
import { answeredBy, TextRouting } from "../../src/fair/text-routing.ts";
import type { FairTransactions } from "../../src/fair/transact.ts";
import { type SeenFair, SeenFair as Shape } from "../../src/model/fair/seen.ts";
import { Seen, troubleOf } from "../../src/screens/client/seen/view.tsx";
import { ids } from "../ids.ts";

const row = (n: number, more: readonly [wait: number | "?" | null, left: "plenty" | "few" | "gone"]) => [
  `stall-${n}`,
  `Stall ${n} of the fair`,
  "Tee, Hoodie, Cap, Tote",
  1500,
  4200,
  "USD",
  ...more,
  "0123456789ab",
];
const fair = (stalls: readonly unknown[]): SeenFair =>
  Shape.parse({
    name: "Brackenfield Fair",
    timeZone: "UTC",
    closes: "2027-06-12T18:00:00Z",
    stopped: null,
    stalls,
  });

describe("a text that names no stall", () => {
  const stalls = [1, 2, 3, 4].map((n) => ({ stall: ids.stall(`stall-${n}`), name: `Stall ${n}` }));
  const waits = [9, null, 2, 4];
  const rows = new Map<string, unknown>();
  const kept = {
    get: <T>(key: string) => rows.get(key) as T | undefined, // what was put there
    put: (key: string, value: unknown) => void rows.set(key, value),
    delete: (key: string) => rows.delete(key),
    list: () => [],
  };
  const routing = new TextRouting(kept);
  const route = (message: string, text: string) =>
    routing.route({ message, sender: "somebody", text, own: null }, stalls, 0, (listed) =>
      listed
        .map((one) => ({ ...one, minutes: waits[one.number - 1] ?? null }))
        .toSorted((one, other) => (one.minutes ?? 999) - (other.minutes ?? 999))
        .slice(0, 3),
    );
  it("is offered the shortest waits by the numbers that the stalls always have, and the number leads there", () => {
    const asked = route("m1", "hello");
    expect(asked).toMatchObject({ to: "which", by: "stall-1" });
    expect(asked.to === "which" && asked.stalls.map(({ number, minutes }) => [number, minutes])).toEqual([
      [3, 2],
      [4, 4],
      [1, 9],
    ]);
    expect(answeredBy(asked)).toBe("stall-1");
    expect(route("m2", "4")).toMatchObject({ to: "stall", stall: "stall-4" });
    const all = route("m3", "stalls");
    expect(all.to === "which" && all.stalls.map(({ number }) => number)).toEqual([1, 2, 3, 4]);
  });
});

describe("what visitors see of a fair", () => {
  it.each([
    ["long", "Q".repeat(40)],
    ["of three bytes a letter", "長".repeat(40)],
    ["of letters that JSON escapes", '"'.repeat(40)],
  ])("is under 50 kB for 300 stalls whose names are %s", (_, name) => {
    const now = Date.parse("2027-06-12T15:00:00Z");
    const seen = { makes: name.slice(0, 32), lowest: 1_500_000, highest: 4_200_000, currency: "USD" };
    const rows = Array.from({ length: 300 }, (__, n) => ({
      stall: `s-${n}-`.padEnd(32, "x"),
      name,
      heardAt: now,
      paused: false,
      seen: { ...seen, waitMinutes: 1000 + n, left: "plenty", picture: "0123456789abcdef".repeat(4) },
    }));
    const openings = [{ opens: "2027-06-12T14:00:00Z", closes: "2027-06-12T22:00:00Z" }];
    const stored = {
      fair: () => ({ name, timeZone: "UTC", openings }),
      stalls: () => rows,
      organiser: { stopReason: null },
    };
    const answer = seenFair(stored as unknown as FairTransactions, now); // all that it reads
    const text = JSON.stringify(answer.ok ? Shape.parse(answer.value) : null);
    expect(new TextEncoder().encode(text).length).toBeLessThan(50_000);
    expect(text).toContain("…");
  });
  it("says what each makes, its prices, wait, line and what is left, and where to order", () => {
    const seen = fair([
      row(1, [4, "plenty"]),
      row(2, [30, "few"]),
      row(3, [null, "gone"]),
      row(4, ["?", "plenty"]),
    ]);
    const page = renderToString(h(Seen, { seen, trouble: null, fair: "brackenfield", language: "en" }));
    const text = page.replaceAll(/<[^>]+>/g, "|");
    for (const words of [
      "Brackenfield Fair",
      "Open until 6:00",
      "Tee, Hoodie, Cap, Tote, $15\u00a0–\u2060\u00a0$42",
      "about 4 min, no line",
      "about 30 min, a long line",
      "wait not known: ask there",
      "takes no orders right now",
      "sold out",
    ])
      expect(text).toContain(words);
    expect(page).toContain('href="/at/brackenfield/stall-2"');
  });
  it("takes no orders while the organiser has stopped them, and knows no wait of a stall that is silent", () => {
    const now = Date.parse("2027-06-12T15:00:00Z");
    const seen = {
      makes: "Tee",
      lowest: 1500,
      highest: 1500,
      currency: "USD",
      waitMinutes: 4,
      left: "plenty",
      picture: null,
    };
    const rows = [
      { stall: "tern", name: "Tern", heardAt: now - 20 * 60_000, paused: false, seen },
      { stall: "gannet", name: "Gannet", heardAt: now, paused: false, seen },
      { stall: "ruff", name: "Ruff", heardAt: now, paused: true, seen },
    ];
    const openings = [{ opens: "2027-06-12T14:00:00Z", closes: "2027-06-12T22:00:00Z" }];
    const at = (stopReason: string | null) => {
      const fairRow = { name: "Brackenfield Fair", timeZone: "UTC", openings };
      const stored = { fair: () => fairRow, stalls: () => rows, organiser: { stopReason } };
      const answer = seenFair(stored as unknown as FairTransactions, now); // all that it reads
      return Shape.parse(answer.ok && answer.value);
    };
    const waits = ({ stalls }: SeenFair) => stalls.map(([stall, , , , , , wait]) => [stall, wait]);
    expect(waits(at(null))).toEqual([
      ["gannet", 4],
      ["tern", "?"],
      ["ruff", null],
    ]);
    const stopped = at("Storm");
    expect(waits(stopped).map(([, wait]) => wait)).toEqual([null, null, null]);
    const page = (language: "en" | "es") =>
      renderToString(h(Seen, { seen: stopped, trouble: null, fair: "brackenfield", language }));
    expect(page("en")).toContain("The fair has stopped all orders for now: Storm.");
    expect(page("es")).toContain("La feria ha parado todos los pedidos por ahora: Storm.");
  });
  it("says in words why there is no fresh answer, and keeps the last one on the page", () => {
    const seen = fair([row(1, [4, "plenty"])]);
    const at = (status: number, language: "en" | "es", last: SeenFair | null) =>
      renderToString(h(Seen, { seen: last, trouble: troubleOf(status), fair: "brackenfield", language }));
    expect(at(0, "en", seen)).toMatch(/No connection.*Stall 1 of the fair/);
    expect(at(404, "en", null)).toContain("There is no such fair here");
    expect(at(503, "en", null)).toContain("does not answer just now");
    expect(at(429, "es", null)).toContain("La feria no responde ahora");
  });
});

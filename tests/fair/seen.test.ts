import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { answeredBy, TextRouting } from "../../src/fair/text-routing.ts";
import { type SeenFair, SeenFair as Shape } from "../../src/model/fair/seen.ts";
import { Seen } from "../../src/screens/client/seen/view.tsx";
import { ids } from "../ids.ts";

const row = (n: number, more: readonly [wait: number | null, left: "plenty" | "few" | "gone"]) => [
  `stall-${n}`,
  `Stall ${n} of the fair`,
  "Tee, Hoodie, Cap, Tote",
  1500,
  4200,
  "USD",
  ...more,
  "0123456789abcdef".repeat(4),
];
const fair = (stalls: readonly unknown[]): SeenFair =>
  Shape.parse({ name: "Brackenfield Fair", timeZone: "UTC", closes: "2027-06-12T18:00:00Z", stalls });

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
  it("is under 50 kB for 300 stalls", () => {
    const stalls = Array.from({ length: 300 }, (_, n) => row(n, [n % 90, "plenty"]));
    expect(JSON.stringify(fair(stalls)).length).toBeLessThan(50_000);
  });
  it("says what each makes, its prices, wait, line and what is left, and where to order", () => {
    const seen = fair([row(1, [4, "plenty"]), row(2, [30, "few"]), row(3, [null, "gone"])]);
    const page = renderToString(h(Seen, { seen, fair: "brackenfield", language: "en" }));
    const text = page.replaceAll(/<[^>]+>/g, "|");
    for (const words of [
      "Open until 6:00",
      "Tee, Hoodie, Cap, Tote, $15 – $42",
      "about 4 min, no line",
      "about 30 min, a long line",
      "takes no orders right now",
      "sold out",
    ])
      expect(text).toContain(words);
    expect(page).toContain('href="/at/brackenfield/stall-2"');
  });
});

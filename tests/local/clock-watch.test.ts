import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { whenSetBack } from "../../src/local/clock-watch.ts";

const HOUR = 3_600_000;

beforeEach(() => void vi.useFakeTimers({ toFake: ["setInterval", "clearInterval", "Date", "performance"] }));
afterEach(() => void vi.useRealTimers());

it("tells each time the clock is set back, once, and nothing else", () => {
  let told = 0;
  const end = whenSetBack(() => {
    told += 1;
  });
  vi.advanceTimersByTime(10_000);
  expect(told).toBe(0);
  vi.setSystemTime(Date.now() + HOUR);
  vi.advanceTimersByTime(10_000);
  expect(told).toBe(0);
  vi.setSystemTime(Date.now() - HOUR);
  vi.advanceTimersByTime(10_000);
  expect(told).toBe(1);
  // As a time server slows a clock down.
  vi.setSystemTime(Date.now() - 900);
  vi.advanceTimersByTime(10_000);
  expect(told).toBe(1);
  vi.setSystemTime(Date.now() - 1500);
  vi.advanceTimersByTime(10_000);
  expect(told).toBe(2);
  end();
  vi.setSystemTime(Date.now() - HOUR);
  vi.advanceTimersByTime(10_000);
  expect(told).toBe(2);
});

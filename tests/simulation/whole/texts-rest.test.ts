/**
 * A gateway that asks for a pause: how long it lasts, what the crew sees, which texts are given up, and what ends it.
 */

import { readFileSync } from "node:fs";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Menu } from "../../../src/model/menu/catalogue.ts";
import type { PhoneNumber } from "../../../src/model/orders/order.ts";
import type { QueueView } from "../../../src/model/orders/queue.ts";
import { Stall } from "../../../src/stall/stall.ts";
import { PLAIN } from "../../../src/texting/mapping/mappings.ts";
import { sendingFor } from "../../../src/texting/sending/sending.ts";
import { MINUTE } from "../../../src/time/instants.ts";
import { ids } from "../../ids.ts";
import { Life, Rows, storageFor } from "./storage.ts";

const OPENS = Date.parse("2027-06-12T14:00:00Z");
const CLOSES = OPENS + 10 * 3_600_000;
const MENU = Menu.parse(
  JSON.parse(readFileSync(`${import.meta.dirname}/../../../examples/tern/menu.json`, "utf8")),
);
const DAY = 24 * 60 * MINUTE;
const [FAIR, STALL] = [ids.fair("brackenfield"), ids.stall("tern")];
const PHONE = "+12125550101" as PhoneNumber;
const sending = (version: number) => sendingFor(PLAIN, STALL, [STALL], version);

/** The gateway's answer, and the requests it got. */
let retryAfter: string | null = null;
let asked = 0;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["Date"], now: OPENS + MINUTE });
  for (const level of ["warn", "error"] as const) vi.spyOn(console, level).mockReturnValue();
  [retryAfter, asked] = [null, 0];
  vi.stubGlobal("fetch", async () => {
    asked += 1;
    return retryAfter === null
      ? new Response(null)
      : new Response(null, { status: 429, headers: { "Retry-After": retryAfter } });
  });
});
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

async function openStall(rows = new Rows()) {
  const fair = {
    report: async () => ({ gateway: 1 }),
    sending: async () => sending(1),
    grant: async () => ({ others: 100, own: 100 }),
    stoppedAmong: async () => [],
  };
  const env = {
    FAIR: { getByName: () => fair },
    GATEWAY_URL: "http://gateway.invalid/out",
    GATEWAY_NUMBER: "+12125550199",
    GATEWAY_SECRET: "a secret shared with the gateway",
  };
  const storage = storageFor(rows, new Life(), { at: null, set: () => {} });
  const stall = new Stall({ storage } as unknown as DurableObjectState, env); // as far as a stall uses them
  const openings = [{ opens: OPENS, closes: CLOSES }];
  const identity = { fair: FAIR, stall: STALL, name: "Tern", fairName: "Fair", timeZone: "UTC", openings };
  stall.open(identity, 1, 0, sending(1));
  stall.setMenu(1, { scope: "menu", fingerprint: "same" }, { type: "set-menu", menu: MENU });
  const say = async (id: string) => {
    const from = { stopped: false, gateway: 1, inAnswer: false };
    await stall.text({ id, text: "menu", customer: ids.customer("ann_____________"), phone: PHONE }, from);
  };
  const queue = () => {
    const answer = stall.pressQueue(1, "any");
    if (!answer.ok) throw new Error("the crew key was refused");
    return answer.value;
  };
  const until = (): string | null =>
    (JSON.parse(queue().view ?? '{"textsRestUntil":null}') as QueueView).textsRestUntil;
  return { stall, rows, identity, say, queue, until };
}

const waiting = (rows: Rows): number => rows.keysOf("out:").length;
const iso = (at: number): string => new Date(at).toISOString();

it("lasts ten minutes at most, whatever the gateway asks for, and every screen is told", async () => {
  const { stall, say, queue, until } = await openStall();
  expect(queue().view).toBeNull();
  await say("first");
  retryAfter = "86400";
  await stall.alarm();
  expect([asked, until()]).toEqual([1, iso(OPENS + 11 * MINUTE)]);
  expect(queue().lasts).toBe(false);
  vi.setSystemTime(OPENS + 11 * MINUTE);
  retryAfter = null;
  await stall.alarm();
  expect([asked, until()]).toEqual([2, null]);
});

it("is over if a stored one would last longer than any may", async () => {
  const rows = new Rows();
  rows.put("rests", OPENS + DAY);
  const { stall, say, until } = await openStall(rows);
  await say("first");
  expect(until()).toBeNull();
  await stall.alarm();
  expect([asked, waiting(rows)]).toEqual([1, 0]);
});

it("keeps no text beyond its two hours: it is given up without another try", async () => {
  const { stall, rows, say } = await openStall();
  retryAfter = "600";
  await say("first");
  for (let minutes = 1; minutes < 120; minutes += 10) {
    vi.setSystemTime(OPENS + minutes * MINUTE);
    await stall.alarm();
  }
  expect(waiting(rows)).toBe(1);
  const before = asked;
  vi.setSystemTime(OPENS + 121 * MINUTE - 1);
  await stall.alarm();
  expect(waiting(rows)).toBe(1);
  vi.setSystemTime(OPENS + 121 * MINUTE);
  await stall.alarm();
  expect([asked - before, waiting(rows)]).toEqual([0, 0]);
});

it("ends with a new mapping, by which what waited is tried at once", async () => {
  const { stall, rows, identity, say, until } = await openStall();
  retryAfter = "600";
  await say("first");
  await stall.alarm();
  expect(until()).not.toBeNull();
  retryAfter = null;
  stall.open(identity, 1, 0, sending(2));
  expect(until()).toBeNull();
  await stall.alarm();
  expect([asked, waiting(rows)]).toEqual([2, 0]);
});

/** Opting out holds for the whole number, however late and in whatever order the gateway's repeats come. */

import { describe, expect, it } from "vitest";
import type { Route } from "../../../src/fair/calls/texts.ts";
import { TextRouting } from "../../../src/fair/text-routing.ts";
import { type TextPath, takeIn } from "../../../src/http/routes/gateway/take-in.ts";
import type { PhoneNumber } from "../../../src/model/orders/order.ts";
import { ids } from "../../ids.ts";
import { Rows } from "./storage.ts";

const FAIR = ids.fair("brackenfield");
const PHONE = "+12125550123" as PhoneNumber;
const STALLS = ["tern", "gannet"].map((stall) => ({ stall: ids.stall(stall), name: stall }));

/** A path whose stalls know only who opted out; one call of `setStopped` can be made to fail. */
function pathWith(failing: { times: number }) {
  const routing = new TextRouting(new Rows() as unknown as ConstructorParameters<typeof TextRouting>[0]);
  const stopped = new Map<string, boolean>();
  const answered = new Map<string, readonly string[]>();
  const path: TextPath = {
    fair: {
      route: async (inbound) => {
        const destination = routing.route({ ...inbound, own: null }, STALLS, 0);
        const { stopped: stops, telling = false } = routing.sender(inbound.sender);
        return { destination, stopped: stops, telling, gateway: 1 } satisfies Route;
      },
      setStopped: async (sender, stops) => routing.setStopped(sender, stops),
      stoppedAmong: async () => [],
      toldStopped: async (sender, stops) => routing.toldStopped(sender, stops),
    },
    stall: (stall) => ({
      text: async ({ id, text, number }) => {
        if (!answered.has(id)) {
          answered.set(id, [text]);
          if (/^stop$/i.test(text)) stopped.set(`${stall} ${number}`, true);
        }
        const optedOut = stopped.get(`${stall} ${number}`) ?? false;
        return { ok: true, value: { replies: answered.get(id) ?? [], order: null, optedOut } };
      },
      askWhich: async ({ number }) => {
        const optedOut = stopped.get(`${stall} ${number}`) ?? false;
        return { ok: true, value: { replies: [], order: null, optedOut } };
      },
      setStopped: async (number, stops) => {
        if (failing.times-- > 0) throw new Error("the stall did not answer");
        stopped.set(`${stall} ${number}`, stops);
      },
    }),
    opaqueId: async (of) => ids.customer(of),
    stopHash: async (phone) => phone,
  };
  const say = (id: string, text: string) => takeIn(path, FAIR, false, { id, phone: PHONE, to: null, text });
  const stoppedAt = (stall: string) => stopped.get(`${stall} customer/${FAIR}/${stall}/${PHONE}`) ?? false;
  return { say, stoppedAt };
}

describe("opting out", () => {
  it("stands when a text from before it is repeated late", async () => {
    const { say, stoppedAt } = pathWith({ times: 0 });
    await say("1", "tern");
    await say("2", "stop");
    await say("1", "tern");
    expect(stoppedAt("tern")).toBe(true);
  });
  it("stands when what is repeated late was answered by a stall that the number never chose", async () => {
    const { say, stoppedAt } = pathWith({ times: 0 });
    await say("1", "a shirt");
    await say("2", "gannet");
    await say("3", "stop");
    await say("1", "a shirt");
    expect([stoppedAt("tern"), stoppedAt("gannet")]).toEqual([true, true]);
  });
  it("reaches every stall in the end, where telling them broke off and the text comes again", async () => {
    const failing = { times: 0 };
    const { say, stoppedAt } = pathWith(failing);
    await say("1", "tern");
    await say("2", "gannet");
    failing.times = 2;
    await expect(say("3", "stop")).rejects.toThrow("did not answer");
    await say("3", "stop");
    expect([stoppedAt("tern"), stoppedAt("gannet")]).toEqual([true, true]);
  });
});

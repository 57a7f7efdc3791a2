/** The press's whole page through any run of polls, taps, answers and losses of signal, against the stall's own rules. */
import fc from "fast-check";
import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Actions } from "../../src/screens/client/press/actions.ts";
import {
  type Act,
  givingBack,
  offMenu,
  pressing,
  pulling,
  pullingReserved,
  spoiling,
  type Unsent,
} from "../../src/screens/client/press/acts.ts";
import { dwellBy, dwellShown, tappedDwell } from "../../src/screens/client/press/bench/dwell.ts";
import { withPulled } from "../../src/screens/client/press/floor.ts";
import {
  NOT_COUNTING,
  noted,
  sentOff,
  toSend,
  withStock,
} from "../../src/screens/client/press/side/counting.ts";
import { nextTake } from "../../src/screens/client/press/side/reserve.ts";
import { noteOf } from "../../src/screens/client/press/spoil.ts";
import {
  choiceAt,
  firstState,
  floorOf,
  pressIn,
  type State,
  said,
  undone,
  withKey,
  withoutKey,
} from "../../src/screens/client/press/state.ts";
import { undoOf } from "../../src/screens/client/press/undo.ts";
import { PressView } from "../../src/screens/client/press/view.tsx";
import { stockView } from "../../src/stall/calls/counter/stock-view.ts";
import { queueView } from "../../src/stall/calls/queue-view.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { customer, exampleMenu, OPENS, type TestStall, testStall } from "../stall/test-stall.ts";
import { type Control, controlsIn } from "./controls.ts";

const menu = exampleMenu();

function busyStall(): TestStall {
  const stall = testStall(menu, [
    ...["tee.navy.L", "tee.sand.M"].map((sku) => StockEntry.parse({ sku, counted: 9 })),
    ...["longtail", "otter"].map((design) => StockEntry.parse({ design, counted: 9 })),
  ]);
  for (const [n, [offer, colour, size]] of [
    ["longtail-tee", "navy", "L"],
    ["otter-tee", "sand", "M"],
    ["longtail-tee", "navy", "L"],
    ["longtail-tee", "navy", "L"],
    ["otter-tee", "sand", "M"],
  ].entries())
    stall.run(
      {
        type: "place",
        customer: customer(`who${n}`),
        takenBy: "counter",
        asks: [],
        chance: 0.1 * n,
        lines: [{ offer, colour, size, quantity: 1 }],
      } as unknown as Command, // plain ids
      OPENS,
    );
  return stall;
}

/** The command of a tap; null if it plays no part here. */
function commandOf(act: Act): Command | null {
  const command = ((): object | null => {
    switch (act.type) {
      case "pull":
        return { type: "pull", press: act.press, ...(act.job === null ? {} : { job: act.job }) };
      case "pressed":
        return { type: "pressed", job: act.job };
      case "undo-pressed":
        return { type: "undo-pressed", job: act.job };
      case "spoiled":
        return { type: "spoiled", job: act.job, lost: "both", reason: "other" };
      case "undo-spoiled":
        return { type: "undo-spoiled", job: act.job };
      case "returned":
        return { type: "returned", job: act.job };
      case "reserve":
        return { type: "set-reserve", press: act.press, on: act.on };
      case "press-down":
      case "press-up":
        return { type: act.type, press: act.press };
      case "hands":
        return { type: "set-hands", hands: act.hands };
      case "web":
        return { type: "set-web-orders", open: act.open };
      case "keep-open":
        return { type: "keep-open", open: act.open };
      case "pause":
        return { type: "pause", reason: act.reason };
      case "resume":
        return { type: "resume" };
      default:
        return null;
    }
  })();
  return command as Command | null; // with plain ids
}

/** A tablet at press A, and the taps that are on their way. */
class Tablet {
  readonly stall = busyStall();
  state: State = firstState(["A"]);
  taps: readonly Unsent[] = [];
  unseen: readonly Act[] = [];
  lost = false;
  waits = false;
  sent = 0;

  readonly actions: Actions = {
    change: (to) => {
      this.state = to(this.state);
    },
    send: (write) => this.send(write),
    pull: (press) => this.pull(press),
    pressed: (press, next) => {
      const job = this.at(press)?.job;
      if (job == null) return;
      this.send(pressing({ press, at: null }, job));
      if (next) this.pull(press);
    },
    giveBack: (press, job) => this.send(givingBack({ press, at: null }, job)),
    dwell: (press) => {
      const mine = this.at(press);
      if (mine?.job == null) return;
      const dwell = tappedDwell(mine.job, this.state.dwells.get(press) ?? null, 0);
      this.actions.change((now) => ({ ...now, dwells: withKey(now.dwells, press, dwell) }));
    },
    undo: (press) => {
      const last = this.state.last.get(press);
      this.actions.change((now) => undone(now, press));
      if (last?.back != null) this.send(last.back);
      else if (last?.pressed != null)
        this.send({ act: { type: "undo-pressed", job: last.pressed, press }, path: "", body: {}, says: "" });
    },
    spoil: () => {
      const { spoil } = this.state;
      const note = spoil === null ? null : noteOf(spoil);
      if (spoil === null || note === null)
        return this.actions.change((now) => ({
          ...now,
          spoil: now.spoil && { ...now.spoil, missing: true },
        }));
      this.actions.change((now) => ({ ...now, spoil: null }));
      this.send(spoiling({ press: spoil.press, at: null }, spoil.job, note));
    },
    choose: (press, job) =>
      this.actions.change((now) => ({
        ...now,
        chosen:
          now.chosen.get(press) === job ? withoutKey(now.chosen, press) : withKey(now.chosen, press, job),
      })),
    stand: (standing) => this.actions.change((now) => ({ ...now, standing })),
    setOff: (piece, name, off) => this.send(offMenu(piece, name, off)),
    openStock: () => this.actions.change((now) => ({ ...now, counting: { ...now.counting, open: true } })),
    note: () => {},
  };

  at(press: string) {
    return pressIn(floorOf(this.state), press);
  }

  pull(press: string): void {
    const mine = this.at(press);
    if (mine === null) return;
    const { can, job } = nextTake(mine, this.state.signal, choiceAt(this.state, mine));
    this.actions.change((now) => ({ ...now, chosen: withoutKey(now.chosen, press) }));
    if (can) this.send(job === null ? pulling(press) : pullingReserved({ press, at: null }, job));
  }

  send(write: Unsent): void {
    this.sent += 1;
    this.taps = [...this.taps, write];
    if (write.waits === true && !this.lost) this.waits = true;
    this.refresh();
  }

  lose(): void {
    this.lost = true;
    this.waits = false;
  }

  refresh(): void {
    const acts = [...this.unseen, ...this.taps.map(({ act }) => act)];
    this.actions.change((now) => ({ ...now, acts, busy: this.waits, signal: this.lost ? "lost" : "there" }));
  }

  poll(): void {
    if (this.lost) return;
    this.unseen = [];
    const seen = queueView(this.stall.state, menu, OPENS);
    this.actions.change((now) => ({ ...now, seen }));
    this.refresh();
  }

  answer(isAnswered: boolean): void {
    const [tap] = this.taps;
    if (tap === undefined) return;
    const { act } = tap;
    const command = commandOf(act);
    const refused = command !== null && this.stall.run(command, OPENS).refusal !== null;
    if (!isAnswered) return this.lose();
    this.lost = false;
    this.taps = this.taps.slice(1);
    if (tap.waits === true) this.waits = false;
    if (!refused) this.unseen = [...this.unseen, act];
    if (act.type === "pull" && !refused) {
      const job = queueView(this.stall.state, menu, OPENS).presses.find(
        ({ press }) => press === act.press,
      )?.job;
      if (job != null)
        this.actions.change((now) => ({ ...now, seen: now.seen && withPulled(now.seen, act.press, job) }));
    }
    if (!refused)
      this.actions.change((now) =>
        said(now, act, "Done.", { pressed: act.type === "pressed" ? act.job : null, back: undoOf(act) }),
      );
    this.refresh();
  }

  get controls(): readonly Control[] {
    return controlsIn(h(PressView, { state: this.state, actions: this.actions }));
  }
}

/** What this tablet's presses allow, by the stall's last view and the taps since. */
function allowed(tablet: Tablet): readonly RegExp[] {
  const { state } = tablet;
  const queue = floorOf(state);
  const own = state.standing.flatMap((press) => pressIn(queue, press) ?? []);
  if (own.length === 0) return [/^Press A, flat platen$/];
  return own.flatMap(({ press, job, downSince, reserve }) => [
    ...(downSince !== null ? [/^It works again$/] : []),
    ...(job !== null
      ? [/^Pressed$/, /^Pressed, next$/, /^Spoiled…$/, /^Return to line$/, /^(?:Count|Open now|\d+ s)/]
      : []),
    ...(job === null && downSince === null && (!tablet.lost || reserve.length > 0)
      ? [/^(?:Pull |Take )/]
      : []),
    new RegExp(`^Leave press ${press}$`),
  ]);
}

const step = fc.oneof(
  { weight: 12, arbitrary: fc.nat().map((at) => ({ type: "tap", at }) as const) },
  {
    weight: 8,
    arbitrary: fc
      .constantFrom("poll", "answer", "answer", "answer lost", "lose", "signal", "go on", "bell")
      .map((type) => ({ type, at: 0 }) as const),
  },
  {
    weight: 12,
    arbitrary: fc.constantFrom("go on", "go on", "answer").map((type) => ({ type, at: 0 }) as const),
  },
);

describe("the press’s page", () => {
  it("leaves no control dead that its state allows, whatever is tapped, answered, polled or lost", () => {
    let pressed = 0;
    fc.assert(
      fc.property(fc.array(step, { maxLength: 60, size: "max" }), (steps) => {
        const tablet = new Tablet();
        tablet.poll();
        for (const { type, at } of steps) {
          const able = tablet.controls.filter(({ gone, busy }) => !gone && !busy);
          switch (type) {
            case "tap": {
              const control = able[at % able.length];
              const before = tablet.sent;
              control?.tap();
              if (
                control !== undefined &&
                /^(?:Pressed|Return to line|Pull |Take |It works)/.test(control.name)
              )
                expect([control.name, tablet.sent > before]).toEqual([control.name, true]);
              break;
            }
            case "go on": {
              const control = able.find(({ name }) => /^(?:Pull |Take |Pressed|Press A, flat)/.test(name));
              control?.tap();
              if (control?.name.startsWith("Pressed") === true) pressed += 1;
              break;
            }
            case "poll":
              tablet.poll();
              break;
            case "answer":
              tablet.answer(true);
              break;
            case "answer lost":
              tablet.answer(false);
              break;
            case "lose":
              tablet.lose();
              break;
            case "signal":
              tablet.lost = false;
              break;
            default:
              tablet.actions.change((now) => ({
                ...now,
                dwells: new Map([...now.dwells].map(([press, dwell]) => [press, dwellBy(dwell, 1e9)])),
              }));
          }
          tablet.refresh();
          const { state } = tablet;
          // The other tabs' contents are one tap away.
          tablet.state = { ...state, tab: "presses" };
          const now = tablet.controls;
          tablet.state = state;
          if (!tablet.waits) expect(now.filter(({ busy }) => busy).map(({ name }) => name)).toEqual([]);
          for (const wanted of allowed(tablet))
            expect([String(wanted), now.some(({ name, gone }) => wanted.test(name) && !gone)]).toEqual([
              String(wanted),
              true,
            ]);
        }
      }),
      { numRuns: 60 },
    );
    expect(pressed).toBeGreaterThan(5);
  });
});

it("says large on the tag what was wished for, whose garment it is, and what is pressed after the first transfer", () => {
  const tablet = new Tablet();
  tablet.stall.run({ type: "pull", press: "A" } as Command, OPENS); // a press of the example
  tablet.poll();
  const { seen } = tablet.state;
  const words = (more: object): string =>
    renderToString(
      h(PressView, {
        actions: tablet.actions,
        state: {
          ...tablet.state,
          seen: seen && {
            ...seen,
            presses: seen.presses.map((press) => ({ ...press, job: press.job && { ...press.job, ...more } })),
          },
        },
      }),
    ).replaceAll(/<[^>]*>/g, " ");
  expect(words({})).not.toContain("Wished for");
  const job = seen?.presses[0]?.job;
  const said = words({
    wishes: [{ wish: "name", name: "A name on it" }],
    note: "Zoë, in green",
    ownGarment: true,
    second: [
      { design: "otter", designName: "Otter", settings: job?.settings, placement: "back, 4 in below" },
    ],
  });
  for (const wanted of [
    "A name on it",
    "“Zoë, in green”",
    "The customer’s own garment",
    "Then the second transfer: Otter",
    "back, 4 in below",
  ])
    expect(said).toContain(wanted);
});

describe("a dwell", () => {
  it("counts each time the platen is down, asks to open it, and begins again after the last", () => {
    const stall = busyStall();
    stall.run({ type: "pull", press: "A" } as Command, OPENS); // a press of the example
    const job = queueView(stall.state, menu, OPENS).presses[0]?.job;
    if (job == null) throw new Error("nothing was pulled");
    const twice = {
      ...job,
      settings: { ...job.settings, presses: 2, dwellSeconds: 12, secondDwellSeconds: 6 },
    };
    const words = (dwell: Parameters<typeof dwellShown>[1], now: number): string =>
      dwellShown(twice, dwell, now).large;
    expect(words(null, 0)).toBe("Count 12\u00a0s, 1 of 2");
    const first = tappedDwell(twice, null, 0);
    expect([words(first, 4000), words(first, 4001), dwellShown(twice, first, 6000).left]).toEqual([
      "8 s",
      "8 s",
      0.5,
    ]);
    expect(dwellBy(first, 11_999)).toEqual(first);
    const open = dwellBy(first, 12_000);
    expect([words(open, 12_000), dwellShown(twice, open, 12_000).openNow]).toEqual(["Open now", true]);
    const second = dwellBy(tappedDwell(twice, open, 20_000), 26_000);
    expect(dwellShown(twice, second, 26_000).small).toBe("tap to count again");
    expect(tappedDwell(twice, second, 30_000)).toMatchObject({ done: 0, endsAt: 42_000 });
    // A second transfer is counted after the first.
    const both = {
      ...twice,
      second: [{ ...twice, settings: { ...twice.settings, presses: 1, dwellSeconds: 9 } }],
    };
    expect(dwellShown(both, null, 0).large).toBe("Count 12\u00a0s, 1 of 3");
    expect(dwellShown(both, { ...second, done: 2 }, 0).small).toBe("tap to count 9 s, 3 of 3");
    // A tap while it runs stops it, and nothing is counted.
    expect(tappedDwell(twice, first, 3000)).toMatchObject({ done: 0, endsAt: null });
  });
});

describe("a count at the bench", () => {
  it("notes each number as it is typed, sends them as one, and knows what takes them back", () => {
    const stall = busyStall();
    const before = withStock(NOT_COUNTING, stockView(stall.state, menu));
    const typed = (counting: typeof before, piece: string, text: string) =>
      noted({ ...counting, typed: { ...counting.typed, [piece]: text } }, piece);
    const wrong = typed(before, "tee.navy.L", "7x");
    expect([wrong.wrong, toSend(wrong, menu)]).toEqual(["tee.navy.L", null]);
    const counted = typed(typed(wrong, "tee.navy.L", "7"), "tee.sand.M", "11");
    expect(counted.wrong).toBeNull();
    const write = toSend(counted, menu);
    expect(write?.body).toEqual({
      entries: [
        { sku: "tee.navy.L", counted: 7 },
        { sku: "tee.sand.M", counted: 11 },
      ],
    });
    expect(write?.act).toMatchObject({
      back: [
        { sku: "tee.navy.L", corrected: 2 },
        { sku: "tee.sand.M", corrected: -2 },
      ],
    });
    expect(toSend(sentOff(counted), menu)).toBeNull();
  });
});

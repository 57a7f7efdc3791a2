/** @jsxImportSource preact */
/** The press screen: polls the queue, shows this tablet's presses, and sends the operator's taps. */

import { render } from "preact";
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { JobView, QueueView } from "../../../model/orders/queue.ts";
import type { StockView } from "../../../model/orders/stock.ts";
import { type Crew, keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { keepPages } from "../crew/keep-pages.ts";
import { lastLook } from "../crew/last-look.ts";
import { organiserPart } from "../crew/organiser-part.tsx";
import { sender } from "../crew/sender.ts";
import type { Write } from "../crew/taps.ts";
import { restWords } from "../crew/words/texts-rest.ts";
import { looksIn, NO_LOOKS } from "../garment/garments.ts";
import { detailOf, type Reply } from "../kit/api.ts";
import { keepAwake } from "../kit/awake.ts";
import { byId } from "../kit/dom.ts";
import { poll } from "../kit/poll.ts";
import { spellAs } from "../kit/spelling.ts";
import { stallClock } from "../kit/stall-clock.ts";
import { local } from "../kit/texts-kept.ts";
import { newOrderChime } from "../sound/new-orders.ts";
import type { Actions } from "./actions.ts";
import {
  type Act,
  givingBack,
  offMenu,
  outcome,
  pressing,
  pulling,
  pullingReserved,
  reserving,
  returningReserve,
  spoiling,
  undoing,
} from "./acts.ts";
import { readyBell } from "./bench/bell.ts";
import { tappedDwell } from "./bench/dwell.ts";
import { ticker } from "./bench/ticker.ts";
import { presentView } from "./earlier-views.ts";
import { withPulled } from "./floor.ts";
import { letGoNews } from "./let-go.ts";
import { standingIn } from "./shown.ts";
import { type Counting, noted, sentOff, toSend, withStock } from "./side/counting.ts";
import { idleWords, nextTake, reservedWords } from "./side/reserve.ts";
import { countsLine } from "./side/up-next.tsx";
import { silence } from "./silence.ts";
import { noteOf } from "./spoil.ts";
import {
  choiceAt,
  dwellAt,
  firstState,
  floorOf,
  pressIn,
  type State,
  said,
  undone,
  withKey,
  withoutKey,
} from "./state.ts";
import { undoOf } from "./undo.ts";
import { ownPresses, PressView } from "./view.tsx";

const MAIN_TAP = '[data-part="pull"], [data-part="pressed-next"], [data-part="works-again"]';

function run({ api, place, pressOnly }: Crew): void {
  const standingKey = `press ${place}`;
  let state = firstState(standingIn(local.getItem(standingKey)), pressOnly);
  let tag: string | null = null;
  const root = byId("press");
  const kept = lastLook<QueueView>(`floor ${place}`);
  const keptMenu = lastLook<Menu | null>(`menu ${place}`);
  const keptOffers = lastLook<MenuView>(`offers ${place}`);
  const clock = stallClock();
  const chime = newOrderChime(() => false);
  const showOrganiser = organiserPart(api);
  const silent = silence();
  const shownLetGo = new Set<string>();

  const at = (press: string) => pressIn(floorOf(state), press);
  const here = (press: string) => ({ press, at: clock.now() });
  const heatKey = (press: string): string => `heat ${press} ${place}`;

  function change(to: (before: State) => State): void {
    state = to(state);
    const bench = document.activeElement?.closest(".bench");
    if (state.menu !== null) spellAs(state.menu.currency);
    render(<PressView state={state} actions={actions} />, root);
    // The button under the thumb gave way to others: the keyboard goes on to the first of them.
    if (bench?.isConnected && document.activeElement === document.body)
      bench.querySelector<HTMLElement>(MAIN_TAP)?.focus();
  }

  const changeCounting = (to: (before: Counting) => Counting): void =>
    change((before) => ({ ...before, counting: to(before.counting) }));

  /** What stands outside the view: the page's name, the line in figures, the way to a pause. */
  function showAround(queue: QueueView): void {
    const own = ownPresses(state, queue);
    byId("title").textContent =
      own.length > 1
        ? `Presses ${state.standing.join(" and ")}`
        : (own.map(({ press, platen }) => `Press ${press}, ${platen}`)[0] ?? "Press");
    byId("counts").textContent = [countsLine(queue), restWords(queue)]
      .filter((words) => words !== null)
      .join(" ");
    byId("pause-open").hidden = pressOnly || queue.paused !== null;
  }

  /** Updates the state from the sender and the clocks. */
  function refresh(): void {
    const heat = state.standing.map((press) => [press, Number(local.getItem(heatKey(press)))] as const);
    change((before) => ({
      ...before,
      acts: writes.ahead(),
      busy: writes.busy(),
      signal: !writes.lost() ? "there" : silent.mayTake() ? "lost" : "ended",
      heat: new Map(heat.filter(([, fahrenheit]) => fahrenheit > 0)),
      now: Date.now(),
      stallNow: Date.parse(clock.now() ?? new Date().toISOString()),
    }));
    const queue = floorOf(state);
    if (queue !== null) showAround(queue);
    writes.banner();
    flush();
  }

  /** Sends what was typed in the count, as soon as it can be sent. */
  function flush(): void {
    const write = writes.busy() ? null : toSend(state.counting, state.menu);
    if (write === null) return;
    changeCounting(sentOff);
    writes.send(write);
  }

  const { keepTicking } = ticker(() => state, change);

  function say(...words: Parameters<typeof said> extends [State, ...infer Rest] ? Rest : never): void {
    change((before) => said({ ...before, now: Date.now() }, ...words));
    keepTicking();
  }

  function answered({ act }: Write<Act>, reply: Reply, late: boolean): void {
    const refused = reply.status >= 400;
    if (!late) notice(refused ? detailOf(reply) : null);
    if (!late && act.type === "stock")
      changeCounting(
        (before) =>
          refused
            ? { ...before, said: detailOf(reply) }
            : { ...withStock(before, reply.body as StockView), said: `Noted: ${act.names.join("; ")}.` }, // as the route documents
      );
    if (!refused) {
      if (act.type === "pull" && reply.status === 200) {
        const { job } = reply.body as { job: JobView }; // as the route documents
        change((before) => ({ ...before, seen: before.seen && withPulled(before.seen, act.press, job) }));
      }
      const words = idleWords(act, reply, state.seen) ?? outcome(act, reply);
      const back = late ? null : undoOf(act);
      say(act, words, { pressed: act.type === "pressed" ? act.job : null, back });
      // The garment still lies there: it goes back on its press, unless another took its place.
      if ((act.type === "undo-pressed" || act.type === "undo-spoiled") && !late && act.press !== undefined)
        if (at(act.press)?.job === null) writes.send(pulling(act.press));
      if (act.type === "pressed" && act.press !== undefined)
        local.setItem(heatKey(act.press), String(act.heat));
    }
    polling.now();
  }

  const writes = sender<Act>({
    api,
    place,
    page: "press",
    changed: refresh,
    beside: () => {
      const queue = floorOf(state);
      return queue === null ? "" : reservedWords(ownPresses(state, queue), state.signal);
    },
    held: ({ act, says }) => {
      if (act.type === "stock")
        changeCounting((before) => ({ ...before, said: `Not sent yet: ${act.names.join("; ")}.` }));
      const pressed = act.type === "pressed" ? act.job : null;
      say(act, act.type === "pull" ? null : `Not sent yet: ${says}.`, { pressed });
    },
    answered,
  });

  function pull(press: string): void {
    const mine = at(press);
    if (mine === null) return;
    const { can, job } = nextTake(mine, state.signal, choiceAt(state, mine));
    change((before) => ({ ...before, chosen: withoutKey(before.chosen, press) }));
    if (can) writes.send(job === null ? pulling(press) : pullingReserved(here(press), job));
  }

  /** Takes back that a garment is pressed; one that was pulled since by the same tap goes back too. */
  async function undoPressed(press: string, job: string): Promise<void> {
    const since = at(press)?.job ?? null;
    const isAlone = since === null || (await writes.takeBack(`/presses/${press}/pull`));
    if (!isAlone) writes.send(givingBack(here(press), since.job));
    if (await writes.takeBack(`/jobs/${job}/pressed`))
      say({ type: "undo-pressed", job, press }, `${job} is not pressed.`);
    else writes.send(undoing(press, job));
  }

  /** Stands at these presses from now on. */
  function stand(presses: readonly string[]): void {
    const before = state.standing;
    // A press without a tablet must not keep garments from the others.
    for (const press of before)
      if (!presses.includes(press) && at(press)?.reserves === true) writes.send(reserving(press, false));
    if (presses.length === 0) local.removeItem(standingKey);
    else local.setItem(standingKey, presses.join(" "));
    change((now) => ({ ...now, standing: presses }));
    for (const press of presses) if (at(press)?.reserves === false) writes.send(reserving(press, true));
    refresh();
  }

  const actions: Actions = {
    change,
    send: (write) => writes.send(write),
    pull,
    stand,
    pressed: (press, next) => {
      const job = at(press)?.job;
      if (job == null) return;
      writes.send(pressing(here(press), job));
      if (next) pull(press);
    },
    giveBack: (press, job) => writes.send(givingBack(here(press), job)),
    dwell: (press) => {
      const mine = at(press);
      if (mine?.job == null) return;
      readyBell();
      const dwell = tappedDwell(mine.job, dwellAt(state, mine), Date.now());
      change((before) => ({ ...before, now: Date.now(), dwells: withKey(before.dwells, press, dwell) }));
      keepTicking();
    },
    undo: (press) => {
      const last = state.last.get(press);
      change((before) => undone(before, press));
      if (last === undefined) return;
      if (last.pressed !== null) void undoPressed(press, last.pressed);
      else if (last.back !== null) writes.send(last.back);
    },
    spoil: () => {
      if (state.spoil === null) return;
      const { press, job } = state.spoil;
      const note = noteOf(state.spoil);
      if (note === null)
        return change((before) => ({ ...before, spoil: before.spoil && { ...before.spoil, missing: true } }));
      change((before) => ({ ...before, spoil: null }));
      writes.send(spoiling(here(press), job, note));
    },
    choose: (press, job) => {
      const mine = at(press);
      const isChosen = state.chosen.get(press) === job;
      change(({ chosen, ...rest }) => ({
        ...rest,
        chosen: isChosen ? withoutKey(chosen, press) : withKey(chosen, press, job),
      }));
      if (!isChosen && mine?.job === null && mine.downSince === null) pull(press);
    },
    setOff: (piece, name, off) => writes.send(offMenu(piece, name, off)),
    openStock: () => {
      changeCounting((before) => ({ ...before, open: true, said: "" }));
      void api("/stock").then((reply) =>
        changeCounting((before) =>
          reply.status === 200
            ? withStock(before, reply.body as StockView) // as the route documents
            : { ...before, said: detailOf(reply) },
        ),
      );
    },
    note: (piece) => {
      changeCounting((before) => noted(before, piece));
      flush();
    },
  };

  /** Answers what the stall wants to know of these presses: what of a reserve is free, and that letting go was seen. */
  function answerStall(): void {
    const queue = floorOf(state);
    for (const press of queue === null ? [] : ownPresses(state, queue)) {
      const { press: id, letGo, reserve, askedBack } = press;
      const about = letGo === null ? null : `let go ${id} ${letGo.at}`;
      if (about !== null && !shownLetGo.has(about)) {
        shownLetGo.add(about);
        const text = letGoNews(press);
        if (text !== null) writes.tell(about, text);
        writes.send(reserving(id, true));
      }
      const back = reserve.map(({ job }) => job).filter((job) => askedBack.includes(job));
      if (back.length > 0) writes.send(returningReserve(id, back));
    }
  }

  /** Reads how the offers look. The queue never waits for a picture. */
  async function readLooks(): Promise<void> {
    const { status, body } = await api("/menu");
    if (status !== 200) return;
    const offers = body as MenuView; // as the route documents
    keptOffers.keep(offers);
    change((before) => ({ ...before, looks: looksIn(offers) }));
  }

  async function look(): Promise<boolean> {
    const looked = writes.looking();
    const asked = silent.asking();
    const [first, ...others] = state.standing;
    // The stall hears a press by its name, so the second of two is named in a question of its own.
    for (const press of [first, ...others]) {
      const reply = await api(press === undefined ? "/queue" : `/queue?press=${press}`, { have: tag });
      writes.heard(reply.status !== 0);
      if (reply.status === 0) return false;
      if (reply.date !== null) clock.heard(reply.date);
      if (keyRefused(reply) || reply.status >= 400) {
        if (reply.status >= 400) notice(detailOf(reply));
        return true;
      }
      if (reply.status !== 304) {
        const seen = reply.body as QueueView; // as the route documents
        tag = reply.tag;
        showOrganiser(seen);
        chime(seen.newest);
        change((before) => ({ ...before, seen }));
        const menu = state.menu ?? (await wholeMenu(api));
        change((before) => ({ ...before, menu }));
        if (state.looks === NO_LOOKS) void readLooks();
      }
    }
    silent.heard(asked);
    looked();
    answerStall();
    if (state.seen !== null) kept.keep(state.seen);
    if (state.menu !== null) keptMenu.keep(state.menu);
    refresh();
    return true;
  }

  byId("pause-open").hidden = pressOnly;
  byId("pause-open").addEventListener("click", () => change((before) => ({ ...before, pausing: true })));
  const polling = poll({ everySeconds: 2, look });
  // Without signal nothing else would show that the reserve has ended.
  setInterval(() => writes.lost() && refresh(), 10_000);
  void Promise.all([kept.read(), keptMenu.read(), keptOffers.read()]).then(([found, menu, offers]) => {
    if (found === null || state.seen !== null) return;
    silent.heardBefore(found.at);
    polling.heardBefore(found.at);
    change((before) => ({
      ...before,
      seen: presentView(found.view),
      menu: before.menu ?? menu?.view ?? null,
      looks: offers === null ? before.looks : looksIn(offers.view),
    }));
    refresh();
  });
}

const crew = openCrew(true);
if (crew !== null) {
  run(crew);
  void keepPages();
  keepAwake();
}

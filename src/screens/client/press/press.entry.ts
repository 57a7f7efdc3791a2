/** The press screen: polls the queue, shows this tablet's presses, and sends the operator's taps. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { JobView, QueueView } from "../../../model/orders/order.ts";
import { type Crew, keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { keepPages } from "../crew/keep-pages.ts";
import { lastLook } from "../crew/last-look.ts";
import { sender } from "../crew/sender.ts";
import type { Write } from "../crew/taps.ts";
import { type Looks, looksIn, NO_LOOKS } from "../garment/garments.ts";
import { detailOf, type Reply } from "../kit/api.ts";
import { keepAwake } from "../kit/awake.ts";
import { byId, element } from "../kit/dom.ts";
import { poll } from "../kit/poll.ts";
import { stallClock } from "../kit/stall-clock.ts";
import { local } from "../kit/texts-kept.ts";
import {
  type Act,
  askingReserveBack,
  givingBack,
  offMenu,
  outcome,
  pausing,
  pressDown,
  pressing,
  pressUp,
  pulling,
  pullingReserved,
  reserving,
  resuming,
  returningReserve,
  spoiling,
  undoing,
} from "./acts.ts";
import { bench } from "./bench.ts";
import { presentView } from "./earlier-views.ts";
import { withPulled, withTaps } from "./floor.ts";
import { letGoNews } from "./let-go.ts";
import { filledBench, standingIn } from "./shown.ts";
import { showLow } from "./side/low.ts";
import { onPressAct, type PressAct, showPresses } from "./side/presses.ts";
import { idleWords, nextTake, reservedWords, type Signal } from "./side/reserve.ts";
import { shift } from "./side/shift.ts";
import { stockTaking } from "./side/stock.ts";
import { tabs } from "./side/tabs.ts";
import { onChoose, showUpNext } from "./side/up-next.ts";
import { silence } from "./silence.ts";
import { spoilQuestion } from "./spoil.ts";
import { wayBack } from "./way-back.ts";

function run({ api, place }: Crew): void {
  const standingKey = `press ${place}`;
  let standing = standingIn(local.getItem(standingKey));
  // The stall's own view, and the same with what was tapped since.
  let seen: QueueView | null = null;
  let queue: QueueView | null = null;
  let tag: string | null = null;
  let menu: Menu | null = null;
  let looks: Looks = NO_LOOKS;
  /** The garment that the operator wants next, by press. */
  const chosen = new Map<string, string>();
  const kept = lastLook<QueueView>(`floor ${place}`);
  const keptMenu = lastLook<Menu | null>(`menu ${place}`);
  const keptOffers = lastLook<MenuView>(`offers ${place}`);
  const clock = stallClock();
  const silent = silence();
  const shownLetGo = new Set<string>();

  const at = (press: string) => queue?.presses.find((candidate) => candidate.press === press) ?? null;
  const own = () => standing.flatMap((press) => at(press) ?? []);
  const here = (press: string) => ({ press, at: clock.now() });
  const signal = (): Signal => (!writes.lost() ? "there" : silent.mayTake() ? "lost" : "ended");
  const heatKey = (press: string): string => `heat ${press} ${place}`;
  const heat = (press: string): number | null => Number(local.getItem(heatKey(press))) || null;
  const choiceOf = (press: string): JobView | null =>
    at(press)?.reserve.find(({ job }) => job === chosen.get(press)) ?? null;

  /** The bench a tap was made at; the first one for what concerns the whole stall. */
  const benchOf = (act: Act) => {
    const press = "press" in act ? act.press : undefined;
    return benches[Math.max(0, standing.indexOf(press ?? ""))];
  };

  function answered({ act }: Write<Act>, reply: Reply, late: boolean): void {
    const refused = reply.status >= 400;
    if (!late) {
      notice(refused ? detailOf(reply) : null);
      stock.answered(act, reply);
    }
    if (!refused) {
      if (act.type === "pull" && reply.status === 200 && seen !== null)
        seen = withPulled(seen, act.press, (reply.body as { job: JobView }).job); // as the route documents
      const back = late ? null : wayBack(act);
      const words = idleWords(act, reply, seen) ?? outcome(act, reply);
      const last = benchOf(act)?.last;
      if (act.type === "pull" && words !== null) last?.add(words);
      else last?.say(words, act.type === "pressed" ? act.job : null, back && (() => writes.send(back)));
      // The garment still lies there: it goes back on its press, unless another took its place.
      if ((act.type === "undo" || act.type === "unspoiled") && !late && act.press !== undefined)
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
    changed: () => show(),
    held: ({ act, says }) => {
      stock.held(act);
      benchOf(act)?.last.say(
        act.type === "pull" ? null : `Not sent yet: ${says}.`,
        act.type === "pressed" ? act.job : null,
      );
    },
    answered,
  });
  const { send } = writes;

  function pull(press: string): void {
    const mine = at(press);
    if (mine === null) return;
    const { can, job } = nextTake(mine, signal(), choiceOf(press));
    chosen.delete(press);
    if (can) send(job === null ? pulling(press) : pullingReserved(here(press), job));
  }

  function pressed(press: string, next: boolean): void {
    const job = at(press)?.job;
    if (job == null) return;
    send(pressing(here(press), job));
    if (next) pull(press);
  }

  /** Takes back that a garment is pressed; one that was pulled since by the same tap goes back too. */
  async function undo(press: string, job: string): Promise<void> {
    const since = at(press)?.job ?? null;
    const isAlone = since === null || (await writes.takeBack(`/presses/${press}/pull`));
    if (!isAlone) send(givingBack(here(press), since.job));
    if (await writes.takeBack(`/jobs/${job}/pressed`))
      benchOf({ type: "undo", job, press })?.last.say(`${job} is not pressed.`, null);
    else send(undoing(press, job));
  }

  const askSpoiled = spoilQuestion((press, job, note) => send(spoiling(here(press), job, note)));
  const benches = [0, 1].map((place) => {
    const act = (what: (press: string) => void) => (): void => {
      const press = standing[place];
      if (press !== undefined) what(press);
    };
    const ofJob = (what: (press: string, job: string) => void) => (job: string) =>
      act((press) => what(press, job))();
    const onIt = (what: (press: string, job: string) => void) =>
      act((press) => {
        const job = at(press)?.job;
        if (job != null) what(press, job.job);
      });
    return bench(byId(`bench-${place}`), {
      pull: act(pull),
      pressed: (next) => act((press) => pressed(press, next))(),
      spoiled: onIt(askSpoiled),
      giveBack: onIt((press, job) => send(givingBack(here(press), job))),
      worksAgain: act((press) => send(pressUp(press))),
      undo: ofJob((press, job) => void undo(press, job)),
      wasSpoiled: ofJob(askSpoiled),
      changed: () => show(),
    });
  });

  const setOff = (piece: string, name: string, off: boolean): void => send(offMenu(piece, name, off));
  const stock = stockTaking({ api, menu: () => menu, send, busy: () => writes.busy(), setOff });
  const theShift = shift(send);

  function showBenches(now: QueueView): void {
    const mine = own();
    const busy = writes.busy();
    const instant = Date.parse(clock.now() ?? new Date().toISOString());
    const free = now.presses.filter(
      ({ press, downSince }) => !standing.includes(press) && downSince === null,
    );
    const states = benches.map((one, place) => {
      const press = mine[place];
      if (press === undefined) return one.show(null);
      const before = heat(press.press);
      const meanwhile = mine.length > 1 ? [] : free.map((other) => other.press);
      return one.show({
        press,
        queue: now,
        signal: signal(),
        busy,
        chosen: choiceOf(press.press),
        now: instant,
        notes: {
          before,
          meanwhile,
          goTo: (other) => stand([other]),
          look: looks.get(press.job?.offer ?? "") ?? null,
        },
        beside: mine.length > 1,
      });
    });
    const filled = filledBench(states);
    benches.forEach((one, place) => void one.fill(place === filled));
  }

  function show(): void {
    if (seen === null) return;
    queue = withTaps(seen, writes.ahead());
    const mine = own();
    const stands = mine.length > 0;
    byId("title").textContent = !stands
      ? "Press"
      : mine.length > 1
        ? `Presses ${standing.join(" and ")}`
        : mine.map(({ press, platen }) => `Press ${press}, ${platen}`).join("");
    byId("choose").hidden = stands;
    byId("floor").hidden = !stands;
    byId("floor").classList.toggle("two", mine.length > 1);
    byId("paused").hidden = queue.paused === null;
    byId("pause-open").hidden = queue.paused !== null;
    byId("paused-why").textContent = `Paused: ${queue.paused}. No new orders are taken.`;
    byId<HTMLButtonElement>("resume").disabled = writes.busy();
    byId("reserved-say").textContent = reservedWords(mine, signal());
    stock.flush();
    if (stands) {
      showBenches(queue);
      showUpNext(
        queue,
        mine.map((press) => ({ press, chosen: chosen.get(press.press) ?? null })),
        looks,
      );
      showLow(queue, menu, setOff);
      stock.show(queue);
      showPresses(queue, standing);
      theShift.show(queue);
    } else showChoice(queue);
  }

  function showChoice({ presses }: QueueView): void {
    byId("presses").replaceChildren(
      ...presses.map(({ press, platen }) =>
        element(
          "button",
          { type: "button", onclick: () => stand([press]) },
          `Press ${press}, ${platen} platen`,
        ),
      ),
    );
  }

  /** Stands at these presses from now on. */
  function stand(presses: readonly string[]): void {
    // A press that nobody stands at must not keep garments from the others.
    for (const press of standing)
      if (!presses.includes(press) && at(press)?.reserves === true) send(reserving(press, false));
    standing = presses;
    if (presses.length === 0) local.removeItem(standingKey);
    else local.setItem(standingKey, presses.join(" "));
    for (const press of presses) if (at(press)?.reserves === false) send(reserving(press, true));
    show();
  }

  /** Answers what the stall wants to know of these presses: what of a reserve is free, and that letting go was seen. */
  function answerStall(): void {
    if (seen === null) return;
    queue = withTaps(seen, writes.ahead());
    for (const { press, letGo, reserve, askedBack, ...rest } of own()) {
      const id = letGo === null ? null : `let go ${press} ${letGo.at}`;
      if (id !== null && !shownLetGo.has(id)) {
        shownLetGo.add(id);
        const text = letGoNews({ press, letGo, reserve, askedBack, ...rest });
        if (text !== null) writes.tell(id, text);
        send(reserving(press, true));
      }
      const back = reserve.map(({ job }) => job).filter((job) => askedBack.includes(job));
      if (back.length > 0) send(returningReserve(press, back));
    }
  }

  /** Reads how the offers look. The queue never waits for a picture. */
  async function readLooks(): Promise<void> {
    const { status, body } = await api("/menu");
    if (status !== 200) return;
    const offers = body as MenuView; // as the route documents
    looks = looksIn(offers);
    keptOffers.keep(offers);
    show();
  }

  async function look(): Promise<boolean> {
    const looked = writes.looking();
    const asked = silent.asking();
    const [first, ...others] = standing;
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
        seen = reply.body as QueueView; // as the route documents
        tag = reply.tag;
        menu ??= await wholeMenu(api);
        if (looks === NO_LOOKS) void readLooks();
      }
    }
    silent.heard(asked);
    looked();
    answerStall();
    if (seen !== null) kept.keep(seen);
    if (menu !== null) keptMenu.keep(menu);
    show();
    return true;
  }

  onChoose((press, job) => {
    const mine = at(press);
    if (mine === null) return;
    if (chosen.get(press) === job) chosen.delete(press);
    else chosen.set(press, job);
    if (mine.job === null && mine.downSince === null && chosen.has(press)) pull(press);
    else show();
  });
  const pressActs: Readonly<Record<PressAct, (press: string) => void>> = {
    "go-to": (press) => stand([press]),
    beside: (press) => stand([...standing, press]),
    leave: (press) => stand(standing.filter((other) => other !== press)),
    "ask-back": (press) => send(askingReserveBack(press)),
    reserve: (press) => send(reserving(press, at(press)?.reserves === false)),
    down: (press) => send(pressDown(press)),
    up: (press) => send(pressUp(press)),
  };
  onPressAct((act, press) => pressActs[act](press));
  tabs(byId("tabs"));
  const pauseDialog = byId<HTMLDialogElement>("pause");
  const onTap = (id: string, tap: () => void): void => byId(id).addEventListener("click", tap);
  onTap("resume", () => send(resuming(queue?.paused ?? null)));
  onTap("stock-open", () => void stock.open());
  onTap("pause-open", () => pauseDialog.showModal());
  onTap("pause-back", () => pauseDialog.close());
  for (const button of pauseDialog.querySelectorAll<HTMLButtonElement>("[data-reason]")) {
    button.addEventListener("click", () => {
      pauseDialog.close();
      send(pausing(button.dataset["reason"] ?? "other"));
    });
  }
  const polling = poll({ everySeconds: 2, look });
  // Without signal nothing else would show that the reserve has ended.
  setInterval(() => writes.lost() && show(), 10_000);
  void Promise.all([kept.read(), keptMenu.read(), keptOffers.read()]).then(
    ([found, foundMenu, foundOffers]) => {
      if (found === null || seen !== null) return;
      seen = presentView(found.view);
      silent.heardBefore(found.at);
      menu ??= foundMenu?.view ?? null;
      if (foundOffers !== null) looks = looksIn(foundOffers.view);
      polling.heardBefore(found.at);
      show();
    },
  );
}

const crew = openCrew();
if (crew !== null) {
  run(crew);
  void keepPages();
  keepAwake();
}

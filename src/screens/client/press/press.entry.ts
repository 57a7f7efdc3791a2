/** The press screen: polls the queue, shows this tablet's press, and sends the operator's taps. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { JobView, QueueView } from "../../../model/orders/order.ts";
import { type Crew, keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { keepPages } from "../crew/keep-pages.ts";
import { lastLook } from "../crew/last-look.ts";
import { sender } from "../crew/sender.ts";
import { detailOf } from "../kit/api.ts";
import { keepAwake } from "../kit/awake.ts";
import { byId, element } from "../kit/dom.ts";
import { poll } from "../kit/poll.ts";
import { stallClock } from "../kit/stall-clock.ts";
import { local } from "../kit/texts-kept.ts";
import {
  type Act,
  askingReserveBack,
  givingBack,
  type Here,
  offMenu,
  outcome,
  pausing,
  pressing,
  pulling,
  pullingReserved,
  reserving,
  resuming,
  returningReserve,
  spoiling,
  undoing,
  webOrders,
} from "./acts.ts";
import { dwell } from "./dwell.ts";
import { presentView } from "./earlier-views.ts";
import { withPulled, withTaps } from "./floor.ts";
import { letGoNews } from "./let-go.ts";
import { showComing } from "./side/coming.ts";
import { lastTap } from "./side/last.ts";
import { showLow } from "./side/low.ts";
import { showOthers } from "./side/others.ts";
import { idleWords, nextTake, type Signal, showReserve } from "./side/reserve.ts";
import { shift } from "./side/shift.ts";
import { stockTaking } from "./side/stock.ts";
import { silence } from "./silence.ts";
import { spoilQuestion } from "./spoil.ts";
import { showTag } from "./tag.ts";
import { wayBack } from "./way-back.ts";

function run({ api, place }: Crew): void {
  const pressKey = `press ${place}`;
  let press = local.getItem(pressKey);
  // The stall's own view, and the same with what was tapped since.
  let seen: QueueView | null = null;
  let queue: QueueView | null = null;
  let tag: string | null = null;
  let menu: Menu | null = null;
  const count = dwell();
  const kept = lastLook<QueueView>(`floor ${place}`);
  const keptMenu = lastLook<Menu | null>(`menu ${place}`);

  const clock = stallClock();
  const silent = silence();
  let shownLetGo: string | null = null;
  const withHere = (tap: (here: Here) => void): void => {
    if (press !== null) tap({ press, at: clock.now() });
  };
  const own = () => queue?.presses.find((candidate) => candidate.press === press) ?? null;
  const signal = (): Signal => (!writes.lost() ? "there" : silent.mayTake() ? "lost" : "ended");
  const heatKey = (): string => `heat ${press} ${place}`;
  const heat = (): number | null => Number(local.getItem(heatKey())) || null;

  const writes = sender<Act>({
    api,
    place,
    page: "press",
    changed: () => show(),
    held: ({ act, says }) => {
      stock.held(act);
      last.say(
        act.type === "pull" ? null : `Not sent yet: ${says}.`,
        act.type === "pressed" ? act.job : null,
      );
    },
    answered: ({ act }, reply, late) => {
      const refused = reply.status >= 400;
      if (!late) {
        notice(refused ? detailOf(reply) : null);
        stock.answered(act, reply);
      }
      if (!refused) {
        if (act.type === "pull" && reply.status === 200 && seen !== null)
          seen = withPulled(seen, act.press, (reply.body as { job: JobView }).job); // as the route documents
        const back = late ? null : wayBack(act, press);
        last.say(
          idleWords(act, reply, seen) ?? outcome(act, reply),
          act.type === "pressed" ? act.job : null,
          back && (() => writes.send(back)),
        );
        if (act.type === "pressed") local.setItem(heatKey(), String(act.heat));
        // The garment still lies there: it goes back on this press, unless another took its place.
        if (
          (act.type === "undo" || act.type === "unspoiled") &&
          !late &&
          press !== null &&
          own()?.job === null
        )
          writes.send(pulling(press));
      }
      polling.now();
    },
  });
  const askSpoiled = spoilQuestion((job, note) => withHere((here) => writes.send(spoiling(here, job, note))));
  const last = lastTap({
    undo: async (job) => {
      if (await writes.takeBack(`/jobs/${job}/pressed`)) last.say(`${job} is not pressed.`, null);
      else writes.send(undoing(job));
    },
    spoiled: askSpoiled,
  });
  const setOff = (piece: string, name: string, off: boolean): void => writes.send(offMenu(piece, name, off));
  const stock = stockTaking({
    api,
    menu: () => menu,
    send: (write) => writes.send(write),
    busy: () => writes.busy(),
    setOff,
  });

  const theShift = shift((write) => writes.send(write));

  function showTaps(): void {
    const job = own()?.job ?? null;
    const busy = writes.busy();
    stock.flush();
    const mine = own();
    byId("pull").hidden = mine === null || job !== null || mine.downSince !== null;
    for (const id of ["pressed", "spoiled", "give-back"]) byId(id).hidden = job === null;
    for (const id of ["pull", "pressed", "spoiled", "give-back", "resume", "last-undo", "last-spoiled"])
      byId<HTMLButtonElement>(id).disabled = busy;
    if (mine === null) return;
    const { label, can } = nextTake(mine, signal());
    byId("pull").textContent = label;
    byId<HTMLButtonElement>("pull").disabled = busy || !can;
  }

  function showChoice({ presses }: QueueView): void {
    byId("presses").replaceChildren(
      ...presses.map(({ press: id, platen }) =>
        element("button", { type: "button", onclick: () => choose(id) }, `Press ${id}, ${platen} platen`),
      ),
    );
  }

  function show(): void {
    if (seen === null) return;
    queue = withTaps(seen, writes.ahead());
    const mine = own();
    byId("title").textContent = mine === null ? "Press" : `Press ${mine.press}, ${mine.platen}`;
    byId("choose").hidden = mine !== null;
    byId("floor").hidden = mine === null;
    byId("change").hidden = mine === null;
    byId("web-say").textContent = queue.webOrders ? "Web orders are on." : "Web orders are off.";
    byId("web").textContent = queue.webOrders ? "Stop web orders" : "Take web orders";
    byId("paused").hidden = queue.paused === null;
    byId("pause-open").hidden = queue.paused !== null;
    byId("paused-why").textContent = `Paused: ${queue.paused}. No new orders are taken.`;
    if (mine === null) showChoice(queue);
    else {
      const others = queue.presses.filter((other) => other !== mine && other.downSince === null);
      showTag(mine, queue, { before: heat(), meanwhile: others.map((other) => other.press), goTo: choose });
      count.for(mine.job);
      showReserve(mine, signal());
      showComing(queue, mine.press);
      showLow(queue, menu, setOff);
      stock.show(queue);
      showOthers(queue, mine.press, { goTo: choose, askBack: (id) => writes.send(askingReserveBack(id)) });
      theShift.show(queue, mine.press);
    }
    showTaps();
  }

  function choose(id: string | null): void {
    // A press that nobody stands at must not keep garments from the others.
    const left = own();
    if (left !== null && left.press !== id && left.reserves) writes.send(reserving(left.press, false));
    press = id;
    if (id === null) local.removeItem(pressKey);
    else {
      local.setItem(pressKey, id);
      if (own()?.reserves === false) writes.send(reserving(id, true));
    }
    show();
  }

  function pull(): void {
    const mine = own();
    const first = mine?.reserve[0];
    if (mine === null) return;
    const now = signal();
    if (now === "there") writes.send(pulling(mine.press));
    else if (now === "lost" && first !== undefined)
      writes.send(pullingReserved({ press: mine.press, at: clock.now() }, first));
  }

  /** Answers what the stall wants to know of this press: what of its reserve is free, and that letting go was seen. */
  function answerStall(): void {
    if (seen === null) return;
    queue = withTaps(seen, writes.ahead());
    const mine = own();
    if (mine === null) return;
    if (mine.letGo !== null && mine.letGo.at !== shownLetGo) {
      shownLetGo = mine.letGo.at;
      const text = letGoNews(mine);
      if (text !== null) writes.tell(`let go ${mine.press} ${mine.letGo.at}`, text);
      writes.send(reserving(mine.press, true));
    }
    const back = mine.reserve.map(({ job }) => job).filter((job) => mine.askedBack.includes(job));
    if (back.length > 0) writes.send(returningReserve(mine.press, back));
  }

  async function look(): Promise<boolean> {
    const looked = writes.looking();
    const asked = silent.asking();
    const reply = await api(press === null ? "/queue" : `/queue?press=${press}`, { have: tag });
    writes.heard(reply.status !== 0);
    if (reply.status === 0) return false;
    if (reply.date !== null) clock.heard(reply.date);
    if (reply.status < 400) silent.heard(asked);
    if (keyRefused(reply) || reply.status >= 400) {
      if (reply.status >= 400) notice(detailOf(reply));
      return true;
    }
    if (reply.status !== 304) {
      seen = reply.body as QueueView; // as the route documents
      tag = reply.tag;
      menu ??= await wholeMenu(api);
    }
    looked();
    answerStall();
    if (seen !== null) kept.keep(seen);
    if (menu !== null) keptMenu.keep(menu);
    show();
    return true;
  }

  const pauseDialog = byId<HTMLDialogElement>("pause");
  const onTap = (id: string, tap: () => void): void => byId(id).addEventListener("click", tap);
  const withJob =
    (tap: (job: NonNullable<NonNullable<ReturnType<typeof own>>["job"]>) => void) => (): void => {
      const job = own()?.job;
      if (job != null) tap(job);
    };
  onTap("pull", pull);
  onTap("reserve", () => {
    const mine = own();
    if (mine !== null) writes.send(reserving(mine.press, !mine.reserves));
  });
  onTap(
    "pressed",
    withJob((job) => withHere((here) => writes.send(pressing(here, job)))),
  );
  onTap(
    "spoiled",
    withJob(({ job }) => askSpoiled(job)),
  );
  onTap(
    "give-back",
    withJob(({ job }) => withHere((here) => writes.send(givingBack(here, job)))),
  );
  onTap("change", () => choose(null));
  onTap("resume", () => writes.send(resuming(queue?.paused ?? null)));
  onTap("web", () => queue !== null && writes.send(webOrders(!queue.webOrders)));
  onTap("stock-open", () => void stock.open());
  onTap("pause-open", () => pauseDialog.showModal());
  onTap("pause-back", () => pauseDialog.close());
  for (const button of pauseDialog.querySelectorAll<HTMLButtonElement>("[data-reason]")) {
    button.addEventListener("click", () => {
      pauseDialog.close();
      writes.send(pausing(button.dataset["reason"] ?? "other"));
    });
  }
  const polling = poll({ everySeconds: 2, look });
  // Without signal nothing else would show that the reserve has ended.
  setInterval(() => writes.lost() && show(), 10_000);
  void Promise.all([kept.read(), keptMenu.read()]).then(([found, foundMenu]) => {
    if (found === null || seen !== null) return;
    seen = presentView(found.view);
    silent.heardBefore(found.at);
    menu ??= foundMenu?.view ?? null;
    polling.heardBefore(found.at);
    show();
  });
}

const crew = openCrew();
if (crew !== null) {
  run(crew);
  void keepPages();
  keepAwake();
}

/** The floor as it will be once the stall has every tap: taps show at once, with or without signal. */
import type { JobView, QueueView } from "../../../model/orders/queue.ts";
import type { Act } from "./acts.ts";

type Press = QueueView["presses"][number];

/** The view, with the garments that left a press by a tap, so that an undone one can be shown again. */
type Floor = { readonly view: QueueView; readonly left: readonly JobView[] };

const counted = (view: QueueView, waiting: number, pressing: number): QueueView => ({
  ...view,
  counts: {
    ...view.counts,
    waiting: view.counts.waiting + waiting,
    pressing: view.counts.pressing + pressing,
  },
});

const withPress = (view: QueueView, now: Press): QueueView => ({
  ...view,
  presses: view.presses.map((press) => (press.press === now.press ? now : press)),
});

const inLine = (view: QueueView, jobs: readonly JobView[]): QueueView => ({
  ...view,
  next: [...jobs.map((job): JobView => ({ ...job, stage: "waiting", setTo: null })), ...view.next],
});

/** A reserved garment comes onto its press; a press that has one keeps it, as the stall has it too. */
function pulled({ view, left }: Floor, id: string, wanted: string | null): Floor {
  const press = view.presses.find((candidate) => candidate.press === id);
  const job = press?.reserve.find((candidate) => candidate.job === wanted);
  if (press === undefined || press.job !== null || job === undefined) return { view, left };
  const now: Press = {
    ...press,
    job: { ...job, stage: "pressing" },
    fahrenheit: job.settings.temperatureFahrenheit,
    reserve: press.reserve.filter((candidate) => candidate !== job),
  };
  return { view: counted(withPress(view, now), -1, 1), left };
}

/** A garment leaves its press, into the line again or not. */
function leaves({ view, left }: Floor, job: string, waitsAgain: boolean): Floor {
  const press = view.presses.find((candidate) => candidate.job?.job === job);
  if (press === undefined || press.job === null) return { view, left };
  const empty = withPress(view, { ...press, job: null });
  return waitsAgain
    ? { view: counted(inLine(empty, [press.job]), 1, -1), left }
    : { view: counted(empty, 0, -1), left: [...left, press.job] };
}

/** A garment that was pressed here waits again. */
function waitsAgain({ view, left }: Floor, job: string): Floor {
  const found = left.find((candidate) => candidate.job === job);
  if (found === undefined) return { view, left };
  return { view: counted(inLine(view, [found]), 1, 0), left: left.filter((other) => other !== found) };
}

/** Garments are reserved for a press from now on, or all of its reserve goes back into the line. */
function reserves({ view, left }: Floor, id: string, on: boolean): Floor {
  const press = view.presses.find((candidate) => candidate.press === id);
  if (press === undefined) return { view, left };
  if (on) return { view: withPress(view, { ...press, reserves: on }), left };
  const now = { ...press, reserves: on, reserve: [], askedBack: [] };
  return { view: inLine(withPress(view, now), press.reserve), left };
}

/** A press gives some of its reserve back into the line. */
function reserveReturned({ view, left }: Floor, id: string, jobs: readonly string[]): Floor {
  const press = view.presses.find((candidate) => candidate.press === id);
  if (press === undefined) return { view, left };
  const goes = ({ job }: JobView): boolean => jobs.includes(job);
  const now = { ...press, reserve: press.reserve.filter((job) => !goes(job)) };
  return { view: inLine(withPress(view, now), press.reserve.filter(goes)), left };
}

function givenBack(floor: Floor, job: string): Floor {
  const press = floor.view.presses.find(({ reserve }) => reserve.some((candidate) => candidate.job === job));
  if (press === undefined) return leaves(floor, job, true);
  const back = press.reserve.filter((candidate) => candidate.job === job);
  const now = { ...press, reserve: press.reserve.filter((candidate) => candidate.job !== job) };
  return { ...floor, view: inLine(withPress(floor.view, now), back) };
}

/** A press out of order gives back all it has. */
function down(floor: Floor, id: string): Floor {
  const press = floor.view.presses.find((candidate) => candidate.press === id);
  if (press === undefined || press.downSince !== null) return floor;
  const empty = reserves(press.job === null ? floor : leaves(floor, press.job.job, true), id, false);
  const { asOf } = empty.view;
  const now = { ...press, job: null, reserve: [], downSince: asOf };
  return { ...empty, view: withPress(empty.view, now) };
}

function up({ view, left }: Floor, id: string): Floor {
  const press = view.presses.find((candidate) => candidate.press === id);
  return press === undefined
    ? { view, left }
    : { view: withPress(view, { ...press, downSince: null }), left };
}

function offMenu(view: QueueView, piece: string, off: boolean): QueueView {
  const others = view.offMenu.filter((other) => other !== piece);
  if (!off) return { ...view, offMenu: others };
  return { ...view, offMenu: [...others, piece], low: view.low.filter(({ sku }) => sku !== piece) };
}

/** Kept open until closing time; when orders end by themselves instead, only the stall can tell. */
const intake = ({ intake: now, paused }: QueueView, keptOpen: boolean): QueueView["intake"] =>
  keptOpen && now.closes !== null
    ? { ...now, keptOpen, open: paused === null, lastOrders: false, endsAt: now.closes }
    : { ...now, keptOpen: false };

/** The free number of each piece as just counted; when it runs out is for the stall to say. */
const recounted = (view: QueueView, free: Readonly<Record<string, number>>): QueueView => ({
  ...view,
  low: view.low.map((row) => {
    const now = free[row.sku];
    return now === undefined || now === row.free ? row : { ...row, free: now, emptyAt: null };
  }),
});

function after(floor: Floor, act: Act): Floor {
  switch (act.type) {
    case "pull":
      return pulled(floor, act.press, act.job);
    case "pressed":
      return leaves(floor, act.job, false);
    case "undo-pressed":
      return waitsAgain(floor, act.job);
    case "spoiled":
      return leaves(waitsAgain(floor, act.job), act.job, true);
    // It waits already, spoiled or not.
    case "undo-spoiled":
      return floor;
    case "returned":
      return givenBack(floor, act.job);
    case "reserve":
      return reserves(floor, act.press, act.on);
    case "reserve-returned":
      return reserveReturned(floor, act.press, act.jobs);
    case "pause":
      return { ...floor, view: { ...floor.view, paused: act.reason } };
    case "resume":
      return { ...floor, view: { ...floor.view, paused: null } };
    case "web":
      return { ...floor, view: { ...floor.view, webOrders: act.open } };
    case "press-down":
      return down(floor, act.press);
    case "press-up":
      return up(floor, act.press);
    case "hands":
      return { ...floor, view: { ...floor.view, hands: act.hands } };
    case "off-menu":
      return { ...floor, view: offMenu(floor.view, act.piece, act.off) };
    case "keep-open":
      return { ...floor, view: { ...floor.view, intake: intake(floor.view, act.open) } };
    case "stock":
      return { ...floor, view: recounted(floor.view, act.free ?? {}) };
    // Taps of the counter are among these too.
    default:
      return floor;
  }
}

/** The view with the garment on a press that the stall has just answered with. */
export function withPulled(view: QueueView, id: string, job: JobView): QueueView {
  const press = view.presses.find((candidate) => candidate.press === id);
  if (press === undefined || press.job !== null) return view;
  const other = (candidate: JobView): boolean => candidate.job !== job.job;
  const now = { ...press, job, reserve: press.reserve.filter(other) };
  return { ...counted(withPress(view, now), -1, 1), next: view.next.filter(other) };
}

/** The view after some taps; one whose effect it has already changes nothing. */
export function withTaps(view: QueueView, acts: readonly Act[]): QueueView {
  const before: Floor = { view, left: [] };
  return acts.reduce(after, before).view;
}

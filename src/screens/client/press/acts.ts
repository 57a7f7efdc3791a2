/** The operator's taps as writes, and what each came to in words. */
import type { JobStage, OrderStage } from "../../../model/orders/order.ts";
import type { JobView } from "../../../model/orders/queue.ts";
import type { Write } from "../crew/taps.ts";
import type { Reply } from "../kit/api.ts";
import { type Made, madeOf, type SpoilNote } from "./spoil.ts";

export type Act =
  /** One of the reserve by name, or the next by the stall’s choice (null); without signal only one of the reserve. */
  | { readonly type: "pull"; readonly press: string; readonly job: string | null }
  | { readonly type: "reserve"; readonly press: string; readonly on: boolean }
  | { readonly type: "reserve-returned"; readonly press: string; readonly jobs: readonly string[] }
  | { readonly type: "reserve-asked-back"; readonly press: string }
  | {
      readonly type: "pressed";
      readonly job: string;
      readonly heat: number;
      readonly press?: string;
      /** Absent in taps that an earlier version of the page kept. */
      readonly made?: Made;
    }
  | { readonly type: "undo-pressed"; readonly job: string; readonly press?: string }
  /** `rack`: it hangs on the rack. */
  | { readonly type: "spoiled"; readonly job: string; readonly press?: string; readonly rack?: true }
  | { readonly type: "undo-spoiled"; readonly job: string; readonly press?: string }
  | { readonly type: "returned"; readonly job: string; readonly press?: string }
  | { readonly type: "pause"; readonly reason: string }
  /** `was` is why the stall had paused. */
  | { readonly type: "resume"; readonly was: string | null }
  | { readonly type: "web"; readonly open: boolean }
  | { readonly type: "keep-open"; readonly open: boolean }
  | { readonly type: "hands"; readonly hands: number | null; readonly before: number | null }
  | { readonly type: "press-down"; readonly press: string }
  | { readonly type: "press-up"; readonly press: string }
  | { readonly type: "off-menu"; readonly piece: string; readonly name: string; readonly off: boolean }
  /** `free`: the new free number of each piece, if the screen knows it; `back`: the act that undoes this one. */
  | {
      readonly type: "stock";
      readonly names: readonly string[];
      readonly free?: Readonly<Record<string, number>>;
      readonly back?: readonly StockLine[];
    };

/** One line of a stock sheet, as the stall takes it. */
export type StockLine = Readonly<Record<string, string | number>>;

export type Unsent = Write<Act>;

export const pulling = (press: string): Unsent => ({
  act: { type: "pull", press, job: null },
  path: `/presses/${press}/pull`,
  body: {},
  says: `the next garment for press ${press}`,
  waits: true,
});

/** Where and when a tap was made, by the stall's clock if that is known. */
export type Here = { readonly press: string; readonly at: string | null };

const when = ({ at }: Here) => (at === null ? {} : { at });
const tapped = (here: Here) => ({ press: here.press, ...when(here) });

export const pullingReserved = (here: Here, { job }: JobView): Unsent => ({
  act: { type: "pull", press: here.press, job },
  path: `/presses/${here.press}/pull`,
  body: { job, ...when(here) },
  says: `${job} put on press ${here.press}`,
});

/** Reserves garments for a press, or gives all back: that also says that this tablet was shown what was let go. */
export const reserving = (press: string, on: boolean): Unsent => ({
  act: { type: "reserve", press, on },
  path: `/presses/${press}/reserve`,
  body: { on },
  says: on ? `garments reserved for press ${press}` : `the reserve of press ${press} given back`,
});

/** Confirms that this tablet has not taken these and takes them no more. */
export const returningReserve = (press: string, jobs: readonly string[]): Unsent => ({
  act: { type: "reserve-returned", press, jobs },
  path: `/presses/${press}/reserve/returned`,
  body: { jobs },
  says: `${jobs.join(", ")} given back, as asked`,
});

export const askingReserveBack = (press: string): Unsent => ({
  act: { type: "reserve-asked-back", press },
  path: `/presses/${press}/reserve/asked-back`,
  body: {},
  says: `press ${press} asked for its reserve`,
});

export const pressing = (here: Here, garment: JobView): Unsent => {
  const { job, settings } = garment;
  const { press } = here;
  return {
    act: { type: "pressed", job, heat: settings.temperatureFahrenheit, press, made: madeOf(garment) },
    path: `/jobs/${job}/pressed`,
    body: tapped(here),
    says: `${job} pressed`,
  };
};

export const undoing = (press: string, job: string): Unsent => ({
  act: { type: "undo-pressed", job, press },
  path: `/jobs/${job}/undo-pressed`,
  body: {},
  says: `${job} not pressed after all`,
});

export const spoiling = (here: Here, job: string, note: SpoilNote): Unsent => ({
  act: { type: "spoiled", job, press: here.press, ...(note.rack === undefined ? {} : { rack: true }) },
  path: `/jobs/${job}/spoiled`,
  body: { ...note, ...tapped(here) },
  says: `${job} spoiled`,
});

export const unspoiling = (job: string, press?: string): Unsent => ({
  act: { type: "undo-spoiled", job, ...(press === undefined ? {} : { press }) },
  path: `/jobs/${job}/undo-spoiled`,
  body: {},
  says: `${job} not spoiled after all`,
});

export const givingBack = (here: Here, job: string): Unsent => ({
  act: { type: "returned", job, press: here.press },
  path: `/jobs/${job}/returned`,
  body: tapped(here),
  says: `${job} given back`,
});

export const pausing = (reason: string): Unsent => ({
  act: { type: "pause", reason },
  path: "/pause",
  body: { reason },
  says: "the pause",
});

export const resuming = (was: string | null): Unsent => ({
  act: { type: "resume", was },
  path: "/resume",
  body: {},
  says: "the end of the pause",
});

export const webOrders = (open: boolean): Unsent => ({
  act: { type: "web", open },
  path: "/web-orders",
  body: { open },
  says: open ? "web orders on" : "web orders off",
});

export const keepingOpen = (open: boolean): Unsent => ({
  act: { type: "keep-open", open },
  path: "/keep-open",
  body: { undo: !open },
  says: open ? "orders until closing time" : "orders ending by themselves",
});

export const settingHands = (hands: number | null, before: number | null): Unsent => ({
  act: { type: "hands", hands, before },
  path: "/hands",
  body: { hands },
  says: hands === null ? "one hand for each press" : `${hands} at the presses`,
});

export const pressDown = (press: string): Unsent => ({
  act: { type: "press-down", press },
  path: `/presses/${press}/down`,
  body: {},
  says: `press ${press} out of order`,
});

export const pressUp = (press: string): Unsent => ({
  act: { type: "press-up", press },
  path: `/presses/${press}/up`,
  body: {},
  says: `press ${press} working again`,
});

export const offMenu = (piece: string, name: string, off: boolean): Unsent => ({
  act: { type: "off-menu", piece, name, off },
  path: "/off-menu",
  body: piece.startsWith("transfer:")
    ? { design: piece.slice("transfer:".length), off }
    : { sku: piece, off },
  says: off ? `${name} not sold` : `${name} sold again`,
});

export const stockNoted = (
  entries: readonly StockLine[],
  names: readonly string[],
  free: Readonly<Record<string, number>>,
  back: readonly StockLine[],
): Unsent => ({
  act: { type: "stock", names, free, back },
  path: "/stock",
  body: { entries },
  says: `the count of ${names.join("; ")}`,
});

/** Takes a count or a delivery back by as many pieces as it changed, whatever was pressed since. */
export const stockTakenBack = (entries: readonly StockLine[], names: readonly string[]): Unsent => ({
  act: { type: "stock", names },
  path: "/stock",
  body: { entries },
  says: `the count of ${names.join("; ")} taken back`,
});

type Standing = { readonly stage: JobStage; readonly number: number; readonly orderStage: OrderStage };

/** The result of an accepted tap in words; null if the screen itself shows it. */
export function outcome(act: Act, { status, body }: Reply): string | null {
  const standing = body as Standing | null; // what the job routes document
  switch (act.type) {
    case "pull":
      return status === 204 && act.job === null ? "Nothing waits for this press." : null;
    case "pressed":
      return standing?.orderStage === "ready"
        ? `${act.job} pressed. Order ${standing.number} is ready.`
        : `${act.job} pressed.`;
    case "undo-pressed":
      return `${act.job} is not pressed. It waits again, ahead of all others.`;
    case "spoiled":
      return [
        act.rack ? `${act.job} hangs on the rack.` : `${act.job} spoiled.`,
        standing?.stage === "short"
          ? "No spare is left: it is short, and keeps its place for the next one."
          : "A spare is kept for it: it is pressed again next.",
      ].join(" ");
    case "undo-spoiled":
      return `${act.job} is not spoiled. It waits again, ahead of all others.`;
    case "returned":
      return `${act.job} given back. It keeps its place.`;
    case "reserve":
      return null;
    case "reserve-returned":
      return `Given back, as asked: ${act.jobs.join(", ")}.`;
    case "reserve-asked-back":
      return `Press ${act.press} is asked for its reserve. It comes back as its tablet answers.`;
    case "pause":
      return "Paused.";
    case "resume":
      return "Orders are taken again. Everyone who waits has a new time.";
    case "web":
      return act.open
        ? "Web orders are taken again."
        : "No web orders are taken. Texts and the counter go on.";
    case "keep-open":
      return act.open
        ? "Orders are taken until closing time, however long the line."
        : "Orders stop when the line reaches closing time.";
    case "hands":
      return "Saved. New wait times use this.";
    case "press-down":
      return `Press ${act.press} is out of order. What it had goes to the next press that fits.`;
    case "press-up":
      return `Press ${act.press} works again.`;
    case "off-menu":
      return act.off ? `${act.name} is not sold now.` : `${act.name} is sold again.`;
    case "stock":
      return "Noted.";
    default:
      return act satisfies never;
  }
}

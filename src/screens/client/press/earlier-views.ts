/** A view of the queue that an earlier page kept on this tablet, with the names it has now. */
import type { QueueView } from "../../../model/orders/queue.ts";

type Press = QueueView["presses"][number];
type EarlierPress = Omit<
  Press,
  "reserves" | "reserveUntil" | "reserve" | "askedBack" | "letGo" | "silentFrom"
> & {
  readonly aside: Press["reserve"];
  readonly asideUntil: string | null;
  readonly keepsAside: number;
};

function presentPress(press: Press | EarlierPress): Press {
  if (!("keepsAside" in press)) return { ...press, silentFrom: press.silentFrom ?? null };
  const { aside, asideUntil, keepsAside, ...rest } = press;
  return {
    ...rest,
    job: rest.job === null ? null : { ...rest.job, letGo: [] },
    reserves: keepsAside > 0,
    reserveUntil: asideUntil,
    reserve: aside.map((job) => ({ ...job, stage: "reserved", letGo: [] })),
    askedBack: [],
    letGo: null,
    silentFrom: null,
  };
}

/** The reserve of a press was called aside. */
export function presentView(view: QueueView): QueueView {
  const presses: readonly (Press | EarlierPress)[] = view.presses; // as earlier pages kept them
  const next = view.next.map((job) => ({ ...job, letGo: job.letGo ?? [] }));
  return { ...view, next, presses: presses.map(presentPress) };
}

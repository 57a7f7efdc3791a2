/** The stall's answer to a tap that was kept for a while, in words for the crew. */
import { detailOf, type Reply } from "../kit/api.ts";
import type { Tap, Write } from "./taps.ts";
import { timeOfDay } from "./words/clock.ts";

type Pulled = { readonly job: { readonly job: string } };

/** The press of a pull, and the garment it asked for by name. */
function pullOf({ path, body }: Write<unknown>): { press: string; job: string | null } | null {
  const press = /^\/presses\/([^/]+)\/pull$/.exec(path)?.[1];
  if (press === undefined) return null;
  const { job } = body as { readonly job?: string }; // as pulls are written
  return { press, job: job ?? null };
}

const jobIn = ({ status, body }: Reply): string | null =>
  status === 200 ? ((body as Pulled | null)?.job.job ?? null) : null; // as the route documents

const madeAt = (tap: Tap<unknown>): string => timeOfDay(new Date(tap.at).toISOString());

// The state of a garment, if a tap about it came too late.
const NOW: Readonly<Record<string, string>> = {
  pressed: "Someone already marked it pressed.",
  waiting: "It is back in the line.",
  reserved: "It is reserved for a press again.",
  short: "It is short of a blank or a transfer.",
  pressing: "It is on a press.",
  elsewhere: "It was taken by another press, or is back in the line.",
};

const COUNT_IT = "If you pressed it here anyway, it is one too many: keep it, and count the stock.";

/** Why a tap about a garment was refused. */
function aboutGarment(tap: Tap<unknown>, { body }: Reply): string | null {
  const action = /^\/jobs\/[^/]+\/([a-z]+)$/.exec(tap.path)?.[1];
  if (action === undefined && pullOf(tap) === null) return null;
  const { type, stage } = body as { readonly type?: string; readonly stage?: string }; // a problem's members
  const now = type === "/problems/no-such-job" ? "Its order was cancelled or has ended." : NOW[stage ?? ""];
  if (now === undefined) return null;
  return action === "pressed" && stage !== "pressed" ? `${now} ${COUNT_IT}` : now;
}

/** The message about a tap that was answered late; null if everything went as the screen had shown. */
export function lateNews(tap: Tap<unknown>, reply: Reply): string | null {
  const what = `${tap.says}, tapped at ${madeAt(tap)}`;
  if (reply.status >= 400) return `Not done: ${what}. ${aboutGarment(tap, reply) ?? detailOf(reply)}`;
  const pull = pullOf(tap);
  const got = pull === null ? null : jobIn(reply);
  if (pull !== null && pull.job !== null && got !== pull.job)
    return `Not done: ${what}. Press ${pull.press} had ${got ?? "another garment"} on it already. ${COUNT_IT}`;
  return null;
}

/**
 * The path prefix of a garment's further taps, if the garment never came onto the press it was taken for. They are not
 * sent, since that garment is at another press by now. Null if the pull was granted, and for other taps.
 */
export function fallsWith(tap: Tap<unknown>, reply: Reply): string | null {
  const pull = pullOf(tap);
  if (pull === null || pull.job === null) return null;
  return reply.status < 400 && jobIn(reply) === pull.job ? null : `/jobs/${pull.job}/`;
}

/** The message about a tap that is dropped with the one before it. */
export const fallenNews = (tap: Tap<unknown>): string =>
  `Not sent: ${tap.says}, tapped at ${madeAt(tap)}. The stall never had it on this press. ${COUNT_IT}`;

/**
 * The tap to send next, before all waiting ones, after a pull was answered. A pull under way when the signal went may
 * have arrived: then the stall put a garment of its own choice on the press, while the operator took one from the
 * reserve. The stall's choice is given back.
 */
export function nextBefore(
  tap: Tap<unknown>,
  reply: Reply,
  rest: readonly Tap<unknown>[],
): Pick<Write<unknown>, "path" | "body" | "says"> | null {
  const pull = pullOf(tap);
  const got = pull === null ? null : jobIn(reply);
  if (pull === null || pull.job !== null || got === null) return null;
  const then = rest.map(pullOf).find((other) => other?.press === pull.press);
  if (then === undefined || then === null || then.job === null || then.job === got) return null;
  return { path: `/jobs/${got}/returned`, body: {}, says: `${got} given back` };
}

/** Why an old tap is not sent automatically any more. */
export const oldNews = (tap: Tap<unknown>): string =>
  `${tap.says}: tapped more than two days ago and never answered, so it is not sent by itself. It may have been done. Look first.`;

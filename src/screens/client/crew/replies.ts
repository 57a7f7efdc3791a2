/** What the stall's answer to a tap that was kept for a while means, in words for whoever tapped. */
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

// What a garment is now, where a tap about it came too late.
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

/** What has to be read about a tap that was answered late; null where all went as the screen had shown. */
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
 * What a garment's taps begin with, where it never came onto the press it was taken for: they are not sent,
 * since the garment of that number is somebody else's by now. Null where the pull was granted, and for other taps.
 */
export function fallsWith(tap: Tap<unknown>, reply: Reply): string | null {
  const pull = pullOf(tap);
  if (pull === null || pull.job === null) return null;
  return reply.status < 400 && jobIn(reply) === pull.job ? null : `/jobs/${pull.job}/`;
}

/** What is to be read about a tap that falls with the one before. */
export const fallenNews = (tap: Tap<unknown>): string =>
  `Not sent: ${tap.says}, tapped at ${madeAt(tap)}. The stall never had it on this press. ${COUNT_IT}`;

/**
 * What has to be sent next after a pull that was answered, before all that waits. A pull under way when the
 * signal went may have been heard: then the stall put a garment of its own choice on the press, while the
 * operator took one of the reserve. The stall's choice is given back.
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

/** Why a tap is not sent any more by itself. */
export const oldNews = (tap: Tap<unknown>): string =>
  `${tap.says}: tapped more than two days ago and never answered, so it is not sent by itself. It may have been done. Look first.`;

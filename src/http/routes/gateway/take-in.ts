/** Takes one inbound text to the stall it is for, and sees that opting out holds for the whole number. */

import type { Route } from "../../../fair/calls/texts.ts";
import { answeredBy, type Destination, type Inbound } from "../../../fair/text-routing.ts";
import type { CustomerId, FairId, StallId } from "../../../model/basics/ids.ts";
import type { PhoneNumber } from "../../../model/orders/order.ts";
import type { Answer } from "../../../model/orders/refusal.ts";
import type { ChatAnswer } from "../../../stall/calls/texts.ts";
import type { FromFair, Spoken } from "../../../stall/messages/conversation.ts";
import { customerAt, senderAt } from "../../../texting/keyed-hash.ts";

type Said = Omit<Spoken, "chance">;
type Listed = Extract<Destination, { readonly to: "which" }>["stalls"];

/** The objects a text passes through, and the keyed hash that names people to them. */
export type TextPath = {
  readonly fair: {
    readonly route: (inbound: Omit<Inbound, "own">, to: string | null) => Promise<Route>;
    readonly setStopped: (sender: string, stopped: boolean, as?: string) => Promise<readonly StallId[]>;
    readonly stoppedAmong: (phones: readonly PhoneNumber[]) => Promise<readonly PhoneNumber[]>;
    readonly toldStopped: (sender: string, stopped: boolean) => Promise<void>;
  };
  readonly stall: (stall: StallId) => {
    readonly text: (said: Said, fair: FromFair) => Promise<Answer<ChatAnswer>>;
    readonly askWhich: (said: Said, fair: FromFair, stalls: Listed) => Promise<Answer<ChatAnswer>>;
    readonly setStopped: (number: CustomerId, stopped: boolean) => Promise<void>;
  };
  readonly opaqueId: (of: string) => Promise<CustomerId>;
  /** The hash by which a number's STOP goes along when a stall moves. */
  readonly stopHash: (phone: PhoneNumber) => Promise<string>;
};

export type InText = {
  readonly id: string;
  readonly phone: PhoneNumber;
  /** The number the text was sent to, if the gateway says so. */
  readonly to: string | null;
  readonly text: string;
};

/** Null: it cannot be answered, or was answered long ago. Repeated, it gets the same answer and does nothing twice. */
export async function takeIn(
  path: TextPath,
  fair: FairId,
  inAnswer: boolean,
  { id: given, phone, to, text }: InText,
): Promise<Answer<ChatAnswer> | "nobody" | null> {
  const [id, sender] = await Promise.all([
    path.opaqueId(`message/${fair}/${given}`),
    path.opaqueId(senderAt(fair, phone)),
  ]);
  const route = await path.fair.route({ message: id, sender, text }, to);
  const { destination, gateway } = route;
  if (destination.to === "nobody") return "nobody";
  if (destination.to === "dropped") return null;
  const stopped =
    route.stopped || (route.elsewhere === true && (await path.fair.stoppedAmong([phone])).length > 0);
  const stall = answeredBy(destination);
  if (stall === undefined) throw new Error(`fair ${fair} asks which stall without naming one`);
  const [number, customer] = await Promise.all([
    path.opaqueId(customerAt(fair, stall, phone)),
    // Nobody who knows numbers can compute this id: it is made from the message's own id.
    path.opaqueId(`first-text/${fair}/${stall}/${given}`),
  ]);
  const said = { id, customer, number, phone, text: destination.to === "stall" ? destination.text : text };
  const fromFair = { stopped, gateway, inAnswer };
  const object = path.stall(stall);
  const answer: Answer<ChatAnswer> =
    destination.to === "stall"
      ? await object.text(said, fromFair)
      : await object.askWhich(said, fromFair, destination.stalls);
  if (!answer.ok) return answer;
  // Where telling the stalls broke off, the next text of the number, or this one's repeat, takes it up again.
  const { optedOut } = answer.value;
  if (optedOut !== stopped || route.telling) await tellAll(path, fair, sender, phone, optedOut);
  return answer;
}

/**
 * The fair records it first: from then on every text is routed with it, and the stalls the number wrote to before are
 * informed.
 */
async function tellAll(
  path: TextPath,
  fair: FairId,
  sender: string,
  phone: PhoneNumber,
  stopped: boolean,
): Promise<void> {
  const as = stopped ? await path.stopHash(phone) : undefined;
  const stalls = await path.fair.setStopped(sender, stopped, as);
  await Promise.all(
    stalls.map(async (stall) => {
      const number = await path.opaqueId(customerAt(fair, stall, phone));
      await path.stall(stall).setStopped(number, stopped);
    }),
  );
  await path.fair.toldStopped(sender, stopped);
}

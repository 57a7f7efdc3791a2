/** Every kind of key, for the right place and for others: what a matrix of doors is tried with. */
import type { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import { at, example, type Running } from "../http/running.ts";
import { OWNER_SECRET } from "../http/secrets.ts";
import type { Place } from "./document.ts";

export type ShownKey = {
  readonly name: string;
  /** The whole Authorization header; null if none is sent. */
  readonly header: string | null;
  /** The key's role, if it is valid at the tried place. */
  readonly role: string | null;
  /** Once good, and ended by a newer one. */
  readonly expired?: boolean;
  /** Not even the form of a key. */
  readonly misshapen?: boolean;
};

export type Keyring = { readonly place: Place; readonly keys: readonly ShownKey[] };

const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };

async function ordered(anyone: Client, base: string) {
  const { body } = await anyone.post<{ number: number; claim: string }>(`${base}/orders`, { lines: [LINE] });
  return body;
}

async function talking(anyone: Client, base: string, id: string): Promise<string> {
  const { body } = await anyone.post<{ customer: string }>(`${base}/chat`, { id, text: "menu" });
  return body.customer;
}

const crewOf = (fair: LoadedFair, index: number): string => fair.stalls[index]?.key ?? "";

/** Another letter in the middle of a key's signature. */
const altered = (key: string): string => {
  const middle = key.length - 20;
  return key.slice(0, middle) + (key[middle] === "A" ? "B" : "A") + key.slice(middle + 1);
};

/** Loads two fairs, replaces both kinds of key, and makes an order and a conversation at two stalls. */
export async function keyring(running: Pick<Running, "anyone" | "owner">): Promise<Keyring> {
  const { anyone, owner } = running;
  const [fair, other] = [await example(running), await example(running)];
  const base = at(fair);
  const organiser = await owner.post<{ key: string }>(`/v1/fairs/${fair.fair}/key`, {});
  const asOrganiser = anyone.withKey(organiser.body.key);
  const ended = await asOrganiser.put<{ pressKey: string }>(base, { name: "Tern & Tide" });
  const crew = await asOrganiser.post<{ key: string; pressKey: string }>(`${base}/key`, {});
  const order = await ordered(anyone, base);
  const second = await ordered(anyone, base);
  const elsewhere = await ordered(anyone, at(fair, 1));
  const good = {
    owner: OWNER_SECRET,
    organiser: organiser.body.key,
    crew: crew.body.key,
    press: crew.body.pressKey,
    customer: await talking(anyone, base, "a-first-message-of-the-keyring"),
    claim: order.claim,
  };
  const key = (name: string, token: string, more: Partial<ShownKey> = {}): ShownKey => ({
    name,
    header: `Bearer ${token}`,
    role: null,
    ...more,
  });
  const keys: ShownKey[] = [
    { name: "no key", header: null, role: null },
    ...Object.entries(good).map(([role, token]) => key(`the ${role}'s`, token, { role })),
    key("an ended organiser's", fair.key, { role: "organiser", expired: true }),
    key("an ended crew's", crewOf(fair, 0), { role: "crew", expired: true }),
    key("an ended press's", ended.body.pressKey, { role: "press", expired: true }),
    key("another fair's organiser's", other.key),
    key("another stall's crew's", crewOf(fair, 1)),
    key("another fair's crew's of the same name", crewOf(other, 0)),
    key("another stall's customer's", await talking(anyone, at(fair, 1), "a-first-message-elsewhere-then")),
    key("another order's claim", second.claim),
    key("another stall's claim", elsewhere.claim),
    ...Object.entries(good).map(([role, token]) => key(`the ${role}'s, one letter altered`, altered(token))),
    ...Object.entries(good).map(([role, token]) => key(`the ${role}'s, cut short`, token.slice(0, -1))),
    key("a later crew's, made up", good.crew.replace("crew.2.", "crew.3.")),
    key("a press's, called a crew's", crew.body.pressKey.replace("press.", "crew.")),
    key("a crew's, called an organiser's", good.crew.replace("crew.", "organiser.")),
    key("a customer's, called a claim", good.customer.replace("customer.", "claim.")),
    key("with a fourth part", `${good.crew}.x`),
    key("of 200 dots", ".".repeat(200)),
    key("of 4,000 letters", "x".repeat(4000), { misshapen: true }),
    key("the word null", "null"),
    { name: "an empty one", header: "Bearer ", role: null, misshapen: true },
    { name: "of another scheme", header: `Basic ${btoa("crew:crew")}`, role: null, misshapen: true },
    { name: "without a scheme", header: good.crew, role: null, misshapen: true },
  ];
  return { place: { fair: fair.fair, stall: fair.stalls[0]?.stall ?? "", number: order.number }, keys };
}

/** The customer's page as state: whatever is tapped, answered or lost, nothing said is lost and no control stays dead. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ChatHistory, ChatMessage, ChatReply } from "../../../src/model/orders/chat.ts";
import { tilesOf } from "../../../src/screens/client/customer/shown.ts";
import { cancelling, firstState, type State, typing } from "../../../src/screens/client/customer/state.ts";
import { talking } from "../../../src/screens/client/customer/talking.ts";
import type { Api, Reply } from "../../../src/screens/client/kit/api.ts";

/** The fate of a request: answered, lost on the way there or back, or refused. */
const FATES = ["answered", "lost", "reply-lost", "busy", "down", "unknown-customer", "refused"] as const;
type Fate = (typeof FATES)[number];

const reply = (status: number, body: unknown = null): Reply => ({ status, body, tag: null, date: null });

const LIST = "Which size? 1 S 2 M 3 L";

/** A stall that answers each message once, however often it comes, and asks a question unless the text is "bye". */
class Stall {
  readonly heard: string[] = [];
  #messages: readonly ChatMessage[] = [];
  #answers = new Map<string, ChatReply>();
  #customers = 0;
  fate: () => Fate = () => "answered";
  /** The token that the page sends along. */
  brought: () => string | null = () => null;
  /** The token of the customer the stall knows. */
  token: string | null = null;

  readonly api: Api = async (path, { body } = {}) => {
    const fate = this.fate();
    if (fate === "lost") return reply(0);
    if (fate === "busy") return reply(429);
    if (fate === "down") return reply(503);
    if (fate === "unknown-customer" && this.brought() !== null) {
      this.token = null;
      this.#messages = [];
      return reply(401);
    }
    const said = body as { readonly id: string; readonly text: string } | undefined; // what the page sends
    // A message that was heard is answered the same again.
    if (fate === "refused" && said !== undefined && !this.#answers.has(said.id))
      return reply(409, { type: "/problems/no-menu", detail: "" });
    const answer = said === undefined ? this.#news(path) : this.#hear(said);
    return fate === "reply-lost" ? reply(0) : reply(200, answer);
  };

  /** Unasked news. */
  speak(text: string): void {
    if (this.token !== null) this.#keep(`news${this.#messages.length}`, "stall", text, this.#sequence + 1);
  }

  get #sequence(): number {
    return this.#messages.at(-1)?.sequence ?? 0;
  }

  #keep(id: string, from: ChatMessage["from"], text: string, sequence: number): void {
    this.#messages = [...this.#messages, { id, from, text, sequence }];
  }

  #hear({ id, text }: { readonly id: string; readonly text: string }): ChatReply {
    const before = this.#answers.get(id);
    if (before !== undefined) return before;
    this.heard.push(text);
    if (this.token === null) this.#customers += 1;
    this.token ??= `customer ${this.#customers}`;
    const answer = { id: `${id}-1`, text: text === "bye" ? "Goodbye." : LIST };
    const sequence = this.#sequence + 1;
    this.#keep(id, "customer", text, sequence);
    this.#keep(answer.id, "stall", answer.text, sequence);
    const made: ChatReply = { customer: this.token, replies: [answer] };
    this.#answers.set(id, made);
    return made;
  }

  #news(path: string): ChatHistory {
    const after = Number(path.split("=")[1]);
    return { messages: this.#messages.filter(({ sequence }) => sequence > after), last: this.#sequence };
  }
}

type Step =
  | { readonly do: "say"; readonly text: string }
  | { readonly do: "tap"; readonly at: number }
  | { readonly do: "type"; readonly text: string }
  | { readonly do: "cancel"; readonly is: boolean }
  | { readonly do: "look" }
  | { readonly do: "speak" };

const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({ do: fc.constant("say" as const), text: fc.constantFrom("1", "bye", "status") }),
  fc.record({ do: fc.constant("tap" as const), at: fc.nat(3) }),
  fc.record({ do: fc.constant("type" as const), text: fc.string({ maxLength: 5 }) }),
  fc.record({ do: fc.constant("cancel" as const), is: fc.boolean() }),
  fc.constantFrom<Step>({ do: "look" }, { do: "speak" }),
);

describe("the customer's page", () => {
  it("loses nothing that was said, says it once and in order, and has every control the state allows", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(step, fc.boolean()), { maxLength: 25 }),
        fc.array(fc.constantFrom(...FATES), { maxLength: 60 }),
        async (steps, fates) => {
          const stall = new Stall();
          const coming = [...fates];
          stall.fate = () => coming.shift() ?? "answered";
          let state: State = firstState("tern", []);
          let kept: string | null = null;
          stall.brought = () => kept;
          let typed = "";
          const said: string[] = [];
          const gone: string[] = [];
          const talk = talking({
            api: stall.api,
            token: {
              get: () => kept,
              keep: (token) => {
                kept = token;
              },
              forget: () => {
                kept = null;
              },
            },
            state: () => state,
            change: (to) => {
              const before = state;
              state = to(before);
              for (const one of state.unsent) if (!before.unsent.includes(one)) said.push(one.text);
              if (state.trouble?.why === "refused" && state.unsent.length < before.unsent.length)
                gone.push(
                  ...before.unsent.filter((one) => !state.unsent.includes(one)).map(({ text }) => text),
                );
              // Only the customer changes the typed text.
              expect(state.typed).toBe(typed);
              expect(new Set(state.lines.map(({ id }) => id)).size).toBe(state.lines.length);
            },
          });
          const going: Promise<unknown>[] = [];
          for (const [one, waits] of steps) {
            if (one.do === "say") talk.say(one.text);
            else if (one.do === "look") going.push(talk.look());
            else if (one.do === "speak") stall.speak("Rain: we have paused.");
            else if (one.do === "cancel") state = cancelling(state, one.is);
            else if (one.do === "type") {
              typed = one.text;
              state = typing(state, typed);
            } else {
              const tile = tilesOf(state)?.tiles[one.at];
              if (tile !== undefined) talk.say(tile.say);
            }
            if (waits) await Promise.all(going.splice(0));
          }
          await Promise.all(going);
          // The signal is back for good.
          coming.length = 0;
          await talk.look();
          await talk.look();
          expect(state.unsent).toEqual([]);
          expect(state.isCutOff).toBe(false);
          expect(state.isNewsless).toBe(false);
          expect(stall.heard.length).toBe(said.length - gone.length);
          // In order: the stall has what was said, less what was refused.
          const left = [...said];
          for (const text of stall.heard) {
            const at = left.indexOf(text);
            expect(at).toBeGreaterThanOrEqual(0);
            left.splice(0, at + 1);
          }
          const last = state.lines.findLast(({ from, isAnswer }) => from === "stall" && isAnswer);
          const open = last?.text === LIST ? ["1", "2", "3"] : undefined;
          expect(tilesOf(state)?.tiles.map(({ say }) => say)).toEqual(open);
        },
      ),
      { numRuns: 400 },
    );
  });
});

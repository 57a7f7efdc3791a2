/** What the steps of a conversation hand to each other. */
import type { Language } from "../../model/basics/words.ts";
import type { Say } from "../fitting/fit.ts";
import type { Talk } from "../talk/talk.ts";
import { joined } from "../wording/compose.ts";

export type TurnInput = {
  readonly text: string;
  readonly channel: "text" | "web";
  /** What the browser prefers; counts until the customer's own words choose. */
  readonly language?: Language;
};

/** What came of one text. */
export type ConversationTurn = {
  readonly talk: Talk;
  /** Empty where silence is meant: opted out, or too many texts. */
  readonly replies: readonly string[];
  /** The customer wants no more texts, from this number, for the whole fair. */
  readonly optOut?: true;
  readonly optIn?: true;
  /** Set once when a sender goes over the texts of a minute, so that it can be logged. */
  readonly overLimit?: true;
};

/** What a step comes to: the conversation as it stands then, and what to say. */
export type TurnAnswer = {
  readonly talk: Talk;
  readonly say: Say;
  /** Whether something is said before the question already. */
  readonly led?: true;
};

/** The same answer with something said before it; where room is shortest, only one such thing. */
export const after = (lead: Say, { talk, say, led }: TurnAnswer): TurnAnswer => ({
  talk,
  say: (brevity) => (led && brevity === 5 ? say(brevity) : joined([lead(brevity), say(brevity)])),
  led: true,
});

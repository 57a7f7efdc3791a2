/** The values that the steps of a conversation pass to each other. */
import type { Language } from "../../model/basics/words.ts";
import type { Say } from "../fitting/fit.ts";
import type { Talk } from "../talk/talk.ts";
import { joined } from "../wording/compose.ts";

export type TurnInput = {
  readonly text: string;
  readonly channel: "text" | "web";
  /** The browser's language; used until the customer's own words choose one. */
  readonly language?: Language;
};

/** The result of one text. */
export type ConversationTurn = {
  readonly talk: Talk;
  /** Empty if silence is meant: opted out, or too many texts. */
  readonly replies: readonly string[];
  /** The customer wants no more texts, from this number, for the whole fair. */
  readonly optOut?: true;
  readonly optIn?: true;
  /** The customer wants to be forgotten: nothing of this turn is kept either. */
  readonly erase?: true;
  /** Set once when a sender goes over the texts of a minute, so that it can be logged. */
  readonly overLimit?: true;
};

/** The result of a step: the new conversation, and the reply. */
export type TurnAnswer = {
  readonly talk: Talk;
  readonly say: Say;
  /** Whether the reply already begins with something before the question. */
  readonly led?: true;
};

/** The same answer with a phrase before it; if room is short, only one such phrase. */
export const after = (lead: Say, { talk, say, led }: TurnAnswer): TurnAnswer => ({
  talk,
  say: (brevity) => (led && brevity === 5 ? say(brevity) : joined([lead(brevity), say(brevity)])),
  led: true,
});

import type { Language } from "../model/words.ts";
import type { Counter } from "./counter.ts";
import type { Talk } from "./talk.ts";

export type Said = { readonly text: string; readonly channel: "text" | "web"; readonly language?: Language };
export type Turn = {
  readonly talk: Talk;
  readonly replies: readonly string[];
  readonly optOut?: true;
  readonly optIn?: true;
};

export function converse(_counter: Counter, talk: Talk, said: Said): Turn {
  return { talk, replies: [`You said: ${said.text}`] };
}

/** Words that move a conversation about: yes, no, back, the menu. */

import { draftOf, fitting } from "../talk/draft.ts";
import type { Counter } from "../talk/ordering-port.ts";
import { rangesOf } from "../talk/range.ts";
import { EMPTY_DRAFT, IDLE, NO_LIST, type Talk } from "../talk/talk.ts";
import { joined } from "../wording/compose.ts";
import { sentencesOf } from "../wording/languages.ts";
import { hold, proceed } from "./choose.ts";
import { change, changePart, yes } from "./confirm.ts";
import { status } from "./inform.ts";
import { ask } from "./question.ts";
import { stopped } from "./refused.ts";
import { after, type TurnAnswer } from "./turn.ts";

export const menuTalk = (talk: Talk): Talk => ({
  ...talk,
  step: { at: "choosing", draft: EMPTY_DRAFT, page: 0 },
});

/** An answer, and the menu after it where there is room. */
export function menuAfter(counter: Counter, { talk, say }: TurnAnswer): TurnAnswer {
  const menu = ask(counter, menuTalk(talk));
  const idle = sentencesOf(talk.language).idle();
  return {
    talk: menu.talk,
    say: (brevity) => joined([say(brevity), (brevity < 4 ? menu.say : idle)(brevity)]),
  };
}

/** YES, wherever it is said. */
export function agreed(counter: Counter, talk: Talk): TurnAnswer {
  if (talk.step.at === "confirm" && talk.basket.length > 0) return yes(counter, talk, talk.step.shown);
  if (talk.step.at === "idle") return talk.basket.length > 0 ? hold(counter, talk) : status(counter, talk);
  return ask(counter, talk);
}

/** NO, wherever it is said. */
export function declined(counter: Counter, talk: Talk): TurnAnswer {
  switch (talk.step.at) {
    case "confirm":
      return change(counter, talk);
    case "instead":
    case "which":
    case "change":
      return talk.basket.length > 0 ? hold(counter, talk) : menu(counter, talk);
    case "drop":
      return talk.basket.length > 0
        ? hold(counter, talk)
        : status(counter, { ...talk, step: IDLE, list: NO_LIST });
    case "idle":
    case "choosing":
      return ask(counter, talk);
    default:
      return talk.step satisfies never;
  }
}

/** The menu from its first page. */
export function menu(counter: Counter, talk: Talk): TurnAnswer {
  const halted = stopped(counter, talk);
  if (halted !== null) return { talk, say: halted };
  return ask(counter, menuTalk({ ...talk, pending: [] }));
}

/** The next page of the list last sent. */
export function more(counter: Counter, talk: Talk): TurnAnswer {
  const { step } = talk;
  if (step.at !== "choosing" && step.at !== "change") return menu(counter, talk);
  return ask(counter, { ...talk, step: { ...step, page: step.page + 1 } });
}

/** One step back: the last thing that was chosen is asked for again. */
export function back(counter: Counter, talk: Talk): TurnAnswer {
  const { step } = talk;
  if (step.at === "confirm" || step.at === "change") {
    const last = talk.basket.at(-1);
    if (last !== undefined) return changePart(counter, talk, talk.basket.length - 1, "quantity");
  }
  if (step.at === "drop") return menu(counter, talk);
  const draft = draftOf(talk);
  const range = draft?.offer == null ? undefined : rangesOf(counter.menu).get(draft.offer);
  if (draft === null || range === undefined) {
    if (talk.basket.length > 0) return hold(counter, talk);
    return after(sentencesOf(talk.language).nothingBack(), menu(counter, talk));
  }
  if (step.at === "choosing" && draft.size !== null && range.sizes.length > 1)
    return proceed(counter, talk, { ...draft, size: null });
  if (step.at === "choosing" && draft.colour !== null && range.colours.length > 1)
    return proceed(counter, talk, {
      ...draft,
      size: fitting(counter.menu, { ...draft, size: null }).size,
      colour: null,
    });
  return menu(counter, talk);
}

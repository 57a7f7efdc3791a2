/** Words that move a conversation about: yes, no, back, the menu. */

import { draftOf, fitting } from "../talk/draft.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";
import { rangesOf } from "../talk/range.ts";
import { EMPTY_DRAFT, type Talk } from "../talk/talk.ts";
import { joined } from "../wording/compose.ts";
import { sentencesOf } from "../wording/languages.ts";
import { changedTalk } from "./apply-change.ts";
import { hold, proceed } from "./choose.ts";
import { change, changePart, yes } from "./confirm.ts";
import { resumed } from "./drop.ts";
import { status } from "./inform.ts";
import { ask } from "./question.ts";
import { stopped } from "./refused.ts";
import { after, type TurnAnswer } from "./turn.ts";

export const menuTalk = ({ changing: _, ...talk }: Talk): Talk => ({
  ...talk,
  step: { at: "choosing", draft: EMPTY_DRAFT, page: 0 },
});

/** An answer, followed by the menu if there is room. */
export function menuAfter(port: OrderingPort, { talk, say }: TurnAnswer): TurnAnswer {
  const menu = ask(port, menuTalk(talk));
  const idle = sentencesOf(port, talk).idle();
  return {
    talk: menu.talk,
    say: (brevity) => joined([say(brevity), (brevity < 4 ? menu.say : idle)(brevity)]),
  };
}

/** Handles YES at any step. */
export function agreed(port: OrderingPort, talk: Talk): TurnAnswer {
  if (talk.step.at === "confirm" && talk.basket.length > 0) return yes(port, talk, talk.step.shown);
  if (talk.step.at === "idle") return talk.basket.length > 0 ? hold(port, talk) : status(port, talk);
  return ask(port, talk);
}

/** Handles NO at any step. */
export function declined(port: OrderingPort, talk: Talk): TurnAnswer {
  switch (talk.step.at) {
    case "confirm":
      return change(port, talk);
    case "instead":
    case "which":
    case "change":
      return talk.basket.length > 0 ? hold(port, talk) : menu(port, talk);
    case "drop":
      return resumed(port, talk, false);
    case "changing":
      return status(port, changedTalk(talk));
    case "idle":
    case "choosing":
      return ask(port, talk);
    default:
      return talk.step satisfies never;
  }
}

/** The menu from its first page. */
export function menu(port: OrderingPort, talk: Talk): TurnAnswer {
  const halted = stopped(port, talk);
  if (halted !== null) return { talk, say: halted };
  return ask(port, menuTalk({ ...talk, pending: [] }));
}

/** The next page of the list last sent. */
export function more(port: OrderingPort, talk: Talk): TurnAnswer {
  const { step } = talk;
  if (step.at === "which") return ask(port, { ...talk, step: { ...step, page: (step.page ?? 0) + 1 } });
  if (step.at !== "choosing" && step.at !== "change") return menu(port, talk);
  return ask(port, { ...talk, step: { ...step, page: step.page + 1 } });
}

/** One step back: the last thing that was chosen is asked for again. */
export function back(port: OrderingPort, talk: Talk): TurnAnswer {
  const { step } = talk;
  if (step.at === "confirm" || step.at === "change") {
    const last = talk.basket.at(-1);
    if (last !== undefined) return changePart(port, talk, talk.basket.length - 1, "quantity");
  }
  if (step.at === "drop" || step.at === "changing") return menu(port, talk);
  const draft = draftOf(talk);
  const range = draft?.offer == null ? undefined : rangesOf(port.menu).get(draft.offer);
  if (draft === null || range === undefined) {
    if (talk.basket.length > 0) return hold(port, talk);
    return after(sentencesOf(port, talk).nothingBack(), menu(port, talk));
  }
  if (step.at === "choosing" && draft.size !== null && range.sizes.length > 1)
    return proceed(port, talk, { ...draft, size: null });
  if (step.at === "choosing" && draft.colour !== null && range.colours.length > 1)
    return proceed(port, talk, {
      ...draft,
      size: fitting(port.menu, { ...draft, size: null }).size,
      colour: null,
    });
  return menu(port, talk);
}

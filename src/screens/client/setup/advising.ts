/** What the names and the number of choices do in texts: advice beside the conversation, each leading to its cause. */
import { menuAdvice } from "../../../chat/advice.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import { byId, element } from "../kit/dom.ts";
import { reveal } from "./form/rows.ts";
import { tooMany } from "./many.ts";
import { faultWords } from "./saving/review.ts";

const MOST = 12;

export function showAdvice(menu: Menu, nameAt: (pointer: string) => string): void {
  const advice = [...tooMany(menu), ...menuAdvice(menu)].map(faultWords(nameAt));
  byId("advice").replaceChildren(
    ...(advice.length === 0
      ? [element("li", {}, "Every question fits one message, and the menu is short.")]
      : []),
    ...advice
      .slice(0, MOST)
      .map(({ pointer, says }) =>
        element(
          "li",
          {},
          element("button", { type: "button", class: "link", onclick: () => reveal(pointer) }, says),
        ),
      ),
    ...(advice.length > MOST ? [element("li", {}, `and ${advice.length - MOST} more of the kind`)] : []),
  );
}

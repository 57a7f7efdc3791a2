/**
 * The menu's effect on texts, computed once typing pauses: the conversation, and advice on its names and length. Pure.
 */
import { menuAdvice } from "../../../../chat/advice.ts";
import type { Fault } from "../../../../model/basics/faults.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { tooMany } from "../many.ts";
import { type Said, type Trial, tryOut } from "./try-out.ts";

export type Looked = {
  /** The menu it was worked out from. */
  readonly menu: Menu;
  readonly said: readonly Said[];
  readonly advice: readonly Fault[];
};

export const lookAt = (menu: Menu, trial: Trial): Looked => ({
  menu,
  said: tryOut(menu, trial),
  advice: [...tooMany(menu), ...menuAdvice(menu)],
});

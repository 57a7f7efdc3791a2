/** The close-out page: the day's account, with what is typed and open on the page. */
import type { Closeout } from "../../../model/accounts/closeout.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { Written } from "./costs.ts";

export type State = {
  readonly account: Closeout;
  readonly menu: Menu;
  /** The costs as typed since they were kept. */
  readonly written: Written;
  readonly costsFault: string;
  readonly passersBy: string;
  readonly sure: string;
  /** On a fair of several days: what the plan stands beside. */
  readonly compared: "day" | "whole";
  readonly asking: "close" | "reopen" | null;
  /** A garment of the rack that was not found, and is asked about once more. */
  readonly missing: string | null;
  readonly reason: string;
};

export const firstState = (account: Closeout, menu: Menu): State => ({
  account,
  menu,
  written: {},
  costsFault: "",
  passersBy: "",
  sure: "0.2",
  compared: "day",
  asking: null,
  missing: null,
  reason: "",
});

/** The crowd as typed: null removes it; undefined if it is not a number of people. */
export function crowdTyped({
  passersBy,
  sure,
}: State): { readonly passersBy: number; readonly uncertainty: number } | null | undefined {
  const text = passersBy.replaceAll(/[\s.,]/g, "");
  if (text === "") return null;
  const people = Number(text);
  return Number.isInteger(people) && people > 0
    ? { passersBy: people, uncertainty: Number(sure) }
    : undefined;
}

export type Actions = {
  readonly change: (to: (before: State) => State) => void;
  readonly look: (day: string) => void;
  readonly keepCosts: () => void;
  readonly keepCrowd: () => void;
  readonly close: () => void;
  readonly reopen: () => void;
  /** Takes a garment off the rack that is not there. */
  readonly takeOff: (key: string) => void;
  readonly saveSheet: () => void;
  readonly saveLessons: () => void;
  /** The address of the page that counts the stock. */
  readonly stockPage: string;
};

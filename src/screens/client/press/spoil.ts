/** What was ruined on a spoiled garment, and why; or that it is good but in the wrong size. Pure. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { JobView } from "../../../model/orders/queue.ts";
import type { Lost, SpoilReason } from "../../../model/orders/taps.ts";

/** The report to the stall. */
export type SpoilNote = {
  readonly lost: Lost;
  readonly reason: SpoilReason;
  /** It hangs on the rack: as good in its own size, else as a second. */
  readonly rack?: { readonly size?: string };
};

/** Which garment it is, as far as the question needs it. */
export type Made = { readonly blank: string; readonly size: string; readonly own: boolean };

export const madeOf = ({ blank, size, ownGarment }: JobView): Made => ({
  blank,
  size,
  own: ownGarment === true,
});

type Ruined = Lost | "wrong-size";

/** The question about one garment, as far as it was answered. */
export type SpoilQuestion = {
  readonly press: string;
  readonly job: string;
  /** Null if this page was not there when it was pressed. */
  readonly made: Made | null;
  readonly ruined: Ruined;
  readonly reason: SpoilReason | null;
  /** The size that it is in truth. */
  readonly size: string | null;
  readonly asSecond: boolean;
  readonly missing: boolean;
};

/** A transfer that peels badly takes its blank with it, so both are the answer to begin with. */
export const askSpoiled = (press: string, job: string, made: Made | null): SpoilQuestion => ({
  press,
  job,
  made,
  ruined: "both",
  reason: null,
  size: null,
  asSecond: false,
  missing: false,
});

/** The sizes that it may be in truth: those of its blank but for the one that was ordered. */
export function otherSizes(menu: Menu | null, made: Made | null): readonly (readonly [string, string])[] {
  if (made === null || made.own) return [];
  const sizes = menu?.blanks.find(({ id }) => id === made.blank)?.sizes ?? [];
  return sizes.filter(({ id }) => id !== made.size).map(({ id, name }) => [id, name] as const);
}

/** The parts that can be ruined. The customer's own garment is not stock, and never for sale. */
export function ruinedChoices(menu: Menu | null, made: Made | null): readonly (readonly [Ruined, string])[] {
  const blank = made?.own === true ? "their garment" : "the blank";
  return [
    ["both", made?.own === true ? "Their garment and the transfer" : "Blank and transfer"],
    ["transfer", "Only the transfer"],
    ["blank", `Only ${blank}`],
    ...(otherSizes(menu, made).length === 0
      ? []
      : [["wrong-size", "Nothing: it is the wrong size"] as const]),
  ];
}

export const WHY: readonly (readonly [SpoilReason, string])[] = [
  ["peeled-badly", "Peeled badly"],
  ["crooked", "Crooked"],
  ["scorched", "Scorched"],
  ["other", "Something else"],
];

/** Whether it may be sold as a second: the stall's own garment with the transfer on it. */
export const canBeSecond = ({ ruined, made }: SpoilQuestion): boolean =>
  ruined === "both" && made?.own !== true;

/** The report to the stall; null while an answer is missing. */
export function noteOf(asked: SpoilQuestion): SpoilNote | null {
  const { ruined, reason, size, asSecond } = asked;
  if (ruined === "wrong-size")
    return size === null ? null : { lost: "both", reason: "wrong-size", rack: { size } };
  if (reason === null) return null;
  return { lost: ruined, reason, ...(asSecond && canBeSecond(asked) ? { rack: {} } : {}) };
}

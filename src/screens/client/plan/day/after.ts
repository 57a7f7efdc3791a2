/** The next fair's day from the last one: the same menu and costs, leftovers as owned stock, and the lessons. */
import type { Closeout } from "../../../../model/accounts/closeout.ts";
import type { DayCosts } from "../../../../model/accounts/day-costs.ts";
import type { Lessons } from "../../../../model/accounts/lessons.ts";
import { MINOR_DIGITS } from "../../../../model/basics/minor-digits.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { apiAt } from "../../kit/api.ts";
import { type Json, rowsAt, valueAt, withValue } from "../../kit/json-pointer.ts";
import { local } from "../../kit/texts-kept.ts";
import { wordAt } from "../groups/names.ts";
import { acceptedDay } from "./accepted.ts";
import { type Day, FIRST } from "./first.ts";
import { withLessons } from "./keeping.ts";
import { garmentsLeft, isSold, STAY_HOME, withoutStayingHome } from "./leftovers.ts";
import { onSheets, withDesigns } from "./parts.ts";

export type Closed = {
  readonly account: Closeout;
  readonly lessons: readonly Lessons[];
  readonly menu: Menu;
};

/** Asks the stall for its leftovers and lessons; null if its key is not kept here or it does not answer. */
export async function closedFair(place: string): Promise<Closed | null> {
  const key = local.getItem(`key crew ${place}`);
  if (key === null) return null;
  const [fair = "", stall = ""] = place.split("/");
  const api = apiAt(`/v1/fairs/${fair}/stalls/${stall}`, () => key);
  const [account, lessons, menu] = await Promise.all([api("/closeout"), api("/lessons"), api("/menu/whole")]);
  if ([account, lessons, menu].some(({ status }) => status !== 200) || menu.body === null) return null;
  return {
    account: account.body as Closeout, // each as its route documents
    lessons: lessons.body as readonly Lessons[],
    menu: menu.body as Menu,
  };
}

/** The day to plan next, after this fair. */
export const nextDay = (place: string, closed: Closed): Day =>
  dayAfter(acceptedDay(place) ?? { ...FIRST, plan: planOfMenu(closed) }, closed);

/** The day that a fair was planned as, with what that fair left and taught. */
export function dayAfter(before: Day, { account, lessons }: Omit<Closed, "menu">): Day {
  const leftOf = new Map<string, number>(account.skus.map((row) => [row.sku, row.left]));
  const skus = rowsAt(before.plan, "#/skus").map((row) => {
    const sku = wordAt(row, "#/sku");
    const now = leftOf.get(sku);
    leftOf.delete(sku);
    // A row keeps its own cost and pack; of a sku that the stall never had, also what is owned.
    return now === undefined ? row : withValue(row, "#/owned", now > 0 ? now : undefined);
  });
  const owned = [...leftOf].flatMap(([sku, pieces]) =>
    pieces > 0 && isSold(before.plan, sku) ? [{ sku, owned: pieces }] : [],
  );
  const designs = rowsAt(before.plan, "#/designs").map((row) => {
    const pieces = account.transfers.find(({ design }) => design === wordAt(row, "#/id"))?.left ?? 0;
    return withValue(row, "#/owned", pieces > 0 ? pieces : undefined);
  });
  const ready = garmentsLeft(account, before.plan);
  const past = rowsAt(before.plan, "#/designs").flatMap((row): Json[] => {
    const dated = valueAt(row, "#/day");
    return typeof dated === "string" && dated <= account.day ? [wordAt(row, "#/id")] : [];
  });
  const changes: readonly (readonly [string, Json | undefined])[] = [
    ["#/name", `After ${account.fair}`],
    ["#/day", undefined],
    ["#/skus", [...skus, ...owned]],
    ["#/designs", designs],
    ["#/ready", ready.length > 0 ? ready : undefined],
  ];
  const left = changes.reduce((all, [pointer, value]) => withValue(all, pointer, value), before.plan);
  // What the fairs before this one taught is in the plan, not with this stall.
  const plan = withLessons(left, lessons as unknown as readonly Json[]); // lessons are JSON
  return withDesigns({ ...before, plan, organiser: withValue(before.organiser, STAY_HOME, past) });
}

/** A plan request with the stall's menu, at even shares, and the costs of its day. */
function planOfMenu({ menu, account }: Closed): Json {
  const unit = 10 ** MINOR_DIGITS[account.currency];
  const costs: DayCosts | null = account.costs ?? account.earlierCosts;
  const whole = (minor: number | undefined, otherwise: number): number =>
    minor === undefined ? otherwise : minor / unit;
  const first = FIRST.plan;
  const changes: readonly (readonly [string, Json])[] = [
    ["#/currency", account.currency],
    [
      "#/blanks",
      menu.blanks.map(({ id, name, platen, colours, sizes }) => ({
        id,
        name,
        platen,
        cost: whole(costs?.blanks.find((row) => row.blank === id && row.size === undefined)?.cost, 4),
        colours: colours.map((colour) => ({ id: colour.id, share: 1 })),
        sizes: sizes.map((size) => ({ id: size.id, share: 1 })),
      })),
    ],
    [
      "#/designs",
      menu.designs.map(({ id, name }) => ({
        id,
        name,
        cost: whole(costs?.transfers.find(({ design }) => design === id)?.cost, 2),
      })),
    ],
    [
      "#/offers",
      menu.offers.map(({ id, name, blank, design, price }) => ({
        id,
        name,
        blank,
        design,
        price: price / unit,
        share: 1,
      })),
    ],
    [
      "#/presses",
      [...new Set(menu.presses.map(({ platen }) => platen))].map((platen) => ({
        platen,
        count: menu.presses.filter((press) => press.platen === platen).length,
        garmentsPerHour: 40,
      })),
    ],
    ...(costs === null || costs.fees.length === 0
      ? []
      : [
          [
            "#/costs/fixed",
            costs.fees.map(({ name, amount }) => ({
              name,
              cost: amount / unit,
              kind: /pitch/i.test(name) ? "pitch" : "other",
            })),
          ] as const,
        ]),
  ];
  return changes.reduce((all, [pointer, value]) => withValue(all, pointer, value), first);
}

/** The parts of lessons that can be left out, and what each says. */
export const TAUGHT = [
  ["buying", "How many buy"],
  ["offers", "What they choose"],
  ["colours", "Colours"],
  ["sizes", "Sizes"],
  ["spoilage", "Spoilage"],
] as const;

/** The plan request of a day without the lessons that are left out and the leftovers that stay at home. */
export function planFor(day: Day): Json {
  const { organiser } = day;
  const plan = onSheets(withoutStayingHome(day), day);
  const leftOut = rowsAt(organiser, "#/leftOut");
  const lessons = rowsAt(plan, "#/lessons");
  if (leftOut.length === 0 || lessons.length === 0) return plan;
  return withValue(
    plan,
    "#/lessons",
    lessons.map((lesson) =>
      leftOut.reduce((left: Json, part) => withValue(left, `#/${String(part)}`, undefined), lesson),
    ),
  );
}

export const isLeftOut = ({ organiser }: Day, part: string): boolean =>
  rowsAt(organiser, "#/leftOut").includes(part);

/** The parts left out once this one is ticked or unticked. */
export const leavingOut = ({ organiser }: Day, part: string, out: boolean): Json =>
  out
    ? [...rowsAt(organiser, "#/leftOut"), part]
    : rowsAt(organiser, "#/leftOut").filter((one) => one !== part);

export const hasLessons = ({ plan }: Day): boolean => valueAt(plan, "#/lessons/0") !== undefined;

/** Names, numbers and what was said go some days after the fair; the facts and the counts stay. */

import type { Instant } from "../../time/instants.ts";
import type { Write } from "../state/table.ts";
import type { Store } from "../storage/records.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";

const DAY = 24 * 60 * 60 * 1000;
const AT_ONCE = 300;

/** Records that hold a name, a number or somebody's words; recorded answers repeat some of them. */
const PERSONAL = ["person:", "talk:", "at-order:", "known:", "out:", "seen:"] as const;

/** When the people of this stall are due to be forgotten; null where there is nothing of them. */
export function eraseAt({ state, people }: UnitOfWork): Instant | null {
  const { identity, menu } = state;
  if (identity === null || menu === null) return null;
  const erased = people.erased.get("");
  if (erased !== undefined) return erased.again;
  const closes = Math.max(...identity.openings.map((opening) => opening.closes));
  return closes + menu.rules.eraseAfterDays * DAY;
}

/** After an erasing somebody wrote again: that goes a day later. */
export function keptAgain({ people }: UnitOfWork, now: Instant): void {
  const erased = people.erased.get("");
  if (erased !== undefined && erased.again === null) people.erased.set("", { ...erased, again: now + DAY });
}

/** The fair goes on after its people were forgotten: whoever writes now is kept as at any fair, not for a day. */
export function keptByNewHours({ people, state }: UnitOfWork, now: Instant): void {
  const { identity } = state;
  if (identity?.openings.some(({ closes }) => closes > now) === true) people.erased.delete("");
}

/** A page of what must go now, to be written with everything else; the next alarm takes the next page. */
export function erase(unit: UnitOfWork, store: Store, now: Instant): readonly Write[] {
  const due = eraseAt(unit);
  if (due === null || due > now) return [];
  const keys = PERSONAL.flatMap((prefix) =>
    [...store.list({ prefix, limit: AT_ONCE })].map(([key]) => key),
  ).slice(0, AT_ONCE);
  if (keys.length < AT_ONCE) unit.people.erased.set("", { at: now, again: null });
  for (const row of [...unit.people.out.values()]) unit.people.out.delete(row.id);
  return keys.map((key): Write => [key, undefined]);
}

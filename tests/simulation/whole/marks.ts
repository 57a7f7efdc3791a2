/** Counts the refusals that were reached: a rule that no simulated fair meets is untested. */
import type { Answer, Refusal, WriteRefusal } from "../../../src/model/orders/refusal.ts";
import { UnitOfWork } from "../../../src/stall/storage/unit-of-work.ts";

type Code = (Refusal | WriteRefusal)["code"];

/** Every code there is: the compiler asks for new ones. */
const ALL: Readonly<Record<Code, true>> = {
  "no-such-stall": true,
  "no-menu": true,
  "no-such-offer": true,
  "no-such-choice": true,
  "sold-out": true,
  "too-many": true,
  "web-share": true,
  "web-off": true,
  "not-open": true,
  "line-too-long": true,
  paused: true,
  "nothing-held": true,
  "no-such-order": true,
  "no-such-job": true,
  "no-such-press": true,
  "press-down": true,
  "wrong-stage": true,
  reserved: true,
  "on-press": true,
  "above-price": true,
  "not-paid": true,
  "cannot-text": true,
  "wrong-word": true,
  "number-taken": true,
  stock: true,
  menu: true,
  "menu-changed": true,
  "no-such-design": true,
  "no-picture-room": true,
  "old-key": true,
  "key-reused": true,
  moved: true,
  "fair-stopped": true,
  "unreadable-file": true,
};

const reached = new Set<string>();

/** Notes a refusal. */
export function mark(answer: Answer<unknown>): void {
  if (!answer.ok) reached.add(answer.refusal.code);
}

/**
 * Only giving a hold back ends in the first, and no conversation asks for that: a hold is replaced or expires. No
 * simulated crew sends pictures (tests/stall/pictures.test.ts), broken files (tests/stall/whole.test.ts) or sends people
 * on (tests/http/moving/moved.test.ts), and
 * no simulated organiser stops orders (tests/stall/fair-stop.test.ts).
 */
const NOBODY_ASKS: ReadonlySet<string> = new Set([
  "nothing-held",
  "no-such-design",
  "no-picture-room",
  "moved",
  "fair-stopped",
  "unreadable-file",
]);

/** The refusals that no fair has met yet. */
export const unreached = (): readonly string[] =>
  Object.keys(ALL).filter((code) => !reached.has(code) && !NOBODY_ASKS.has(code));

// A conversation words its refusals itself, so they are counted where the command is carried out.
const { carryOut } = UnitOfWork.prototype;
UnitOfWork.prototype.carryOut = function (command, now) {
  const outcome = carryOut.call(this, command, now);
  if (outcome.refusal !== null) reached.add(outcome.refusal.code);
  return outcome;
};

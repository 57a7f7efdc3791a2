/** The one place where a reason gets its status and its words. */

import type { ClientErrorStatusCode } from "hono/utils/http-status";
import type { Fault } from "../../model/basics/faults.ts";
import type { Left } from "../../model/basics/problem.ts";
import type { FileFault, Refusal, WriteRefusal } from "../../model/orders/refusal.ts";

type Extras = {
  readonly errors?: readonly Fault[];
  readonly left?: readonly Left[];
  readonly stage?: string;
  readonly movedTo?: string;
};
/** A problem's status, title and detail, with further members if it has any. */
export type ProblemWords = readonly [
  status: ClientErrorStatusCode,
  title: string,
  detail: string,
  extras?: Extras,
];

const when = (at: number): string => new Date(at).toISOString();

/** The words of a refusal. A file that cannot be read has its own, by `fileWords`. */
export function refusalWords(
  refusal: Exclude<Refusal | WriteRefusal, { readonly code: "unreadable-file" }>,
): ProblemWords {
  switch (refusal.code) {
    case "no-such-stall":
      return [404, "No such stall", "There is no stall under this address. Check the link."];
    case "no-menu":
      return [
        409,
        "No menu yet",
        "This stall isn’t set up yet. Come back in a little while; the crew sets the menu with PUT …/menu.",
      ];
    case "no-such-offer":
      return [
        422,
        "Not on the menu",
        `There is no offer "${refusal.offer}". GET …/menu lists what there is.`,
        { errors: [{ pointer: `#/lines/${refusal.line}/offer`, detail: "is not on the menu" }] },
      ];
    case "no-such-choice":
      return [
        422,
        "Not a choice",
        refusal.what === "wish"
          ? `The counter takes no wish "${refusal.given}".`
          : `"${refusal.offer}" does not come in ${refusal.what} "${refusal.given}".`,
        {
          errors: [
            {
              pointer: `#/lines/${refusal.line}/${refusal.what}`,
              detail: `this offer has no such ${refusal.what}`,
            },
          ],
        },
      ];
    case "sold-out":
      return [
        409,
        "Sold out",
        `"${refusal.offer}" in ${refusal.colour}, ${refusal.size} is sold out, or too few are left. Pick another; "left" lists what there is.`,
        { left: refusal.left },
      ];
    case "too-many":
      return [
        422,
        "Too many",
        refusal.of === "line"
          ? `At most ${refusal.most} garments on a line. Ask at the counter for more.`
          : refusal.of === "order"
            ? `At most ${refusal.most} garments in an order. Ask at the counter for more.`
            : `You already have ${refusal.most} orders under way. Order again when one of them is collected.`,
      ];
    case "web-share":
      return [
        409,
        "Order at the counter",
        "Web orders hold as much stock as they may. Order at the counter.",
      ];
    case "web-off":
      return [
        409,
        "No web orders now",
        "The stall takes no web orders right now. Order at the counter or by text.",
      ];
    case "not-open":
      return [
        409,
        "Closed",
        refusal.opens === null
          ? "The stall is closed."
          : `The stall is closed. It opens at ${when(refusal.opens)}.`,
      ];
    case "line-too-long":
      return [
        409,
        "Not before closing",
        `The wait is about ${refusal.minutes} minutes and the stall closes at ${when(refusal.closes)}. Ask at the counter.`,
      ];
    case "paused":
      return [409, "Paused", `The stall has paused (${refusal.reason}). Try again in a little while.`];
    case "fair-stopped":
      return [
        409,
        "The organiser has stopped orders",
        `All orders of the fair are stopped for now (${refusal.reason}). Try again when the organiser starts them again.`,
      ];
    case "nothing-held":
      return [409, "Nothing set aside", "Nothing is set aside for this customer."];
    case "no-such-order":
      return [404, "No such order", `There is no order ${refusal.number} here. Check the number.`];
    case "no-such-job":
      return [404, "No such garment", `There is no open garment ${refusal.job}. Look at the queue again.`];
    case "no-such-press":
      return [404, "No such press", `The menu has no press "${refusal.press}".`];
    case "press-down":
      return [
        409,
        "Press is down",
        `Press ${refusal.press} is out of order. Mark it as working before you pull for it.`,
      ];
    case "wrong-stage":
      return [
        409,
        "Not at this stage",
        `${refusal.what} is ${refusal.stage}; this needs it to be ${refusal.needs}.`,
        { stage: refusal.stage },
      ];
    case "reserved":
      return [
        409,
        "Reserved for a press",
        `Press ${refusal.press} may have ${refusal.job} already. It is asked to give the garment back; order ${refusal.number} is ${refusal.as} as soon as it does.`,
        { stage: "reserved" },
      ];
    case "on-press":
      return [
        409,
        "On a press",
        `Press ${refusal.press} has ${refusal.job}, or may have it. Nothing was changed: it is being made as it was ordered. Ask at the press, then try again.`,
        { stage: "pressing" },
      ];
    case "above-price":
      return [
        422,
        "More than the price",
        `The discount is more than order ${refusal.number} costs. Take off the whole price to make it free.`,
      ];
    case "not-paid":
      return [409, "Not paid", `Order ${refusal.number} is not paid. Take the payment first.`];
    case "cannot-text":
      return [
        409,
        "Cannot be texted",
        refusal.why === "day-limit"
          ? `The number of order ${refusal.number} has had all the texts it may get today. Call the order out.`
          : refusal.why === "opted-out"
            ? `The customer of order ${refusal.number} has opted out of texts. Call the order out.`
            : `No number has texted for order ${refusal.number}. Call the order out, or show the customer the line to text.`,
      ];
    case "wrong-word":
      return [
        409,
        "Wrong pickup word",
        "That is not the pickup word of this order. Ask again before handing over.",
      ];
    case "number-taken":
      return [409, "Number taken", `Paper number ${refusal.number} was used already. Check the slip.`];
    case "stock":
      return [
        422,
        "Stock sheet has faults",
        'Nothing was changed. "errors" lists each fault: fix them and send it again.',
        { errors: refusal.faults },
      ];
    case "menu":
      return [
        422,
        "Menu has faults",
        'Nothing was changed. "errors" lists each fault: fix them and send it again.',
        { errors: refusal.faults },
      ];
    case "menu-changed":
      return [
        412,
        "The menu was changed meanwhile",
        "Somebody else saved this menu since you began. Read it again, and send your changes on top of it.",
      ];
    case "no-such-design":
      return [
        404,
        "No such design",
        `The menu has no design "${refusal.design}". Save the menu with it first, then send its picture.`,
      ];
    case "no-picture-room":
      return [
        409,
        "No room for more pictures",
        `A stall keeps ${refusal.most} pictures of ${refusal.mostBytes / 1_000_000} MB together at most. Remove one, or send a smaller one.`,
      ];
    case "old-key":
      return [
        403,
        "Key no longer works",
        "This key was replaced by a newer one. Ask the organiser for the new link.",
      ];
    case "moved":
      return [
        410,
        "The stall has moved",
        `This stall is now at ${refusal.to}. Use it there.`,
        { movedTo: refusal.to },
      ];
    case "key-reused":
      return [
        422,
        "Idempotency-Key used before",
        "The same Idempotency-Key came with a different request. Make a new key for each new request.",
      ];
    default:
      return refusal satisfies never;
  }
}

/** Why a saved stall cannot be read, as the end of a sentence. */
export function fileWords(fault: FileFault): string {
  switch (fault.code) {
    case "not-opened":
      return "the journal does not begin with the stall being opened";
    case "stock-below-nothing":
      return `${fault.piece} would come to ${fault.pieces} pieces`;
    case "entry-missing":
      return `entry ${fault.sequence} of the journal is missing or out of place`;
    case "event-does-not-fit":
      return `the journal does not fit together: ${fault.error}`;
    default:
      return fault satisfies never;
  }
}

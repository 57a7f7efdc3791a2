/**
 * The meaning of each type of problem and what to do about it: the page that a problem's `type` leads to (RFC 9457,
 * section 3.1.1).
 */
import type { Spelling } from "../../../model/basics/region.ts";
import { AnswersPage, TO_HELP } from "../../parts/answers-page.tsx";

export const PROBLEMS = {
  "bad-signature": [
    "The text gateway's signature does not match the body.",
    "Compare the secret at the gateway with GATEWAY_SECRET or the fair's mapping. Sign the body's bytes as they are sent.",
  ],
  "broken-picture": [
    "The picture cannot be read: it is broken, or its size is missing.",
    "Open it in a picture program, save it again as PNG, JPEG or WebP, and send that.",
  ],
  "fair-stopped": [
    "The organiser has stopped all orders of the fair for now. The crew cannot change that.",
    "Wait until the organiser says go on. What is on a press can be finished.",
  ],
  fault: [
    "Something went wrong in the program. It is not your fault.",
    "Send the same request again with the same Idempotency-Key: nothing happens twice.",
  ],
  "fair-changed": [
    "Somebody else changed the fair's name or hours after you read them.",
    "Read the fair again and make your change on top of it.",
  ],
  "fair-exists": ["There is a fair with this short name.", "Choose another short name."],
  gateway: [
    "The gateway mapping has faults. Nothing was changed.",
    "Each fault names its place in “errors”. Mend them and save the mapping again.",
  ],
  "idempotency-key-needed": [
    "A write came without the Idempotency-Key header, so a repeat could not be told from a new request.",
    "Send a new random key with each new request, and the same key when you repeat one.",
  ],
  "invalid-request": [
    "The request does not fit its schema.",
    "“errors” names each place and rule. /v1/openapi.json has every schema.",
  ],
  "key-needed": [
    "This address needs a key.",
    "Open the page from the link that holds your key, or send the key as Authorization: Bearer.",
  ],
  "key-reused": [
    "The same Idempotency-Key came with a different request.",
    "Make a new key for each new request.",
  ],
  "last-closing-past": [
    "The new hours would put the last closing into the past, after which names and numbers are erased.",
    "Check the year and the day. If the fair is over, send “over”: true.",
  ],
  "length-needed": ["The body came without its length.", "Send a Content-Length header."],
  "line-too-long": [
    "The wait is longer than the time until closing.",
    "Ask at the counter. The crew can take orders until a later time.",
  ],
  "above-price": [
    "The discount is more than what it is taken off. Nothing was changed.",
    "Take off less, or 100 % to make it free.",
  ],
  "cannot-text": [
    "No text goes to this order’s customer: no number has texted for it, it wants none, or it has had its day’s texts.",
    "Call the order out. A customer who texts the order’s line gets texts from then on.",
  ],
  malformed: ["The body is not well-formed JSON.", "Check the body and send it again."],
  menu: ["The menu has faults. Nothing was changed.", "“errors” names each fault and its place."],
  "menu-changed": [
    "Somebody else saved the menu after you read it.",
    "Read the menu again and send your changes on top of it.",
  ],
  moved: [
    "The stall has moved to another address. Nothing is taken here any more.",
    "“movedTo” is the customers’ page at the new address. The crew can undo the move at the old one.",
  ],
  "no-more-tries": [
    "The organiser may send itself five texts a day to try the gateway.",
    "Text the stall’s number from your phone instead: the reply shows that both ways work.",
  ],
  "not-texted": [
    "The number said STOP, or the gateway mapping sends nothing to its country.",
    "Text START from that phone, or add the country’s code to the mapping.",
  ],
  "text-first": [
    "The organiser’s try of the gateway goes only to a number that has texted the fair within a day.",
    "Text MENU from that phone to the fair’s number, then try again.",
  ],
  "newer-records": [
    "The store was written by a newer version of this program.",
    "Run the newer version again. Nothing was changed.",
  ],
  "no-menu": ["The stall has no menu yet.", "The crew sets it on the set-up page or with PUT …/menu."],
  "no-picture-room": ["The stall keeps no more pictures.", "Take a picture away, or send a smaller one."],
  "no-such-choice": ["The offer does not come in this colour or size.", "GET …/menu lists what there is."],
  "no-such-design": ["The menu has no design of this name.", "Save the menu with the design first."],
  "no-such-fair": ["There is no fair under this address.", "Check the link."],
  "no-such-job": ["No garment of this name is being worked on.", "Look at the queue again."],
  "no-such-offer": ["The offer is not on the menu.", "GET …/menu lists what there is."],
  "no-such-order": ["There is no order of this number at the stall.", "Check the number."],
  "no-such-picture": [
    "There is no picture under this address.",
    "Read the menu again for the present address.",
  ],
  "no-such-press": ["The menu has no press of this name.", "Check the press on the set-up page."],
  "no-such-stall": ["There is no stall under this address.", "Check the link."],
  "not-a-rehearsal": ["Only a rehearsal can be wiped.", "Use the address that ends in “.rehearsal”."],
  "not-found": ["Nothing is at this address.", "Check the link. /v1/openapi.json lists every address."],
  "not-open": ["The stall is closed.", "Come back when it opens. The detail says when, if it is known."],
  "on-press": [
    "A press has a garment of the order, or may have it. Nothing was changed.",
    "Ask at the press. If the garment goes back to the line, change the order then; else hand it over as it is, and exchange it.",
  ],
  "not-paid": [
    "The order is not paid, and this stall takes payment first.",
    "Take the payment, then try again.",
  ],
  "not-set-up": [
    "A secret of this deployment is missing or shorter than 32 characters.",
    "GET /v1/health names the secret. npm run golive sets what is missing.",
  ],
  "nothing-held": ["No stock is set aside for this customer.", "Choose again and confirm in time."],
  "number-taken": ["An order has this paper number.", "Check the slip; each number is used once."],
  "old-key": [
    "This key was replaced by a newer one.",
    "Ask the organiser for the new link. Taps that were saved are sent with it.",
  ],
  "partly-signed": [
    "The mapping's signature covers a part of what is used.",
    "Sign the whole body, or read only what is signed.",
  ],
  paused: ["The stall takes no new orders at the moment.", "Try again in a little while."],
  "plan-faults": ["The plan's request has faults.", "“errors” names each place and rule."],
  "press-down": ["The press is marked as out of order.", "Mark it as working to take a garment at it."],
  rehearsal: ["A rehearsal cannot do this.", "Use the stall's own address."],
  reserved: [
    "A press may have this garment already.",
    "It is asked to give the garment back. Your change follows by itself when it has.",
  ],
  "sold-out": ["Not enough is left of this choice.", "“left” lists what can still be had."],
  stock: ["The stock sheet has faults. Nothing was changed.", "“errors” names each line."],
  "store-full": ["The disk is full. Nothing was changed.", "Make room, then send the same request again."],
  "too-large": ["The body is larger than this address takes.", "Send less at once."],
  "too-many": ["More garments or orders than the stall's rules allow.", "Ask at the counter."],
  "too-many-pixels": ["The picture is larger than 640 pixels a side.", "Make it smaller and send it again."],
  "too-many-quarters": ["The span asked for is too long.", "Ask for a shorter span."],
  "too-often": ["Too many requests from this key or address.", "Wait as long as Retry-After says."],
  "too-slow": ["The body took too long to arrive.", "Send it again on a better connection."],
  "unsigned-texts": [
    "The mapping would take texts without a signature.",
    "Say how the gateway signs its web hooks.",
  ],
  "unsupported-type": ["The body's media type is not taken here.", "The detail names the types that are."],
  "web-off": ["The stall takes no orders on the web just now.", "Order at the counter or by text."],
  "web-share": ["What may be set aside for unpaid web orders is used up.", "Order at the counter."],
  "press-only": [
    "The key is good, and only for a press: it pulls, presses, notes what is spoiled, and counts.",
    "Open the crew's link for anything else: refunds, prices, closing.",
  ],
  "wrong-key": [
    "The key does not open this address.",
    "Check that the link is whole and for this fair and stall.",
  ],
  "wrong-stage": [
    "The order or garment is at another stage.",
    "Look at it again; somebody may have been faster.",
  ],
  "wrong-word": ["This is not the order's pickup word.", "Ask the customer again before you hand over."],
} as const satisfies Readonly<Record<string, readonly [means: string, todo: string]>>;

/** The last part of a problem's `type`. */
export type ProblemName = keyof typeof PROBLEMS;

export const isProblemName = (name: string): name is ProblemName => Object.hasOwn(PROBLEMS, name);

type Props = { readonly name: ProblemName; readonly spelling: Spelling };

export function ProblemPage({ name, spelling }: Props) {
  const [means, todo] = PROBLEMS[name];
  return (
    <AnswersPage
      title={`Problem: ${name}`}
      back={TO_HELP}
      questions={[
        { question: "What happened", answers: [means] },
        { question: "What to do", answers: [todo] },
      ]}
      spelling={spelling}
    />
  );
}

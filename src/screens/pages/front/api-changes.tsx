/** The changes of the API, newest first, for authors of programs that use it. */
import type { Spelling } from "../../../model/basics/region.ts";
import { AnswersPage, TO_HELP } from "../../parts/answers-page.tsx";

type ApiVersion = {
  readonly version: string;
  readonly day: string;
  /** One sentence each. A path begins below the stall's own, or at /v1. */
  readonly changes: readonly string[];
};

/** The middle figure of a version counts additions, the last one corrections. What worked goes on working. */
export const API_CHANGES: readonly [ApiVersion, ...ApiVersion[]] = [
  {
    version: "0.2.0",
    day: "2026-11-27",
    changes: [
      "Every undo has a route of its own, such as /orders/{number}/undo-paid. Sending “undo”: true to the act's route still works.",
      "/jobs/{job}/undo-spoiled takes the place of /jobs/{job}/not-spoiled, which still answers.",
      "/orders/{number}/kept-unpaid takes the place of /orders/{number}/kept, which still answers.",
      "An order is changed with /orders/{number}/changed, discounted with /orders/{number}/discounted, and claimed with /orders/{number}/claimed.",
      "Single garments are refunded and exchanged: /orders/{number}/garments/refunded, /orders/{number}/garments/exchanged. Both have an undo.",
      "/rack lists what is pressed and not taken; /drawer and the routes below it keep the cash.",
      "A payment may come in parts, with a tip: “parts” and “tip” of /orders/{number}/paid.",
      "A line of an order may carry wishes; the menu defines them, bundles and surcharges by size.",
      "/orders/{number}/texted sends a customer one of three fixed sentences.",
      "/plan keeps the accepted plan with the stall, and /day-so-far says how the day is going against it.",
      "/v1/fairs/{fair}/seen lists the stalls that want to be seen by visitors; a picture there is named by the first 12 digits of its hash, which its address takes. /chat/erased erases a customer's number and conversation at once.",
      "A press key opens what a press needs and nothing else; other routes answer 403 with the problem press-only.",
      "A whole stall of any size is read page by page from /everything and loaded in parts with /everything/{upload}/{part}.",
      "The organiser speaks to the stalls: /v1/fairs/{fair}/announcements, /v1/fairs/{fair}/order-stop, /v1/fairs/{fair}/contacts.",
      "/v1/fairs/{fair}/gateway/tries sends the organiser's own number one text, to try the gateway, if that number has texted the fair within a day.",
      "/v1/plans takes fairs of several days (“days”, “restockOvernight”), price breaks of blanks (“priceBreaks”), and the price of sheets into what transfers cost.",
      "/v1/plans takes the pitch's share of the takings (“pitchShare”), wear of presses, refunds, exchanges and your own time; neighbouring sizes (“anotherSize”), youth sizes, and designs of one day (“onlyOnDays”).",
      "/v1/plans says whether break-even is beyond the stock (“beyondStock”) and what is sold at other prices (“sold”); low, likely and high of the share who buy are its 5, 50 and 95 % points.",
      "/v1/plans takes garments that are printed already (“ready”) and the date of a dated design (“day”).",
      "A plan of several days is kept with all its days: “days” of /plan, “planDay” of /day-so-far, “days” of what /closeout has planned.",
      "Garments that a plan prints ahead hang on the rack with the reason “ahead”; /closeout counts them in “readyLeft” and sets all days beside the plan in “plannedWhole”.",
      "An exchange may give out a garment of the rack at once: “rack” in “instead” of /orders/{number}/garments/exchanged names it.",
      "Seconds have a price of their own: “secondsPartsPerMillionOff” or “secondsAmountOff” among the rules; /closeout counts them in “waste”.",
      "The document says that a write needs its Idempotency-Key, as it always did.",
    ],
  },
  { version: "0.1.0", day: "2026-11-25", changes: ["The first version."] },
];

export const API_VERSION = API_CHANGES[0].version;

export const ApiChangesPage = ({ spelling }: { readonly spelling: Spelling }) => (
  <AnswersPage
    title="Changes of the API"
    back={TO_HELP}
    questions={API_CHANGES.map(({ version, day, changes }) => ({
      question: (
        <>
          {version}, <time datetime={day}>{day}</time>
        </>
      ),
      answers: changes,
    }))}
    spelling={spelling}
  >
    <p>
      <a href="/v1/openapi.json">The API’s document</a> lists every route with its schemas.
    </p>
  </AnswersPage>
);

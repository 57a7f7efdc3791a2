import type { HelpSubject } from "./answer.ts";

export const PROGRAMS: HelpSubject = {
  id: "programs",
  title: "For programs",
  lead: "Everything is an API, and every refusal explains itself.",
  answers: [
    [
      "Where is the document?",
      "The OpenAPI document lists every route with its schemas. Every write to a fair or a stall takes an Idempotency-Key, except chat and texts, which have ids of their own. Refusals are problems by RFC 9457, and each type has a page.",
      { to: "/v1/openapi.json", says: "The API’s document" },
      { to: "/help/api", says: "Changes of the API" },
    ],
    [
      "Find a request in the log",
      "Every answer has an X-Request-Id. The log has it too, and never a name, a number or a text.",
    ],
    [
      "Take the organiser’s figures elsewhere",
      "GET /v1/fairs/FAIR/throughput, with span=now or all, day=2027-06-12, or from and to. With Accept: text/csv it is a table, with per=quarter a row for each stall and quarter of an hour.",
    ],
    ["Check the program itself", { run: "npm test" }, { run: "npm run bench" }],
  ],
};

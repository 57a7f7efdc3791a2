/** The organiser's look at every stall's pace: JSON or csv, and 304 while nothing changed. */
import { createRoute } from "@hono/zod-openapi";
import { accepts } from "hono/accepts";
import { z } from "zod";
import { Throughput, ThroughputQuery } from "../../../model/fair/throughput.ts";
import { csvHeaders } from "../../csv/csv-headers.ts";
import { quarterSheet, stallSheet } from "../../csv/throughput-csv.ts";
import { onlyFor } from "../../doors/doors.ts";
import { generationOf } from "../../doors/guard.ts";
import { fairOf } from "../../requests/objects.ts";
import { fairRefusal } from "../../requests/problems.ts";
import { fairPath, newRouter, problems } from "../../requests/router.ts";
import { tagsOf } from "../../requests/tags.ts";

const pace = createRoute({
  method: "get",
  path: "/v1/fairs/{fair}/throughput",
  summary: "Every stall's pace, of today or of any span; as CSV if asked for",
  tags: ["organiser"],
  ...onlyFor("organiser"),
  request: { params: fairPath, query: ThroughputQuery },
  responses: {
    200: {
      description: "Per stall and in total",
      content: {
        "application/json": { schema: Throughput },
        "text/csv": { schema: z.string().describe("A row a stall and one of all, or a row a quarter") },
      },
    },
    304: { description: "Nothing changed" },
    ...problems,
  },
});

const OFFERED = ["application/json", "text/csv"];

export const paceRoutes = newRouter().openapi(pace, async (c) => {
  const { fair } = c.req.valid("param");
  const query = c.req.valid("query");
  const asCsv =
    accepts(c, { header: "Accept", supports: OFFERED, default: "application/json" }) === "text/csv";
  const kind = asCsv ? "-csv" : "";
  const have = tagsOf(c).flatMap((tag) => {
    if (tag === "*") return tag;
    return tag.endsWith(kind) ? tag.slice(0, tag.length - kind.length) : [];
  });
  const answer = await fairOf(c, fair).throughput(generationOf(c), query, have);
  if (!answer.ok) return fairRefusal(c, answer.refusal, fair);
  const { tag, text } = answer.value;
  const headers = {
    ETag: `"${tag}${kind}"`,
    "Cache-Control": "private, no-cache",
    Vary: "Accept, Authorization",
    // A reader counts "seconds ago" from this date, also if nothing changed.
    Date: new Date().toUTCString(),
  };
  if (text === null) return c.body(null, 304, headers);
  // The object has made a Throughput into text.
  if (!asCsv) return c.body(text, 200, { ...headers, "Content-Type": "application/json" }) as never;
  const figures = JSON.parse(text) as Throughput;
  const byQuarter = query.per === "quarter" || query.stall !== undefined;
  const sheet = byQuarter ? quarterSheet(figures) : stallSheet(figures);
  const name = [fair, query.day ?? figures.today, query.stall, byQuarter ? "quarters" : "stalls"];
  return c.body(sheet, 200, {
    ...headers,
    ...csvHeaders(name.filter((part) => part !== undefined).join("-")),
  }) as never;
});

/** The front door: what every request passes through, and all routes. */
import type { Context } from "hono";
import { HTTPException } from "hono/http-exception";
import { routePath } from "hono/route";
import { secureHeaders } from "hono/secure-headers";
import { areNewerRecords } from "../model/basics/newer-records.ts";
import { API_VERSION } from "../screens/pages/front/api-changes.tsx";
import type { ProblemName } from "../screens/pages/front/problems.tsx";
import { pageNotFound, pages } from "../screens/pages.tsx";
import { faultFacts, log } from "../tracing/log.ts";
import { KEYS } from "./doors/doors.ts";
import { limited } from "./doors/limits.ts";
import { readable, whole } from "./requests/bodies.ts";
import type { App } from "./requests/env.ts";
import { occurrence, PROBLEM_TYPE, problem } from "./requests/problems.ts";
import { requests } from "./requests/request-ids.ts";
import { newRouter } from "./requests/router.ts";
import { acceptedPlanRoutes } from "./routes/crew/accepted-plan.ts";
import { accountRoutes } from "./routes/crew/account.ts";
import { crewSetupRoutes } from "./routes/crew/crew-setup.ts";
import { announcementRoutes } from "./routes/crew/fair/announcements.ts";
import { movingRoutes } from "./routes/crew/moving/carry-save-load.ts";
import { movedRoutes } from "./routes/crew/moving/moved.ts";
import { changingRoutes } from "./routes/crew/orders/changing.ts";
import { drawerRoutes } from "./routes/crew/orders/drawer.ts";
import { returnRoutes } from "./routes/crew/orders/returns.ts";
import { pictureRoutes } from "./routes/crew/pictures.ts";
import { pressFloorRoutes } from "./routes/crew/press-floor.ts";
import { rehearsalRoutes } from "./routes/crew/rehearsals.ts";
import { shiftRoutes } from "./routes/crew/shift.ts";
import { tillRoutes } from "./routes/crew/till.ts";
import { customerRoutes } from "./routes/customer/customer.ts";
import { seenFairRoutes } from "./routes/customer/seen-fair.ts";
import { seenPictureRoutes } from "./routes/customer/seen-pictures.ts";
import { textRoutes } from "./routes/gateway/texts.ts";
import { fairHourRoutes } from "./routes/organiser/fair-hours.ts";
import { fairRoutes } from "./routes/organiser/fairs.ts";
import { gatewayRoutes } from "./routes/organiser/gateway.ts";
import { organiserWordRoutes } from "./routes/organiser/organiser-word.ts";
import { paceRoutes } from "./routes/organiser/pace.ts";
import { healthRoutes } from "./routes/owner/health.ts";
import { knownFairPages } from "./routes/pages/known-fair.ts";
import { movedPages } from "./routes/pages/moved.ts";
import { phoneRoutes } from "./routes/pages/phones.ts";
import { planningRoutes } from "./routes/planning/planning.ts";
import { SecretFault } from "./secrets.ts";

export const app = newRouter();

app.use(requests);

app.use(
  secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: ["'none'"],
      scriptSrc: ["'self'"],
      styleSrc: ["'self'"],
      connectSrc: ["'self'"],
      imgSrc: ["'self'", "data:"],
      fontSrc: ["'self'"],
      workerSrc: ["'self'"],
      manifestSrc: ["'self'"],
      formAction: ["'none'"],
      baseUri: ["'none'"],
      frameAncestors: ["'none'"],
    },
    referrerPolicy: "no-referrer",
    xFrameOptions: "DENY",
    permissionsPolicy: { camera: [], geolocation: [], microphone: [] },
  }),
);

app.use("/v1/*", readable, whole);

app.use("/v1/*", async (c, next) => {
  await next();
  // An answer for a key, or one of this moment, must not be cached.
  if (!c.res.headers.has("Cache-Control")) c.header("Cache-Control", "no-store");
});

for (const routes of [
  fairRoutes,
  fairHourRoutes,
  paceRoutes,
  gatewayRoutes,
  organiserWordRoutes,
  announcementRoutes,
  crewSetupRoutes,
  pictureRoutes,
  rehearsalRoutes,
  acceptedPlanRoutes,
  pressFloorRoutes,
  shiftRoutes,
  tillRoutes,
  changingRoutes,
  returnRoutes,
  drawerRoutes,
  accountRoutes,
  movingRoutes,
  movedRoutes,
  customerRoutes,
  seenFairRoutes,
  seenPictureRoutes,
  textRoutes,
  planningRoutes,
  healthRoutes,
]) {
  app.route("/", routes);
}
app.route("/", knownFairPages);
app.route("/", movedPages);
app.route("/", pages);
app.route("/", phoneRoutes);

for (const definition of app.openAPIRegistry.definitions) {
  if (definition.type === "route" && definition.route.security === undefined) {
    const { method, path } = definition.route;
    throw new Error(
      `${method} ${path} does not say who may call it: spread one of http/doors.ts into its route.`,
    );
  }
}

for (const [name, key] of Object.entries(KEYS)) {
  app.openAPIRegistry.registerComponent("securitySchemes", name, key);
}

app.use("/v1/openapi.json", limited("reader"));
let document: string | null = null;
/** The document as JSON: all routes are there before the first request, so it is made once an isolate. */
const documentText = (): string => {
  document ??= JSON.stringify(
    app.getOpenAPI31Document({
      openapi: "3.1.0",
      info: {
        title: "stallpress",
        version: API_VERSION,
        description: "Runs a stall that presses garments to order at a fair.",
        license: { name: "MIT" },
      },
      externalDocs: { url: "/help/api", description: "What has changed" },
    }),
  );
  return document;
};
app.get("/v1/openapi.json", (c) => c.body(documentText(), 200, { "Content-Type": "application/json" }));

/** Whether a person opened this address: errors are then a page, for API calls a problem. */
const isPage = ({ req }: Context<App>): boolean =>
  (req.method === "GET" || req.method === "HEAD") && req.path !== "/v1" && !req.path.startsWith("/v1/");

app.notFound((c) =>
  isPage(c)
    ? pageNotFound(c)
    : problem(c, "not-found", [
        404,
        "Not found",
        `There is nothing at ${c.req.path}. GET /v1/openapi.json lists the routes.`,
      ]),
);

const FAULT = [
  500,
  "fault",
  "Something went wrong here",
  "This is our fault, not yours. Send the same request again with the same Idempotency-Key.",
] as const;
const FULL = [
  507,
  "store-full",
  "No room left",
  "The disk that keeps this fair is full. Nothing was changed: make room on it, then send the same request again.",
] as const;
/** SQLite's own name for a full store, as the platform passes it on. */
const isFull = (error: unknown): boolean => error instanceof Error && error.message.includes("SQLITE_FULL");
const NEWER = [
  503,
  "newer-records",
  "Written by a newer program",
  "The records here are of a newer version of this program, which must run again. Nothing was changed.",
] as const;

const NOT_SET_UP = [503, "not-set-up", "This deployment is not set up"] as const;

type Unexpected = readonly [status: 500 | 503 | 507, name: ProblemName, title: string, detail: string];

function answerTo(error: Error): Unexpected {
  if (error instanceof SecretFault) return [...NOT_SET_UP, error.message];
  return areNewerRecords(error) ? NEWER : isFull(error) ? FULL : FAULT;
}

/**
 * Whether a body broke its own check: `{"length": {"toString": 1}}` in a list's place makes the length check throw,
 * since that object cannot be converted to a number.
 */
const isUnreadable = (error: Error, c: Context<App>): boolean =>
  error instanceof TypeError && c.req.raw.body !== null && c.get("read") !== true;

app.onError((error, c) => {
  if (isUnreadable(error, c)) {
    const detail =
      "The body holds an object that can be read as nothing. Check it against the schema and send it again.";
    return problem(c, "invalid-request", [400, "Invalid request", detail]);
  }
  if (error instanceof HTTPException && error.status < 500) {
    return problem(c, "malformed", [
      400,
      "Malformed request",
      "The body is not well-formed JSON. Check it and send it again.",
    ]);
  }
  log("error", "a request failed", {
    request: c.get("request"),
    method: c.req.method,
    route: routePath(c, -1),
    ...faultFacts(error),
  });
  const [status, name, title, detail] = answerTo(error);
  const body = { type: `/problems/${name}`, title, status, detail, ...occurrence(c) };
  return c.body(JSON.stringify(body), status, { "Content-Type": PROBLEM_TYPE, "Cache-Control": "no-store" });
});

/** The pages: shells that hold no data, so that anybody may load them and only a key fills them. */

import type { Context } from "hono";
import { Hono } from "hono";
import { accepts } from "hono/accepts";
import { FairId, StallId } from "../model/basics/ids.ts";
import { type Spelling, spellingIn } from "../model/basics/region.ts";
import { BoardPage } from "./pages/board.tsx";
import { CloseoutPage } from "./pages/closeout.tsx";
import { CounterPage } from "./pages/counter.tsx";
import { CustomerPage } from "./pages/customer.tsx";
import { DayPage } from "./pages/day.tsx";
import { GatewayPage } from "./pages/fair/gateway.tsx";
import { OrganiserPage } from "./pages/fair/organiser.tsx";
import { ApiChangesPage } from "./pages/front/api-changes.tsx";
import { FairsPage } from "./pages/front/fairs.tsx";
import { HomePage } from "./pages/front/home.tsx";
import { type NoPage, NoPageHere } from "./pages/front/no-page.tsx";
import { isProblemName, ProblemPage } from "./pages/front/problems.tsx";
import { SeenPage } from "./pages/front/seen.tsx";
import { YourDataPage } from "./pages/front/your-data.tsx";
import { HelpBooklet, HelpPage, HelpSubjectPage } from "./pages/help/help.tsx";
import { SUBJECTS } from "./pages/help/subjects.ts";
import { PassersByPage } from "./pages/passers-by.tsx";
import { PlanPage } from "./pages/plan.tsx";
import { PosterPage } from "./pages/poster.tsx";
import { PressPage } from "./pages/press.tsx";
import { PrintsPage } from "./pages/prints.tsx";
import { SetupPage } from "./pages/setup.tsx";
import { KeysPage, StartPage } from "./pages/start.tsx";
import { StockPage } from "./pages/stock.tsx";
import type { Place } from "./parts/place.ts";

/** The fair and stall of the address, or null if they cannot be names. */
function placeOf(c: Context): Place | null {
  const fair = FairId.safeParse(c.req.param("fair"));
  const stall = StallId.safeParse(c.req.param("stall"));
  return fair.success && stall.success ? { fair: fair.data, stall: stall.data } : null;
}

type PosterBindings = {
  readonly GATEWAY_URL?: string;
  readonly GATEWAY_NUMBER?: string;
  /** Pretend phones: a number that no phone can text. */
  readonly HANDSET?: unknown;
};

/** Names of this computer that no other device can reach it by (RFC 6761, section 6.3; RFC 1122, section 3.2.1.3). */
const isLoopback = (host: string): boolean =>
  host === "localhost" || host.endsWith(".localhost") || host === "[::1]" || /^127\./.test(host);

/** The address of a stall's page for customers; null if only this computer can open it. */
function customersLink(c: Context, { fair, stall }: Place): string | null {
  const url = new URL(`/at/${fair}/${stall}`, c.req.url);
  return isLoopback(url.hostname) ? null : url.href;
}

function board(c: Context) {
  const place = placeOf(c);
  return place === null ? c.notFound() : c.html(BoardPage({ ...place, link: customersLink(c, place) }));
}

/** The poster prints only what works: an address that others can open, and a number that has a gateway. */
function poster(c: Context<{ Bindings: PosterBindings }>) {
  const place = placeOf(c);
  if (place === null) return c.notFound();
  const { GATEWAY_URL, GATEWAY_NUMBER, HANDSET } = c.env;
  const texts = GATEWAY_URL !== undefined && HANDSET === undefined;
  const number = texts ? (GATEWAY_NUMBER ?? null) : null;
  return c.html(PosterPage({ ...place, link: customersLink(c, place), number }));
}

const SUPPORTED = ["en", "es"] as const;

/** The browser's language, of those that these pages speak. */
export function languageOf(c: Context): (typeof SUPPORTED)[number] {
  const wanted = accepts(c, { header: "Accept-Language", supports: [...SUPPORTED], default: "en" });
  return wanted.toLowerCase().startsWith("es") ? "es" : "en";
}

/** The browser's English spelling, for pages without a stall. */
const spellingFor = (c: Context): Spelling =>
  spellingIn(/\ben\b[^,;]*/i.exec(c.req.header("Accept-Language") ?? "")?.[0] ?? "en");

/** The page for an address without one. */
const noPage = (c: Context, what: NoPage) =>
  c.html(NoPageHere({ what, language: languageOf(c), spelling: spellingFor(c) }), 404);

/** The answer to an address that no page has. */
export const pageNotFound = (c: Context) => noPage(c, "unknown");

/** The answer to a fair's address if there is no such fair. */
export const fairNotFound = (c: Context) => noPage(c, "fair");

type Shell = (place: Place) => ReturnType<typeof CustomerPage>;

const atStall = (shell: Shell) => (c: Context) => {
  const place = placeOf(c);
  return place === null ? c.notFound() : c.html(shell(place));
};

export const pages = new Hono<{ Bindings: { readonly GATEWAY_NUMBER?: string } }>()
  .get("/", (c) => c.html(HomePage({ language: languageOf(c) })))
  .get("/fairs", (c) => c.html(FairsPage()))
  .get("/help", (c) => c.html(HelpPage({ spelling: spellingFor(c) })))
  .get("/help/api", (c) => c.html(ApiChangesPage({ spelling: spellingFor(c) })))
  .get("/help/booklet", (c) => c.html(HelpBooklet({ spelling: spellingFor(c) })))
  .get("/problems/:name", (c) => {
    const name = c.req.param("name");
    return isProblemName(name) ? c.html(ProblemPage({ name, spelling: spellingFor(c) })) : c.notFound();
  })
  .get("/at", fairNotFound)
  .get("/at/:fair", (c) => {
    const fair = FairId.safeParse(c.req.param("fair"));
    return fair.success ? c.html(SeenPage({ fair: fair.data, language: languageOf(c) })) : fairNotFound(c);
  })
  .get("/at/:fair/:stall", atStall(CustomerPage))
  .get("/at/:fair/:stall/your-data", (c) => {
    const place = placeOf(c);
    return place === null
      ? c.notFound()
      : c.html(YourDataPage({ ...place, language: languageOf(c), spelling: spellingFor(c) }));
  })
  .get("/at/:fair/:stall/board", board)
  .get("/at/:fair/:stall/poster", poster)
  .get("/crew/:fair/:stall", atStall(PressPage))
  .get("/crew/:fair/:stall/counter", atStall(CounterPage))
  .get("/crew/:fair/:stall/setup", atStall(SetupPage))
  .get("/crew/:fair/:stall/prints", atStall(PrintsPage))
  .get("/crew/:fair/:stall/closeout", atStall(CloseoutPage))
  .get("/crew/:fair/:stall/day", atStall(DayPage))
  .get("/crew/:fair/:stall/passers-by", atStall(PassersByPage))
  .get("/crew/:fair/:stall/stock", atStall(StockPage))
  .get("/start", (c) => c.html(StartPage()))
  .get("/fair/:fair/keys", (c) => {
    const fair = FairId.safeParse(c.req.param("fair"));
    return fair.success ? c.html(KeysPage({ fair: fair.data, spelling: spellingFor(c) })) : c.notFound();
  })
  .get("/fair/:fair/gateway", (c) => {
    const fair = FairId.safeParse(c.req.param("fair"));
    return fair.success ? c.html(GatewayPage({ fair: fair.data })) : c.notFound();
  })
  .get("/plan", (c) => c.html(PlanPage({ spelling: spellingFor(c) })))
  .get("/fair/:fair", (c) => {
    const fair = FairId.safeParse(c.req.param("fair"));
    return fair.success ? c.html(OrganiserPage({ fair: fair.data })) : c.notFound();
  });
// An address for each: beside the fixed ones, a name in the address would keep the router from its one pattern for all.
for (const subject of SUBJECTS)
  pages.get(`/help/${subject.id}`, (c) => c.html(HelpSubjectPage({ subject, spelling: spellingFor(c) })));

/** @jsxImportSource preact */
/** A fair's page for visitors: asked for again while it is looked at. */
import { render } from "preact";
import type { SeenFair } from "../../../model/fair/seen.ts";
import { apiAt } from "../kit/api.ts";
import { byId, pageData } from "../kit/dom.ts";
import { Seen, troubleOf } from "./view.tsx";

const EVERY_MS = 15_000;

const fair = pageData("fair");
const api = apiAt(`/v1/fairs/${fair}`, () => null);
const language = document.documentElement.lang === "es" ? "es" : "en";

let shown: SeenFair | null = null;

async function look(): Promise<void> {
  if (document.hidden) return;
  const { status, body } = await api("/seen");
  if (status === 200) {
    shown = body as SeenFair; // as the route documents
    document.title = shown.name;
  }
  const trouble = status === 200 ? null : troubleOf(status);
  render(<Seen seen={shown} trouble={trouble} fair={fair} language={language} />, byId("stalls"));
}

void look();
setInterval(() => void look(), EVERY_MS);
document.addEventListener("visibilitychange", () => void look());

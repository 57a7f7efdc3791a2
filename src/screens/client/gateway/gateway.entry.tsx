/** @jsxImportSource preact */
/** The organiser's page for the fair's text gateway. */
import { nanoid } from "nanoid";
import { render } from "preact";
import type { Problem } from "../../../model/basics/problem.ts";
import type { GatewayMapping, TriedGateway } from "../../../model/fair/gateway.ts";
import type { Throughput } from "../../../model/fair/throughput.ts";
import { apiAt, detailOf, type Reply } from "../kit/api.ts";
import { byId, pageData } from "../kit/dom.ts";
import { keyFor } from "../kit/key.ts";
import { poll } from "../kit/poll.ts";
import { spellIn, spelt } from "../kit/spelling.ts";
import { session } from "../kit/texts-kept.ts";
import { type Draft, draftOf, type Mistake, mappingOf, mistakeOf } from "./draft.ts";
import type { Actions } from "./part.tsx";
import { counted, edited, firstState, type State } from "./state.ts";
import { Gateway } from "./view.tsx";

spellIn(navigator.language);

const EVERY_SECONDS = 5;
const fair = pageData("fair");
const PLACE = `gateway ${fair}`;

function trouble(text: string | null): void {
  byId("trouble").hidden = text === null;
  byId("trouble").textContent = text ?? "";
}

/** The faults of a refused mapping, in the page's words. */
function mistakesIn({ body }: Reply): readonly Mistake[] {
  const { errors } = body as Partial<Problem>; // every refusal is a problem
  return (errors ?? []).map(mistakeOf);
}

function start(key: string): void {
  const api = apiAt(`/v1/fairs/${fair}`, () => key);
  const hook = `${session.getItem("reach") ?? location.origin}/v1/fairs/${fair}`;
  let state: State | null = null;
  let once = nanoid();

  const show = (now: State): void => {
    state = now;
    render(<Gateway state={now} actions={actions} hook={hook} />, byId("gateway"));
  };
  const change = (to: (before: State) => State): void => {
    if (state !== null) show(to(state));
  };
  async function save(draft: Draft): Promise<void> {
    const mapping = mappingOf(draft);
    if (!mapping.ok)
      return change((before) => ({ ...before, mistakes: mapping.refusal, said: "Not saved yet." }));
    change((before) => ({ ...before, busy: true, said: null }));
    const reply = await api("/gateway", { method: "PUT", once: nanoid(), body: mapping.value });
    const isSaved = reply.status === 200;
    if (isSaved) session.removeItem(PLACE);
    const mistakes = isSaved ? [] : mistakesIn(reply);
    const why = mistakes.length > 0 ? "Not saved: nothing was changed." : detailOf(reply);
    change((before) => ({
      ...before,
      busy: false,
      mistakes,
      saved: isSaved && before.draft === draft,
      said: isSaved ? "Saved. Every stall uses it." : why,
    }));
  }
  async function attempt(to: string): Promise<void> {
    change((before) => ({ ...before, busy: true, tried: null }));
    const reply = await api("/gateway/tries", { method: "POST", once, body: { to } });
    // After no answer it is the same text that is tried again.
    if (reply.status !== 0) once = nanoid();
    const tried = reply.status === 200 ? (reply.body as TriedGateway).detail : detailOf(reply); // as the route documents
    change((before) => ({ ...before, busy: false, tried }));
  }
  const actions: Actions = {
    edit: (draft) => {
      session.setItem(PLACE, JSON.stringify(draft));
      change((before) => edited(before, draft));
    },
    save: () => void (state !== null && save(state.draft)),
    typeTryTo: (tryTo) => change((before) => ({ ...before, tryTo })),
    attempt: () => void (state !== null && attempt(state.tryTo.replaceAll(/[\s().-]/g, ""))),
  };

  async function look(): Promise<boolean> {
    if (state === null) {
      const reply = await api("/gateway");
      if (reply.status === 0) return false;
      if (reply.status !== 200) {
        trouble(detailOf(reply));
        return true;
      }
      trouble(null);
      const { mapping } = reply.body as { readonly mapping: GatewayMapping }; // as the route documents
      const kept = session.getItem(PLACE);
      show(firstState(kept === null ? draftOf(mapping) : (JSON.parse(kept) as Draft), kept === null)); // written above only
    }
    const pace = await api("/throughput");
    if (pace.status === 200) change((before) => counted(before, pace.body as Throughput)); // as the route documents
    return pace.status !== 0;
  }
  poll({ everySeconds: EVERY_SECONDS, look });
}

const key = keyFor(`organiser ${fair}`);
if (key === null) {
  trouble(spelt("This page needs the organiser's key. Open the organiser's link once in this browser."));
  byId("freshness").textContent = "";
} else start(key);

/** A stall as one file, written page by page: however large it is, a page is in memory. */
import type { Context } from "hono";
import { type StopList, type Stops, together } from "../../../../fair/stops.ts";
import { CustomerId, type FairId, type StallId } from "../../../../model/basics/ids.ts";
import type { Answer } from "../../../../model/orders/refusal.ts";
import type { Cursor, SavedPage } from "../../../../stall/storage/snapshot.ts";
import { stopKeyOf } from "../../../../texting/stop-hash.ts";
import { keysOf } from "../../../doors/guard.ts";
import { issuedHash } from "../../../doors/keys.ts";
import type { App } from "../../../requests/env.ts";
import { fairOf } from "../../../requests/objects.ts";

type Path = { readonly fair: FairId; readonly stall: StallId };
type PageAt = (from: Cursor) => Promise<Answer<SavedPage>>;

/** The text of the file; `first` is its first page, and later ones are fetched as they are needed. */
export async function* savedFile(
  c: Context<App>,
  path: Path,
  first: SavedPage,
  pageAt: PageAt,
): AsyncGenerator<string> {
  const facts = { format: "stallpress-stall", version: 1, exportedAt: new Date().toISOString() };
  yield `${JSON.stringify({ ...facts, stops: await stopsOf(c, path) }).slice(0, -1)},"people":{`;
  /** Hashes of what this place gave out: few characters each, written last. */
  const issued: string[] = [];
  let [part, rows] = ["", 0];
  for (let page = first; ; ) {
    if (page.part !== part) {
      if (part !== "") yield part === "orders" ? "]}," : "],";
      [part, rows] = [page.part, 0];
      yield `"${part}":[`;
    }
    for (const row of page.rows) yield `${rows++ === 0 ? "" : ","}\n${row}`;
    for (const hashed of await hashesOf(c, path, page.names)) issued.push(hashed);
    if (page.next === null) break;
    const next: Answer<SavedPage> = await pageAt(page.next);
    if (!next.ok) throw new Error(`the file ends early: ${next.refusal.code}`);
    page = next.value;
  }
  for (const row of issued) yield `${rows++ === 0 ? "" : ","}\n${row}`;
  yield "]}\n";
}

/** The hash of each token or claim of these names, as rows. */
function hashesOf(c: Context<App>, { fair, stall }: Path, names: readonly string[]): Promise<string[]> {
  const keys = keysOf(c);
  return Promise.all(
    names.map(async (name) => {
      const [kind, named = ""] = name.split(".");
      const key =
        kind === "claim"
          ? await keys.claim(fair, stall, Number(named))
          : await keys.customer(fair, stall, CustomerId.parse(named));
      return JSON.stringify([name, [await issuedHash(key)]]);
    }),
  );
}

/** All numbers of the stall that said STOP, by their hashes. */
async function stopsOf(c: Context<App>, { fair, stall }: Path): Promise<readonly StopList[]> {
  const own = await keysOf(c).opaqueId(stopKeyOf(fair));
  const lists: StopList[] = [];
  let from: string | null = null;
  do {
    const page: Awaited<ReturnType<Stops["page"]>> = await fairOf(c, fair).stops(stall, own, from);
    lists.push(...page.lists);
    from = page.next;
  } while (from !== null);
  return together(lists);
}

/** The pieces as a body that is read as fast as it is taken; one that breaks off is no whole JSON text. */
export function streamed(pieces: AsyncGenerator<string>): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  return new ReadableStream<Uint8Array>({
    async pull(controller) {
      let text = "";
      while (text.length < 60_000) {
        const { value, done } = await pieces.next();
        if (done === true) {
          if (text !== "") controller.enqueue(encoder.encode(text));
          return controller.close();
        }
        text += value;
      }
      controller.enqueue(encoder.encode(text));
    },
  });
}

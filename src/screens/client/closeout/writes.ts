/** Writes made by hand, now and then: an unanswered write keeps its key until it is answered. */
import { nanoid } from "nanoid";
import type { Api, Reply } from "../kit/api.ts";

/** Sends a write; repeating it after no answer is the same write to the stall. */
export function writer(api: Api): (path: string, body: unknown) => Promise<Reply> {
  const unanswered = new Map<string, string>();
  return async (path, body) => {
    const what = `${path} ${JSON.stringify(body)}`;
    const once = unanswered.get(what) ?? nanoid();
    unanswered.set(what, once);
    const reply = await api(path, { method: "POST", body, once });
    if (reply.status !== 0 && reply.status < 500) unanswered.delete(what);
    return reply;
  };
}

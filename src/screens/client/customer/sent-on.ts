/** For customers' pages: if the stall has moved, loads the page again, and its address then leads to the new place. */
import { type Api, apiAt, problemOf } from "../kit/api.ts";

export function customersApi(...at: Parameters<typeof apiAt>): Api {
  const api = apiAt(...at);
  return async (path, request) => {
    const reply = await api(path, request);
    if (problemOf(reply) === "moved") location.reload();
    return reply;
  };
}

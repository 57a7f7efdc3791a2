/** On a customers' page: if the stall has moved, the page is asked for again, whose own address then says where the stall is. */
import { type Api, apiAt, problemOf } from "../kit/api.ts";

export function customersApi(...at: Parameters<typeof apiAt>): Api {
  const api = apiAt(...at);
  return async (path, request) => {
    const reply = await api(path, request);
    if (problemOf(reply) === "moved") location.reload();
    return reply;
  };
}

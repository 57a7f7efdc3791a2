import { z } from "zod";

/** One thing wrong with a request: where it is, what is wrong, and what would mend it. */
export const Fault = z
  .strictObject({
    pointer: z
      .string()
      .meta({ description: "JSON Pointer (RFC 6901) into the request, such as /loads/2/volts." }),
    detail: z.string().meta({ description: "What is wrong, in one sentence." }),
    mend: z.string().meta({ description: "What to change." }),
  })
  .meta({ id: "Fault", description: "One thing wrong with a request." });
export type Fault = z.infer<typeof Fault>;

/** Lets Node run the objects outside the platform: its module is the simulation's own. */
import { registerHooks } from "node:module";

const platform = new URL("./platform.ts", import.meta.url).href;

registerHooks({
  resolve: (specifier, context, next) =>
    specifier === "cloudflare:workers" ? { url: platform, shortCircuit: true } : next(specifier, context),
});

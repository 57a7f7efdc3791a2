/** The front door and the objects behind it; nothing else. */

export { Fair } from "./fair/fair.ts";
export { app as default } from "./http/app.ts";
export { Stall } from "./stall/stall.ts";

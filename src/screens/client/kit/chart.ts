/** The chart library, once the browser's language is one that it can read. */
import "./language-tag.ts";
import uPlot from "uplot";

export { uPlot };

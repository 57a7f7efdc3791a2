/** The chart library, once the browser's language is one that it can read, and the ink that all charts are drawn in. */
import "./language-tag.ts";
import uPlot from "uplot";
import { token } from "./dom.ts";

export { uPlot };

/** Asked for at each drawing: a chart is drawn again when day turns to night. */
export const ink = (): string => token("--ink");
const GRID = { stroke: () => token("--ink-2"), width: 0.5 };
const FONT = '16px "Atkinson Hyperlegible Next Variable", system-ui, sans-serif';
export const AXIS = { stroke: ink, font: FONT, grid: GRID, ticks: GRID };

/** The pitch to scale: pieces, people, the way out, and the cautions. */
import type { PitchPlan, Rectangle } from "../../../../model/planning/pitch.ts";
import { element } from "../../kit/dom.ts";
import { cautions, sentences, tableOf } from "../figures.ts";
import { printButton } from "../printing.ts";

const NAMESPACE = "http://www.w3.org/2000/svg";
const AISLE = 900;
const EDGE = 250;

type Attributes = Readonly<Record<string, string | number>>;

function shape(name: string, attributes: Attributes, ...children: readonly (Node | string)[]): SVGElement {
  const made = document.createElementNS(NAMESPACE, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  made.append(...children);
  return made;
}

const metres = (millimetres: number): string =>
  `${(millimetres / 1000).toFixed(2)} m (${(millimetres / 304.8).toFixed(1)} ft)`;

export function drawPitch(plan: PitchPlan): HTMLElement[] {
  const facing = { front: "the front", back: "the back", left: "the left", right: "the right" } as const;
  return [
    cautions(plan.cautions),
    element("p", { class: "verdict" }, plan.fits ? "Everything fits." : "Not everything fits."),
    ...(plan.unplaced.length === 0
      ? []
      : [sentences(plan.unplaced.map(({ piece, why }) => `${piece}: ${why}`))]),
    ...(plan.would.length === 0 ? [] : [element("h3", {}, "What would make it fit"), sentences(plan.would)]),
    element("figure", { class: "pitch-drawing" }, drawing(plan), element("figcaption", {}, key(plan))),
    tableOf(
      "Where each thing stands",
      ["Piece", "From the left", "From the front", { words: "Worked from" }, "Hot part to the public"],
      plan.placed.map(({ piece, footprint, facing: side, publicMillimetres }) => [
        piece,
        metres(footprint.x),
        metres(footprint.y),
        facing[side],
        publicMillimetres === null ? "–" : metres(publicMillimetres),
      ]),
    ),
    ...(plan.vehicles === null ? [] : [element("h3", {}, "The vehicle"), sentences([plan.vehicles.says])]),
    ...(plan.notes.length === 0 ? [] : [sentences(plan.notes)]),
    printButton("Print the pitch"),
  ];
}

const key = ({ hotRule, exit }: PitchPlan): string =>
  `Hatched: hot. Shaded: floor kept free for who works there. Thick line: the way out at the ${exit.side}, ${metres(exit.widthMillimetres)} wide. Hot parts stay ${metres(hotRule.millimetres)} from the public.`;

/** Front below, back above, as seen by somebody before the stall. */
function drawing(plan: PitchPlan): SVGElement {
  const { widthMillimetres: width, depthMillimetres: depth } = plan;
  const box = ({ x, y, width: wide, depth: deep }: Rectangle): Attributes => ({
    x,
    y: depth - y - deep,
    width: wide,
    height: deep,
  });
  const words = (x: number, y: number, content: string, size = 110): SVGElement =>
    shape("text", { x, y, "font-size": size, "text-anchor": "middle" }, content);
  const pieces = plan.placed.map(({ piece, kind, footprint, swept, standing }) => {
    const middle = { x: footprint.x + footprint.width / 2, y: depth - footprint.y - footprint.depth / 2 };
    const size = Math.min(110, footprint.width / (piece.length * 0.56));
    return shape(
      "g",
      {},
      ...(standing === null ? [] : [shape("rect", { ...box(standing), class: "standing" })]),
      shape("rect", { ...box(swept), class: "swept" }),
      shape("rect", { ...box(footprint), class: kind === "press" ? "hot" : "thing" }),
      ...(kind === "press"
        ? [
            shape("rect", {
              class: "plate",
              x: footprint.x + 20,
              y: middle.y - size,
              width: footprint.width - 40,
              height: size * 1.4,
            }),
          ]
        : []),
      words(middle.x, middle.y, piece, size),
    );
  });
  const way = plan.exit.way.map(({ x, y }) => `${x},${depth - y}`).join(" ");
  return shape(
    "svg",
    {
      viewBox: `${-EDGE} ${-EDGE} ${width + 2 * EDGE} ${depth + AISLE + EDGE}`,
      role: "img",
      "aria-label": `The pitch, ${metres(width)} wide and ${metres(depth)} deep. The table below says where each thing stands.`,
    },
    hatching(),
    shape("rect", { x: 0, y: 0, width, height: depth, class: "floor" }),
    ...pieces,
    ...(way === "" ? [] : [shape("polyline", { points: way, class: "way" })]),
    words(width / 2, depth + 180, `front: the public · ${metres(width)}`),
    words(width / 2, -90, `back · ${metres(depth)} deep`),
    ...(plan.queue.people > 0
      ? [
          words(
            width / 2,
            depth + 420,
            `${plan.queue.people} queue ${plan.queue.inside ? "on the pitch" : "on the aisle"}`,
          ),
        ]
      : []),
  );
}

function hatching(): SVGElement {
  return shape(
    "defs",
    {},
    shape(
      "pattern",
      {
        id: "hatching",
        width: 60,
        height: 60,
        patternUnits: "userSpaceOnUse",
        patternTransform: "rotate(45)",
      },
      shape("line", { x1: 0, y1: 0, x2: 0, y2: 60, class: "hatch" }),
    ),
  );
}

/** A scannable code (ISO/IEC 18004) drawn in the page. */
import { encode } from "uqr";

const SVG = "http://www.w3.org/2000/svg";
/** Light modules around a code, as the standard asks. */
const QUIET = 4;

function shape(name: string, attributes: Readonly<Record<string, string>>): SVGElement {
  const made = document.createElementNS(SVG, name) as SVGElement; // made in that namespace
  for (const [attribute, value] of Object.entries(attributes)) made.setAttribute(attribute, value);
  return made;
}

/** The QR code of a text, black on white; `label` is for people who cannot scan it. */
export function codeOf(text: string, label: string): SVGElement {
  const { data, size } = encode(text, { ecc: "M", border: QUIET });
  const dark = data.flatMap((row, y) => row.flatMap((module, x) => (module ? [`M${x} ${y}h1v1h-1z`] : [])));
  const drawing = shape("svg", {
    class: "code",
    viewBox: `0 0 ${size} ${size}`,
    role: "img",
    "aria-label": label,
    "shape-rendering": "crispEdges",
  });
  drawing.append(
    shape("rect", { width: String(size), height: String(size), fill: "#fff" }),
    shape("path", { d: dark.join(""), fill: "#000" }),
  );
  return drawing;
}

/** A scannable code (ISO/IEC 18004) as a drawing. */
import { encode } from "uqr";

/** Light modules around a code, as the standard asks. */
const QUIET = 4;

/** The QR code of a text, black on white, as large as its place; `label` is for people who cannot scan it. */
export function Code({ text, label }: { readonly text: string; readonly label: string }) {
  const { data, size } = encode(text, { ecc: "M", border: QUIET });
  const dark = data.flatMap((row, y) => row.flatMap((module, x) => (module ? [`M${x} ${y}h1v1h-1z`] : [])));
  return (
    <svg
      class="code"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={label}
      shape-rendering="crispEdges"
    >
      <rect width={size} height={size} fill="#fff" />
      <path d={dark.join("")} fill="#000" />
    </svg>
  );
}

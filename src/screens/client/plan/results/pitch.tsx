/** @jsxImportSource preact */
/** The pitch to scale: pieces, people, the way out, and the cautions. */
import type { PitchPlan, Rectangle } from "../../../../model/planning/pitch.ts";
import { Cautions, Sentences, Table } from "../figures.tsx";
import { PrintButton } from "../printing.tsx";

const AISLE = 900;
const EDGE = 250;

const metres = (millimetres: number): string =>
  `${(millimetres / 1000).toFixed(2)} m (${(millimetres / 304.8).toFixed(1)} ft)`;

export function Pitch({ plan }: { readonly plan: PitchPlan }) {
  const facing = { front: "the front", back: "the back", left: "the left", right: "the right" } as const;
  return (
    <>
      <Cautions each={plan.cautions} />
      <p class="verdict">{plan.fits ? "Everything fits." : "Not everything fits."}</p>
      {plan.unplaced.length === 0 ? null : (
        <Sentences each={plan.unplaced.map(({ piece, why }) => `${piece}: ${why}`)} />
      )}
      {plan.would.length === 0 ? null : (
        <>
          <h3>What would make it fit</h3>
          <Sentences each={plan.would} />
        </>
      )}
      <figure class="pitch-drawing">
        <Drawing {...plan} />
        <figcaption>{key(plan)}</figcaption>
      </figure>
      <Table
        caption="Where each thing stands"
        columns={[
          "Piece",
          "From the left",
          "From the front",
          { words: "Worked from" },
          "Hot part to the public",
        ]}
        rows={plan.placed.map(({ piece, footprint, facing: side, publicMillimetres }) => [
          piece,
          metres(footprint.x),
          metres(footprint.y),
          facing[side],
          publicMillimetres === null ? "–" : metres(publicMillimetres),
        ])}
      />
      {plan.vehicles === null ? null : (
        <>
          <h3>The vehicle</h3>
          <Sentences each={[plan.vehicles.says]} />
        </>
      )}
      {plan.notes.length === 0 ? null : <Sentences each={plan.notes} />}
      <PrintButton words="Print the pitch" />
    </>
  );
}

const key = ({ hotRule, exit }: PitchPlan): string =>
  `Hatched: hot. Shaded: floor kept free for who works there. Thick line: the way out at the ${exit.side}, ${metres(exit.widthMillimetres)} wide. Hot parts stay ${metres(hotRule.millimetres)} from the public.`;

/** Front below, back above, as seen by somebody before the stall. */
function Drawing(plan: PitchPlan) {
  const { widthMillimetres: width, depthMillimetres: depth } = plan;
  const box = ({ x, y, width: wide, depth: deep }: Rectangle) => ({
    x,
    y: depth - y - deep,
    width: wide,
    height: deep,
  });
  const words = (x: number, y: number, content: string, size = 110) => (
    <text x={x} y={y} font-size={size} text-anchor="middle">
      {content}
    </text>
  );
  const pieces = plan.placed.map(({ piece, kind, footprint, swept, standing }) => {
    const middle = { x: footprint.x + footprint.width / 2, y: depth - footprint.y - footprint.depth / 2 };
    const size = Math.min(110, footprint.width / (piece.length * 0.56));
    return (
      <g key={piece}>
        {standing === null ? null : <rect {...box(standing)} class="standing" />}
        <rect {...box(swept)} class="swept" />
        <rect {...box(footprint)} class={kind === "press" ? "hot" : "thing"} />
        {kind === "press" ? (
          <rect
            class="plate"
            x={footprint.x + 20}
            y={middle.y - size}
            width={footprint.width - 40}
            height={size * 1.4}
          />
        ) : null}
        {words(middle.x, middle.y, piece, size)}
      </g>
    );
  });
  const way = plan.exit.way.map(({ x, y }) => `${x},${depth - y}`).join(" ");
  return (
    <svg
      viewBox={`${-EDGE} ${-EDGE} ${width + 2 * EDGE} ${depth + AISLE + EDGE}`}
      role="img"
      aria-label={`The pitch, ${metres(width)} wide and ${metres(depth)} deep. The table below says where each thing stands.`}
    >
      <Hatching />
      <rect x={0} y={0} width={width} height={depth} class="floor" />
      {pieces}
      {way === "" ? null : <polyline points={way} class="way" />}
      {words(width / 2, depth + 180, `front: the public · ${metres(width)}`)}
      {words(width / 2, -90, `back · ${metres(depth)} deep`)}
      {plan.queue.people > 0
        ? words(
            width / 2,
            depth + 420,
            `${plan.queue.people} queue ${plan.queue.inside ? "on the pitch" : "on the aisle"}`,
          )
        : null}
    </svg>
  );
}

function Hatching() {
  return (
    <defs>
      <pattern
        id="hatching"
        width={60}
        height={60}
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <line x1={0} y1={0} x2={0} y2={60} class="hatch" />
      </pattern>
    </defs>
  );
}

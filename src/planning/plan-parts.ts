/** Sheets, presses, power, pitch and the organiser's sheet, planned along with the stock they belong to. */

import type { Work } from "../maths/work.ts";
import type { MendableFault, OrFaults } from "../model/basics/faults.ts";
import { ok, refused } from "../model/basics/result.ts";
import type { PitchRequest } from "../model/planning/pitch.ts";
import type { Plan } from "../model/planning/plan-answer.ts";
import type { PlanParts, PlanPartsWanted } from "../model/planning/plan-parts.ts";
import type { PlanRequest } from "../model/planning/plan-request.ts";
import type { PowerRequest } from "../model/planning/power.ts";
import type { SheetFault, SheetPlan, SheetRequest } from "../model/planning/sheets.ts";
import { organiserSheet } from "./organiser-sheet.ts";
import { hottest, liveHours, missingPresses, queueFromPlan, transfersToBuy } from "./parts-from-plan.ts";
import { planPitch } from "./pitch/pitch.ts";
import { pitchFaults } from "./pitch/pitch-faults.ts";
import { planPower } from "./power/power.ts";
import { powerFaults } from "./power/power-faults.ts";
import { pressesFromPlan } from "./presses/press-asks.ts";
import { planPresses } from "./presses/presses.ts";
import { pressesFaults } from "./presses/presses-faults.ts";
import { faultsOf as sheetFaults } from "./sheets/faults.ts";
import { planSheetsInSteps } from "./sheets/sheets.ts";

const NAMELESS = { stall: "Our stall", fair: "the fair" } as const;

type Outcome = OrFaults<PlanParts | null>;

/** Faults in the other parts of a request, found before any long work begins. */
export function partFaults(request: PlanRequest): readonly MendableFault[] {
  const { sheets, presses, power, pitch } = request.parts ?? {};
  const filled = presses === undefined ? null : pressesFromPlan(presses, request);
  return [
    ...(sheets === undefined ? [] : sheetFaults(sheets).map(ofSheets)),
    ...(filled?.ok === true ? within("presses", pressesFaults(filled.value)) : []),
    ...(power === undefined ? [] : within("power", powerFaults(powered(power, request)))),
    ...(pitch === undefined ? [] : within("pitch", pitchFaults(pitched(pitch, request, NO_QUEUE)))),
  ];
}

/** The values that the other parts take from the plan. */
type Planned = Pick<Plan, "bring" | "demand" | "manners" | "best"> & {
  /** The sheets that the plan's transfers are bought in; null if it did not plan them itself. */
  readonly sheets: SheetPlan | null;
};

/** Plans every other part asked for; only what the plan itself put in can still be wrong with them. */
export function* planParts(request: PlanRequest, planned: Planned): Work<Outcome> {
  const { parts: wanted, currency } = request;
  if (wanted === undefined) return ok(null);
  yield 0;
  const power =
    wanted.power === undefined ? null : planPower({ ...powered(wanted.power, request), currency });
  if (power?.ok === false) return refused(within("power", power.refusal));
  const pitch =
    wanted.pitch === undefined ? null : planPitch(pitched(wanted.pitch, request, queueFromPlan(planned)));
  if (pitch?.ok === false) return refused(within("pitch", pitch.refusal));
  yield 0;
  const filled = wanted.presses === undefined ? null : pressesFromPlan(wanted.presses, request);
  if (filled?.ok === false) return filled;
  const presses = filled === null ? null : planPresses(filled.value);
  if (presses?.ok === false) return refused(within("presses", presses.refusal));
  yield 0;
  const sheets =
    planned.sheets ??
    (wanted.sheets === undefined
      ? null
      : yield* planSheetsInSteps({ ...counted(wanted.sheets, planned), currency }));
  if (sheets?.kind === "refused") return refused(sheets.faults.map(ofSheets));
  return ok({
    sheets,
    presses: presses?.value ?? null,
    power: power?.value ?? null,
    pitch: pitch?.value ?? null,
    organiser: organiserSheet({
      stall: wanted.stall ?? NAMELESS.stall,
      fair: request.name ?? NAMELESS.fair,
      ...(request.day === undefined ? {} : { day: request.day }),
      opens: request.opens,
      closes: request.closes,
      ...(wanted.setUpMinutes === undefined ? {} : { setUpMinutes: wanted.setUpMinutes }),
      pitch: pitch?.value ?? null,
      power: power?.value ?? null,
    }),
  });
}

const NO_QUEUE = 0;
const minuteOf = (clock: string): number => {
  const [hours, minutes] = clock.split(":");
  return Number(hours) * 60 + Number(minutes);
};

/** The request for power, with the plan's hours, heat and presses if none are given. */
function powered(wish: NonNullable<PlanPartsWanted["power"]>, request: PlanRequest): PowerRequest {
  const { opens, closes, presses, parts } = request;
  const warmUps = wish.loads.map(({ warmUpMinutes = 0 }) => warmUpMinutes);
  const temperature = hottest((parts?.presses?.handling ?? []).map((one) => one.temperature));
  const loads = wish.loads.map(({ load, kind }) => ({ name: load, isPress: kind === "press" }));
  return {
    ...(temperature === undefined ? {} : { pressTemperature: temperature }),
    ...wish,
    hours: wish.hours ?? liveHours(minuteOf(opens), minuteOf(closes), warmUps),
    loads: [
      ...wish.loads,
      ...missingPresses(presses, loads).flatMap(({ name, like }) => {
        const one = wish.loads[like];
        return one === undefined ? [] : [{ ...one, load: name }];
      }),
    ],
  };
}

/** The request for the pitch, with the plan's presses and queue if none are given. */
function pitched(
  wish: NonNullable<PlanPartsWanted["pitch"]>,
  { presses }: PlanRequest,
  people: number,
): PitchRequest {
  const pieces = wish.pieces.map(({ piece, kind }) => ({ name: piece, isPress: kind === "press" }));
  return {
    ...wish,
    queue: wish.queue ?? { people, where: "outside" },
    pieces: [
      ...wish.pieces,
      ...missingPresses(presses, pieces).flatMap(({ name, like }) => {
        const one = wish.pieces[like];
        return one === undefined ? [] : [{ ...one, piece: name }];
      }),
    ],
  };
}

/** The wish for sheets with the plan's counts; designs of which the plan buys none are left out. */
function counted(sheets: SheetRequest, { bring }: Planned): SheetRequest {
  const designs = sheets.designs.flatMap((design) => {
    const bought = transfersToBuy(bring).get(design.id);
    if (bought === undefined) return [design];
    return bought.count === 0 ? [] : [{ ...design, count: bought.count, valueOfOneMore: bought.oneMore }];
  });
  return { ...sheets, designs };
}

const within = (part: string, faults: readonly MendableFault[]): MendableFault[] =>
  faults.map((fault) => ({ ...fault, pointer: fault.pointer.replace(/^#/, `#/parts/${part}`) }));

const ofSheets = ({ pointer, fault, mend }: SheetFault): MendableFault => ({
  pointer: `#/parts/sheets${pointer}`,
  detail: fault,
  mend,
});

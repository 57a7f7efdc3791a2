/** Sheets, presses, power, pitch and the organiser's sheet, planned along with the stock they belong to. */

import type { Work } from "../maths/work.ts";
import type { PlanBring } from "../model/planning/plan-answer.ts";
import type { PlanParts } from "../model/planning/plan-parts.ts";
import type { PlanRequest } from "../model/planning/plan-request.ts";
import type { SheetFault, SheetRequest } from "../model/planning/sheets.ts";
import { organiserSheet } from "./organiser-sheet.ts";
import { planPitch } from "./pitch/pitch.ts";
import { pitchFaults } from "./pitch/pitch-faults.ts";
import { planPower } from "./power/power.ts";
import { powerFaults } from "./power/power-faults.ts";
import { pressesFromPlan } from "./presses/press-asks.ts";
import { planPresses } from "./presses/presses.ts";
import { pressesFaults } from "./presses/presses-faults.ts";
import type { Fault } from "./request/faults.ts";
import { faultsOf as sheetFaults } from "./sheets/faults.ts";
import { planSheetsInSteps } from "./sheets/sheets.ts";

const NAMELESS = { stall: "Our stall", fair: "the fair" } as const;

type Outcome =
  | { readonly kind: "parts"; readonly parts: PlanParts | null }
  | { readonly kind: "faults"; readonly faults: readonly Fault[] };

/** What is wrong with the other parts of a request, before any long work is begun. */
export function partFaults(request: PlanRequest): readonly Fault[] {
  const { sheets, presses, power, pitch } = request.parts ?? {};
  const filled = presses === undefined ? null : pressesFromPlan(presses, request);
  return [
    ...(sheets === undefined ? [] : sheetFaults(sheets).map(ofSheets)),
    ...(filled?.kind === "request" ? within("presses", pressesFaults(filled.request)) : []),
    ...(power === undefined ? [] : within("power", powerFaults(power))),
    ...(pitch === undefined ? [] : within("pitch", pitchFaults(pitch))),
  ];
}

/** Plans every other part asked for; only what the plan itself put in can still be wrong with them. */
export function* planParts(request: PlanRequest, bring: PlanBring): Work<Outcome> {
  const { parts: wanted, currency } = request;
  if (wanted === undefined) return { kind: "parts", parts: null };
  yield 0;
  const power = wanted.power === undefined ? null : planPower({ ...wanted.power, currency });
  if (power?.kind === "faults") return { kind: "faults", faults: within("power", power.faults) };
  const pitch = wanted.pitch === undefined ? null : planPitch(wanted.pitch);
  if (pitch?.kind === "faults") return { kind: "faults", faults: within("pitch", pitch.faults) };
  yield 0;
  const filled = wanted.presses === undefined ? null : pressesFromPlan(wanted.presses, request);
  if (filled?.kind === "faults") return filled;
  const presses = filled === null ? null : planPresses(filled.request);
  if (presses?.kind === "faults") return { kind: "faults", faults: within("presses", presses.faults) };
  yield 0;
  const sheets =
    wanted.sheets === undefined
      ? null
      : yield* planSheetsInSteps({ ...counted(wanted.sheets, bring), currency });
  if (sheets?.kind === "refused") return { kind: "faults", faults: sheets.faults.map(ofSheets) };
  return {
    kind: "parts",
    parts: {
      sheets,
      presses: presses?.plan ?? null,
      power: power?.plan ?? null,
      pitch: pitch?.plan ?? null,
      organiser: organiserSheet({
        stall: wanted.stall ?? NAMELESS.stall,
        fair: request.name ?? NAMELESS.fair,
        opens: request.opens,
        closes: request.closes,
        ...(wanted.setUpMinutes === undefined ? {} : { setUpMinutes: wanted.setUpMinutes }),
        pitch: pitch?.plan ?? null,
        power: power?.plan ?? null,
      }),
    },
  };
}

/** The wish for sheets with the plan's counts; designs the plan knows and buys none of are left out. */
function counted(sheets: SheetRequest, bring: PlanBring): SheetRequest {
  const designs = sheets.designs.flatMap((design) => {
    const line = bring.transfers.find((one) => one.design === design.id);
    if (line === undefined) return [design];
    if (line.buy === 0) return [];
    return [{ ...design, count: line.buy, valueOfOneMore: Math.max(0, line.oneMore) }];
  });
  return { ...sheets, designs };
}

const within = (part: string, faults: readonly Fault[]): Fault[] =>
  faults.map((fault) => ({ ...fault, pointer: fault.pointer.replace(/^#/, `#/parts/${part}`) }));

const ofSheets = ({ pointer, fault, mend }: SheetFault): Fault => ({
  pointer: `#/parts/sheets${pointer}`,
  detail: fault,
  mend,
});

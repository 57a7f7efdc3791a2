/** What visitors see of a fair: its stalls that want to be seen, without sums, counts or anybody's name. */
import { z } from "zod";
import { StallId } from "../basics/ids.ts";
import { Currency, minorUnits } from "../basics/money.ts";
import { instant } from "../basics/words.ts";
import { PictureMark } from "../garment/picture.ts";

const Left = z.enum(["plenty", "few", "gone"]).meta({ id: "HowMuchLeft" });
export type HowMuchLeft = z.infer<typeof Left>;

/** One stall, as a row: of 300 such rows a phone loads less than 50 kB. */
const SeenRow = z
  .tuple([
    StallId,
    z.string().describe("Its name, cut if it is long"),
    z.string().max(32).describe("What it makes, cut likewise"),
    minorUnits().describe("The lowest price"),
    minorUnits().describe("The highest price"),
    Currency,
    z
      .union([z.int().min(0), z.literal("?")])
      .nullable()
      .describe(
        "The wait in minutes for one garment; null: it takes no orders now; “?”: it has not reported lately",
      ),
    Left,
    PictureMark.nullable().describe("At /at/FAIR/STALL/pictures/MARK"),
  ])
  .meta({ id: "SeenStall" });
export type SeenRow = z.infer<typeof SeenRow>;

export const SeenFair = z
  .strictObject({
    name: z.string(),
    timeZone: z.string(),
    closes: instant().nullable().describe("Until when the fair is open; null while it is closed"),
    stopped: z.string().nullable().describe("Why the organiser has stopped all orders; null if it has not"),
    stalls: z.array(SeenRow).describe("The shortest wait first"),
  })
  .meta({ id: "SeenFair", description: "What visitors choose from" });
export type SeenFair = z.infer<typeof SeenFair>;

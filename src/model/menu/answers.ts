/** A stall's answers, in its own words, to questions that people ask. */
import { z } from "zod";
import { Language, plainText } from "../basics/words.ts";

/** The subjects that a stall may answer in its own words. */
export const AnswerSubject = z
  .enum(["payment", "place", "hours", "children", "shipping", "own-garment", "fabric", "exchange"])
  .meta({ id: "AnswerSubject" });
export type AnswerSubject = z.infer<typeof AnswerSubject>;

/** An answer goes out in a text together with the question that was open, so it is short. */
const LONGEST_ANSWER = 110;

export const Answers = z
  .partialRecord(AnswerSubject, z.partialRecord(Language, plainText(LONGEST_ANSWER)))
  .meta({
    id: "Answers",
    description:
      "The stall's answers in each language; without one, what its menu, rules and hours say is said",
  });
export type Answers = z.infer<typeof Answers>;

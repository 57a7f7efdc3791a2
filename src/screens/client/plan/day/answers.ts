/** The answers of a plan, kept in this browser beside its figures: a reload shows them at once. */
import { kept } from "../../kit/kept.ts";
import type { Answers } from "../messages.ts";

const store = (id: string) => kept<Answers>(`plan answers ${id}`, {});

export const keptAnswers = (id: string): Promise<Answers> => store(id).read();
export const keepAnswers = (id: string, answers: Answers): Promise<Answers> =>
  store(id).change(() => answers);

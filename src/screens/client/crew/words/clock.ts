/** The time of day of an instant, as this tablet's clock has it. */
const FORM = new Intl.DateTimeFormat(undefined, { hour: "numeric", minute: "2-digit" });

export const timeOfDay = (instant: string): string => FORM.format(new Date(instant));

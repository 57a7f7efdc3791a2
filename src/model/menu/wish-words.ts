/** The most characters of a wish in free words. */
export const WISH_WORDS = 80;

/** How many characters a wish in free words may have. */
export const WISH_WORDS = 80;

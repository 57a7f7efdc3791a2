/** How many unused pickup numbers a device has at the most. Apart from the schemas, so that a page reads it without them. */
export const BLOCK_SIZE = 20;

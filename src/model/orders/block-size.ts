/** The most unused pickup numbers of a device. In a file of its own, so that a page can read it without the schemas. */
export const BLOCK_SIZE = 20;

/** Plain, short, unlike-sounding words; the customer says one at hand-over. */
// biome-ignore format: ten words a line
const PICKUP_WORDS = [
  "acorn", "almond", "amber", "anchor", "anvil", "apple", "arrow", "aspen", "autumn", "bagel",
  "bamboo", "banjo", "barley", "basil", "basket", "beacon", "birch", "biscuit", "blossom", "bobbin",
  "bonnet", "border", "bottle", "breeze", "brick", "bridge", "bucket", "buckle", "bugle", "button",
  "cabin", "cactus", "candle", "canoe", "canvas", "caramel", "carrot", "castle", "cedar", "cherry",
  "chimney", "cider", "cinder", "clover", "cobalt", "comet", "copper", "coral", "cotton", "cradle",
  "crayon", "cricket", "crystal", "daisy", "dapple", "denim", "desert", "dipper", "domino", "donkey",
  "dragon", "drum", "eagle", "elbow", "ember", "engine", "falcon", "feather", "fennel", "ferry",
  "fiddle", "finch", "flint", "forest", "fossil", "garden", "garlic", "ginger", "glacier", "goblet",
  "granite", "grape", "guitar", "hammer", "harbor", "harvest", "hazel", "heron", "hickory", "honey",
  "horizon", "iris", "island", "ivory", "jacket", "jasper", "jigsaw", "juniper", "kettle", "kiosk",
  "kitten", "ladder", "lagoon", "lantern", "lemon", "lentil", "lilac", "lizard", "lobster", "lotus",
  "magnet", "maple", "marble", "meadow", "melon", "mirror", "mitten", "mosaic", "muffin", "mustard",
  "napkin", "nectar", "needle", "nickel", "nutmeg", "oatmeal", "ocean", "olive", "onion", "orbit",
  "orchid", "otter", "oyster", "paddle", "panda", "paper", "parsley", "peanut", "pebble", "pencil",
  "pepper", "piano", "pickle", "pigeon", "pillow", "planet", "plum", "pocket", "poppy", "prairie",
  "pumpkin", "puzzle", "quartz", "quilt", "rabbit", "radish", "raven", "ribbon", "river", "robin",
  "rocket", "rosemary", "saddle", "sailor", "salmon", "sandal", "satin", "shadow", "signal", "silver",
  "slipper", "sparrow", "spider", "spinach", "spruce", "summer", "sunset", "syrup", "tango", "teapot",
  "temple", "thistle", "thunder", "ticket", "timber", "tomato", "trumpet", "tulip", "tunnel", "turnip",
  "turtle", "umbrella", "valley", "vanilla", "velvet", "violet", "violin", "waffle", "walnut", "walrus",
  "whistle", "willow", "window", "winter", "wizard", "yarrow", "zebra", "zephyr",
] as const;

export const PICKUP_WORD_SET: ReadonlySet<string> = new Set(PICKUP_WORDS);

/** A word for a new order, not one that an open order already has where that can be helped. */
export function pickupWord(chance: number, taken: (word: string) => boolean): string {
  const start = Math.floor(chance * PICKUP_WORDS.length);
  for (let step = 0; step < PICKUP_WORDS.length; step++) {
    const word = PICKUP_WORDS[(start + step) % PICKUP_WORDS.length];
    if (word !== undefined && !taken(word)) return word;
  }
  return PICKUP_WORDS[start] ?? PICKUP_WORDS[0];
}

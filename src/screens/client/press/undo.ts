/** The tap that undoes another, if there is a single one; a pressed garment has its own. */
import {
  type Act,
  keepingOpen,
  offMenu,
  pausing,
  pressDown,
  pressUp,
  pulling,
  resuming,
  settingHands,
  stockTakenBack,
  type Unsent,
  unspoiling,
  webOrders,
} from "./acts.ts";

/** The undo of an accepted tap; null if there is none. */
export function undoOf(act: Act): Unsent | null {
  switch (act.type) {
    case "spoiled":
      return unspoiling(act.job, act.press);
    case "returned":
      return act.press === undefined ? null : pulling(act.press);
    case "pause":
      return resuming(null);
    case "resume":
      return act.was === null ? null : pausing(act.was);
    case "web":
      return webOrders(!act.open);
    case "keep-open":
      return keepingOpen(!act.open);
    case "hands":
      return settingHands(act.before, act.hands);
    case "press-down":
      return pressUp(act.press);
    case "press-up":
      return pressDown(act.press);
    case "stock":
      return act.back === undefined || act.back.length === 0 ? null : stockTakenBack(act.back, act.names);
    case "off-menu":
      return offMenu(act.piece, act.name, !act.off);
    case "pull":
    case "reserve":
    case "reserve-returned":
    case "reserve-asked-back":
    case "pressed":
    case "undo-pressed":
    case "undo-spoiled":
      return null;
    default:
      return act satisfies never;
  }
}

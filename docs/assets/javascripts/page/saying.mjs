/** The sentences of a page's first view. */

import sentences from "../sentences.mjs";
import ways from "../way-sentences.mjs";
import { speaking } from "./telling.mjs";

/** @typedef {import("./telling.mjs").Tree} Tree */

export const { say, tell } = speaking(ways, sentences);
export { joined, listed } from "./telling.mjs";

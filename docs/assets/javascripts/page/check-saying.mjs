/** The sentences of the check of own work. */

import sentences from "../check-sentences.mjs";
import ways from "../way-sentences.mjs";
import { speaking } from "./telling.mjs";

export const { say, tell } = speaking(ways, sentences);
export { joined, listed } from "./telling.mjs";

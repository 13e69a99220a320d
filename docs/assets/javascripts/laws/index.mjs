/** What scripts outside may call, from node as well; `example` is the object of `solve --json`. */
export { checkEquation } from "./check-equation.mjs";
export { checkNumbers } from "./check-numbers.mjs";
export { checkSet } from "./check-set.mjs";
export { sentence, slipRow } from "./slip-words.mjs";

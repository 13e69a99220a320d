/** Where a check has its circuit from: data of its own in a lesson, or the example of the page it stands on. */

import { readTopology, turnCurrent } from "../laws/circuit.mjs";
import { keep } from "../laws/keep.mjs";

/**
 * @typedef {import("../page/checking.mjs").Place & {layout: object | null}} Place
 * @typedef {{isLesson: boolean, place: () => Place, turn: (current: string) => void, listen: (tell: () => void, signal: AbortSignal) => void}} Source
 *   turn: turn the arrow of a current round; listen: be told when arrows, loops or values changed
 */

/** The sources of parts of lessons: both checks of a part have one. */
const made = new WeakMap();

/**
 * @param {Element} element a check
 * @returns {Promise<Source | null>} null where there is no circuit
 */
export async function findSource(element) {
  const part = element.closest(".part");
  if (!part) return (await import("./check-page.mjs")).findPageSource(element);
  return keep(made, part, () => makeLessonSource(part));
}

/** In a lesson arrows are as the lesson says, `data-flip="I1.I3"`, until the reader turns them there; the figure of a light page follows. */
function makeLessonSource(part) {
  const [example, layout] = [".circuit-data", ".figure-data"].map((data) => JSON.parse(part.querySelector(data)?.textContent || "null"));
  const heard = new Set();
  let flip = (part.querySelector(".circuit-data").dataset.flip ?? "").split(".").filter((name) => example.unknowns.includes(name));
  const place = () => {
    const page = new URL(`../../../examples/${encodeURIComponent(example.address)}/`, import.meta.url);
    if (flip.length) page.searchParams.set("flip", flip.join("."));
    return { example, flip, topology: readTopology(example, { flip }), layout, units: example.units, equations: example.equations, base: page.href };
  };
  const turn = (current) => {
    flip = turnCurrent(flip, current);
    for (const arrow of document.querySelectorAll("body > main .arrow")) arrow.classList.toggle("turned", flip.includes(arrow.dataset.current));
    for (const tell of heard) tell();
  };
  const listen = (tell, signal) => {
    heard.add(tell);
    signal.addEventListener("abort", () => heard.delete(tell));
  };
  return { isLesson: true, place, turn, listen };
}

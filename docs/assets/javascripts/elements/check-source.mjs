/** Where a check has its circuit from: data of its own in a lesson, or the example of the page it stands on. */

import { asChosen } from "../laws/as-chosen.mjs";
import { readTopology } from "../laws/circuit.mjs";
import { findExample } from "./page-state.mjs";

/**
 * @typedef {import("../page/checking.mjs").Place & {layout: object | null}} Place
 * @typedef {{isLesson: boolean, place: () => Place, turn: (current: string) => void, listen: (tell: () => void, signal: AbortSignal) => void}} Source
 *   turn: turn the arrow of a current round; listen: be told when arrows, loops or values changed
 */

/**
 * @param {Element} element a check
 * @returns {Promise<Source | null>} null where there is no circuit
 */
export async function findSource(element) {
  const own = element.querySelector("script.circuit-data");
  if (own) return makeLessonSource(element, JSON.parse(own.textContent));
  const live = await findExample(element);
  return live ? makePageSource(live) : null;
}

function makePageSource(live) {
  let known = {};
  const place = () => {
    const { worked, state } = live;
    const { topology, layout, units, written, isOwnSet } = worked;
    const isPrinted = isOwnSet || !(state.leaveOut || state.walk.length);
    if (known.worked !== worked) known = { worked, place: { example: isPrinted ? worked.example : asChosen(worked), flip: state.flip, topology, layout, units, equations: written.equations, base: "" } };
    return known.place;
  };
  return {
    isLesson: false,
    place,
    turn: (current) => live.change({ flip: turned(live.state.flip, current) }),
    listen: (tell, signal) => live.addEventListener("example-change", ({ detail }) => detail.worked !== known.worked && tell(), { signal }),
  };
}

/** In a lesson arrows are as the lesson says, `flip="I1.I3"`, until the reader turns them there. */
function makeLessonSource(element, example) {
  const layout = JSON.parse(element.querySelector("script.figure-data")?.textContent ?? "null");
  const heard = new Set();
  let flip = (element.getAttribute("flip") ?? "").split(".").filter((name) => example.unknowns.includes(name));
  const place = () => {
    const page = new URL(`../../../../examples/${encodeURIComponent(example.address)}/`, import.meta.url);
    if (flip.length) page.searchParams.set("flip", flip.join("."));
    return { example, flip, topology: readTopology(example, { flip }), layout, units: example.units, equations: example.equations, base: page.href };
  };
  const turn = (current) => {
    flip = turned(flip, current);
    for (const tell of heard) tell();
  };
  const listen = (tell, signal) => {
    heard.add(tell);
    signal.addEventListener("abort", () => heard.delete(tell));
  };
  return { isLesson: true, place, turn, listen };
}

const turned = (flip, current) => (flip.includes(current) ? flip.filter((name) => name !== current) : [...flip, current]);

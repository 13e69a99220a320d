/**
 * What is lit in the figure and marked in the text of a page. The step that is read has a light of its own; what the
 * reader taps is lit instead of it for as long as it lasts.
 */

import { stepEnd, stepStart } from "../laws/circuit.mjs";
import { showLit } from "./clear-view.mjs";

const lights = new WeakMap();
const kinds = ["part", "current", "junction", "loop", "point"];

/**
 * @typedef {{part?: string[], current?: string[], junction?: string[], loop?: string[], point?: string[],
 *   steps?: import("../laws/circuit.mjs").Step[], marks?: Element[]}} Light
 *   names in the figure by what they name; the steps of a loop, for the plain lines on its way; elements of the text
 */

/**
 * Light something, or nothing any more.
 * @param {Element} article
 * @param {"step" | "tap"} source
 * @param {Light | null} light
 */
export function setLight(article, source, light) {
  lights.set(article, { ...lights.get(article), [source]: light });
  showLight(article);
}

/** Show again what is lit, for instance after a section was written anew. */
export function showLight(article) {
  const { step, tap } = lights.get(article) ?? {};
  const light = tap ?? step ?? {};
  const named = kinds.flatMap((kind) => (light[kind] ?? []).map((name) => `[data-${kind}="${CSS.escape(name)}"]`));
  const lit = new Set([...(light.marks ?? []), ...linesOn(article, light.steps ?? []), ...(named.length ? article.querySelectorAll(`.figure-frame svg :is(${named.join()})`) : [])]);
  for (const old of article.querySelectorAll(".lit")) if (!lit.has(old)) old.classList.remove("lit");
  for (const element of lit) element.classList.add("lit");
  showLit(article);
}

/** The plain lines on the way round a loop, where its parts do not meet at one point of the drawing. */
function linesOn(article, steps) {
  const lines = [...article.querySelectorAll(".figure-frame svg .joined")];
  return steps.flatMap((step, at) => findWay(lines, stepEnd(step), stepStart(steps[(at + 1) % steps.length])));
}

/** The fewest lines that lead from one point to another. */
function findWay(lines, from, goal) {
  const ways = new Map([[from, []]]);
  for (const [here, way] of ways) {
    for (const line of lines) {
      const { point, to } = line.dataset;
      const there = { [point]: to, [to]: point }[here];
      if (there && !ways.has(there)) ways.set(there, [...way, line]);
    }
  }
  return ways.get(goal) ?? [];
}

/** The points that plain lines make part of a junction, and the junction itself. */
export function pointsOf(junction, node) {
  return Object.keys(node).filter((point) => node[point] === junction);
}

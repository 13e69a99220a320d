/**
 * What is lit in the figure and marked in the text of a page. The step that is read has a light of its own; what the
 * reader taps is lit instead of it for as long as it lasts.
 */

import { showLit } from "./clear-view.mjs";
import { linesOn } from "./plain-lines.mjs";

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

/** The points that plain lines make part of a junction, and the junction itself. */
export function pointsOf(junction, node) {
  return Object.keys(node).filter((point) => node[point] === junction);
}

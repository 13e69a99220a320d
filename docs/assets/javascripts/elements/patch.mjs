/** A section is written anew only where it differs, so that the rest of it keeps its place, its focus and its layout. */

import { build } from "./build.mjs";
import { markChanges } from "./changes.mjs";

/** @typedef {import("../page/saying.mjs").Tree} Tree */

/** Elements that only hold others; everything else is written as a whole. */
const HOLDERS = new Set(["div", "section", "ul", "ol", "table", "tbody", "tr"]);

/**
 * Make an element that shows the older tree show the newer one, with what changed marked.
 * @param {Element} element
 * @param {Tree} older
 * @param {Tree} newer
 * @returns {boolean} whether anything differs
 */
export function patch(element, older, newer) {
  if (isSame(older, newer)) return false;
  const before = older.slice(2);
  const after = newer.slice(2);
  const places = [...element.children];
  if (isHolder(older, newer) && places.length === after.length) places.forEach((place, at) => patch(place, before[at], after[at]));
  else if (element.matches("[data-section]")) element.replaceChildren(...build(markChanges(older, newer)).childNodes);
  else if (element.querySelector(":scope > .live-button")) renew(element, build(markChanges(older, newer)));
  else element.replaceWith(build(markChanges(older, newer)));
  return true;
}

/** Give an element the content of a newer one; a button that was put into it stays, and so does the focus on it. */
function renew(element, newer) {
  for (const node of [...element.childNodes]) if (!node.matches?.(".live-button")) node.remove();
  element.prepend(...newer.childNodes);
  for (const { name, value } of newer.attributes) element.setAttribute(name, value);
}

/** Whether two trees are one and the same. */
export function isSame(one, other) {
  if (one === other) return true;
  if (typeof one === "string" || typeof other === "string" || one.length !== other.length) return false;
  return one[0] === other[0] && sameAttributes(one[1], other[1]) && one.slice(2).every((child, at) => isSame(child, other[at + 2]));
}

function sameAttributes(one, other) {
  const names = Object.keys(one);
  return names.length === Object.keys(other).length && names.every((name) => one[name] === other[name]);
}

/** Whether both hold the same elements, so that each can be looked at by itself. A walk goes with the buttons in its rows. */
function isHolder(older, newer) {
  if (!HOLDERS.has(newer[0]) || newer[1].class === "walk" || older.length !== newer.length || !hasSameHead(older, newer)) return false;
  return newer.every((child, at) => at < 2 || (Array.isArray(child) && Array.isArray(older[at]) && hasSameHead(older[at], child)));
}

const hasSameHead = (one, other) => one[0] === other[0] && sameAttributes(one[1], other[1]);

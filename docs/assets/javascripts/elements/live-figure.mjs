/** The figure follows what the reader chose: arrows turn, and rings stand only where their loop is in the set. */

import { nameRuns } from "../page/prose.mjs";
import { placeRings, turnedBranches } from "../page/rings.mjs";
import { findNearArrow } from "./figure-viewer.mjs";

/**
 * Draw the assumed directions of a topology.
 * @param {import("./live-example.mjs").LiveExample} example
 */
export function drawArrows({ article, worked: { topology }, own }) {
  const turned = turnedBranches(topology, own).map((branch) => branch.current);
  for (const arrow of article.querySelector(".figure-frame svg")?.querySelectorAll(".arrow") ?? []) setTurned(arrow, turned.includes(arrow.dataset.current));
}

/** Draw its loops. @param {import("./live-example.mjs").LiveExample} example */
export function drawLoops({ article, worked: { topology, layout }, own }) {
  const groups = [...article.querySelectorAll(".figure-frame svg .loop")];
  if (!groups.length) return;
  const rings = placeRings(topology, own, layout, new Map(groups.map((group) => [(group.dataset.printed ??= group.dataset.loop), spotOf(group)])));
  for (const group of groups) drawRing(group, rings.get(group.dataset.printed));
}

function setTurned(group, isTurned) {
  group.classList.toggle("turned", isTurned);
}

/** Where a ring stands. */
const spotOf = (group) => group.firstElementChild.getAttribute("transform").match(/-?[\d.]+/g).slice(0, 2).map(Number);

/** A ring takes the name and the way round of the loop it marks; dashed where it was drawn for another one. */
function drawRing(group, ring) {
  group.classList.toggle("not-chosen", !ring);
  group.classList.toggle("lent", ring ? !ring.isOwn : false);
  if (!ring) return delete group.dataset.loop;
  setTurned(group, ring.isTurned);
  const { name } = ring.loop;
  group.dataset.loop = name;
  const runs = nameRuns(name);
  const places = [...group.querySelectorAll("tspan")];
  places.forEach((place, at) => (place.textContent = place === places.at(-1) ? runs.slice(at).join("") : runs[at]));
}

/**
 * The current whose arrow a tap means; null for none.
 * @param {MouseEvent} event
 */
export function findTappedArrow(event) {
  const named = event.target.closest(".arrow");
  if (named) return named.dataset.current;
  const { target, currentTarget: frame, clientX: x, clientY: y } = event;
  if (target.closest(".label, .loop") || isOnBody(target, x, y)) return null;
  return findNearArrow(frame, x, y);
}

/** Whether a spot lies on the symbol of a part, between its lines too. */
function isOnBody(target, x, y) {
  const body = target.closest(".part")?.querySelector(".body");
  return Boolean(body && (target.closest(".body") || !farFrom(body.getBoundingClientRect(), x, y)));
}

/**
 * The part that a tap means while a loop is walked: the one under it, else the nearest of the branch whose arrow it meets.
 * @param {MouseEvent} event
 * @param {import("../laws/circuit.mjs").Topology} topology
 * @returns {string | undefined}
 */
export function findTappedPart(event, topology) {
  const { clientX: x, clientY: y, currentTarget: frame } = event;
  const under = [event.target, ...document.elementsFromPoint(x, y)].map((element) => element.closest("[data-part]")).find((part) => frame.contains(part));
  if (under) return under.dataset.part;
  const current = findTappedArrow(event);
  const names = topology.branches.find((branch) => branch.current === current)?.steps.map((step) => step.part.name) ?? [];
  const far = (name) => Math.min(...[...frame.querySelectorAll(`[data-part="${CSS.escape(name)}"]`)].map((part) => farFrom(part.getBoundingClientRect(), x, y)));
  return names.toSorted((one, other) => far(one) - far(other))[0];
}

const farFrom = ({ left, right, top, bottom }, x, y) => Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom));

/** The figure follows what the reader chose: arrows turn, and rings stand only where their loop is in the set. */

import { memberKey } from "../laws/loop.mjs";
import { nameRuns } from "../page/prose.mjs";

/** How far from the middle of an arrow a tap still means it [CSS px]. */
const REACH = 24;

/**
 * Draw the assumed directions and the loops of a topology.
 * @param {Element} article
 * @param {import("../laws/circuit.mjs").Topology} topology as chosen
 * @param {import("../laws/circuit.mjs").Topology} own as printed
 */
export function drawChoices(article, topology, own) {
  const figure = article.querySelector(".figure-frame svg");
  if (!figure) return;
  const turned = topology.branches.filter((branch, at) => branch.steps[0] !== undefined && isTurned(branch.steps, own.branches[at].steps)).map((branch) => branch.current);
  for (const arrow of figure.querySelectorAll(".arrow")) setTurned(arrow, turned.includes(arrow.dataset.current));
  for (const ring of figure.querySelectorAll(".loop")) drawRing(ring, topology, own);
}

function setTurned(group, isTurned) {
  group.classList.toggle("turned", isTurned);
}

/** Whether one walk passes its parts the other way than another through the same parts. */
function isTurned(walk, other) {
  const [first] = other;
  return walk.find((step) => step.part.name === first.part.name).forward !== first.forward;
}

/** A ring takes the name and the way round of the chosen loop through its parts; there is none, then it is not drawn. */
function drawRing(ring, topology, own) {
  ring.dataset.printed ??= ring.dataset.loop;
  const printed = own.loops.find((loop) => loop.name === ring.dataset.printed);
  const key = memberKey(printed.steps, own.branches);
  const chosen = topology.loops.find((loop) => memberKey(loop.steps, own.branches) === key);
  ring.classList.toggle("not-chosen", !chosen);
  if (!chosen) return;
  setTurned(ring, isTurned(chosen.steps, printed.steps));
  ring.dataset.loop = chosen.name;
  const runs = nameRuns(chosen.name);
  ring.querySelectorAll("tspan").forEach((place, at) => (place.textContent = runs[at] ?? ""));
}

/**
 * The current whose arrow a tap means; null for none.
 * @param {MouseEvent} event
 */
export function findTappedArrow(event) {
  const named = event.target.closest(".arrow");
  if (named) return named.dataset.current;
  if (event.target.closest(".label, .body, .loop")) return null;
  const arrows = [...event.currentTarget.querySelectorAll(".arrow")].map((arrow) => {
    const { left, top, width, height } = arrow.querySelector(".head").getBoundingClientRect();
    return { current: arrow.dataset.current, far: Math.hypot(event.clientX - left - width / 2, event.clientY - top - height / 2) };
  });
  const nearest = arrows.sort((one, other) => one.far - other.far)[0];
  return nearest && nearest.far <= REACH ? nearest.current : null;
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

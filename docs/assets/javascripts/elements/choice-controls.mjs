/** What stands beside each direction and each junction to choose otherwise, and the arrows of the figure. */

import { turnCurrent } from "../laws/circuit.mjs";
import { setName, setText } from "../page/prose.mjs";
import { say, tell } from "../page/saying.mjs";
import { wayInWords } from "../page/words.mjs";
import { build } from "./build.mjs";
import { bringIntoRoom } from "./clear-view.mjs";
import { isSeen } from "./hold-still.mjs";
import { findTappedArrow } from "./live-figure.mjs";

/**
 * Put the controls in their places, now and whenever a section is written anew.
 * @param {import("./live-example.mjs").LiveExample} example
 * @param {AbortSignal} signal
 */
export function attachControls(example, signal) {
  const { article } = example;
  const listen = (target, kind, action, options = {}) => target.addEventListener(kind, action, { ...options, signal });
  addControls(example);
  listen(example, "example-change", () => addControls(example));
  listen(article, "click", (event) => onButton(event.target.closest("[data-turn], [data-leave-out], [data-do=again]"), example));
  const frame = article.querySelector(".figure-frame");
  if (frame) listen(frame, "click", (event) => onFigure(event, example), { capture: true });
}

/** Put a button to each direction and each junction that has none. */
function addControls({ article, worked: { topology } }) {
  for (const row of article.querySelectorAll(".directions tr[data-current]:not(.can-choose)")) {
    const { current } = row.dataset;
    row.classList.add("can-choose");
    row.lastElementChild.append(makeButton({ "data-turn": current, "data-focus": `turn ${current}` }, tell("live.turn", { name: setText(current, topology) })));
  }
  for (const item of article.querySelectorAll(".rule-list li[data-junction]:not(.left-out, .can-choose)")) {
    const { junction } = item.dataset;
    item.classList.add("can-choose");
    item.append(makeButton({ "data-leave-out": junction, "data-focus": `leave out ${junction}` }, tell("live.leave_out")));
  }
}

/** A quiet button in a line of its own. Its label is one element, so that no space between its words is lost. */
export function makeButton(attributes, label) {
  return build(["button", { type: "button", class: "live-button", ...attributes }, ["span", {}, ...label]]);
}

function onButton(button, example) {
  if (button?.dataset.turn) turnRound(button.dataset.turn, example);
  else if (button?.dataset.leaveOut) leaveOut(button.dataset.leaveOut, example);
  else if (button?.hidden) example.querySelector("[data-do=copy]").focus({ preventScroll: true }); // It has done all that it can.
}

/** A tap near an arrow turns it, and then means nothing else; while a loop is walked by taps, arrows stand. */
function onFigure(event, example) {
  if (example.article.querySelector("loop-chooser")?.walking) return;
  const current = findTappedArrow(event);
  if (!current) return;
  event.stopPropagation();
  turnRound(current, example, true);
}

function turnRound(current, example, inFigure = false) {
  example.change({ flip: turnCurrent(example.state.flip, current) }, (worked) => tellTurned(current, worked), inFigure);
}

/** The one sentence about an arrow that was turned. */
export function tellTurned(current, { topology, layout, solution }) {
  const branch = topology.branches.find((each) => each.current === current);
  const answer = !solution ? "" : say(solution.currents.get(current).isZero ? "live.zero_stays" : "live.sign_changes");
  return tell("live.turned", { name: setText(current, topology), way: setText(wayInWords(branch, layout), topology), answer });
}

function leaveOut(junction, example) {
  example.change({ leaveOut: junction }, tell("live.left_out", { name: setName(junction, "point") }));
  // The equation that came in its place may have been pushed below what is pinned.
  const first = example.article.querySelector("li[data-junction].changed");
  if (first && isSeen(first)) bringIntoRoom(first);
}

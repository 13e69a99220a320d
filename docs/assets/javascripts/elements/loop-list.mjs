/** The panel for choosing loops, as trees: what the set is worth, its loops, the other loops, and a walk of one's own. */

import { walkOf } from "../laws/choices.mjs";
import { stepStart } from "../laws/circuit.mjs";
import { memberKey } from "../laws/loop.mjs";
import { setName, setText } from "../page/prose.mjs";
import { listed, speaking } from "../page/telling.mjs";
import { sumText } from "../page/setup.mjs";
import { loopWords } from "../page/words.mjs";
import sentences from "../choose-sentences.mjs";

const { say, tell } = speaking(sentences);

/**
 * @typedef {import("../page/saying.mjs").Tree} Tree
 * @typedef {import("../laws/meaning.mjs").Worked} Worked
 */

/** What the chosen loops are worth, in sentences. @param {Worked} worked @returns {Tree[][]} */
export function tellSet({ loopSet, topology }) {
  const { independent, missing, untouched, repeats } = loopSet;
  const whole = missing ? tell("choose.missing", { count: missing }) : independent === 1 ? tell("choose.enough_one") : tell("choose.enough", { independent });
  const repeated = repeats.map(({ name, sum }) => tell("choose.repeats", { name: setText(name, topology), sum: setText(sumText(sum), topology) }));
  const open = missing && untouched.length ? [tell("choose.untouched", { currents: setText(listed(untouched), topology) })] : [];
  return [whole, ...repeated, ...open];
}

/** @param {Worked} worked @returns {Tree[]} */
export function viewSet(worked) {
  const { topology, all } = worked;
  const chosen = topology.loops.map((loop) => memberKey(loop.steps, topology.branches));
  const others = all.filter((loop) => !chosen.includes(memberKey(loop.steps, topology.branches)));
  return [
    ["div", { class: "set-worth" }, ...tellSet(worked).map((sentence) => ["p", {}, ...sentence])],
    ["h4", {}, say("choose.in_set")],
    ["ul", { class: "loop-list" }, ...topology.loops.map((loop) => viewChosen(loop, worked))],
    ["h4", {}, say("choose.others")],
    others.length ? ["ul", { class: "loop-list" }, ...others.map((loop) => viewOther(loop, worked))] : ["p", {}, say("choose.no_others")],
  ];
}

function viewChosen(loop, { topology, layout, loopSet }) {
  const { name, steps } = loop;
  const key = memberKey(steps, topology.branches);
  const next = steps.length > 1 ? stepStart(steps[1]) : "";
  const isLast = topology.loops.length === 1;
  const saysNothing = loopSet.repeats.some((each) => each.name === name);
  return [
    "li",
    { "data-choice": name },
    ["p", {}, ["strong", {}, ...setText(name, topology)], ": ", ...setText(loopWords(loop, layout), topology), "."],
    ...(saysNothing ? [["p", { class: "note" }, say("choose.nothing_new")]] : []),
    buttons(
      ["turn", `turn ${key}`, say("choose.turn")],
      next && ["start", `start ${key}`, ...tell("choose.start", { point: setName(next, "point") })],
      ["show", `show ${key}`, say("choose.show")],
      isLast ? null : ["out", `loop ${key}`, say("choose.take_out")],
    ),
    ...(isLast ? [["p", { class: "note" }, say("choose.last")]] : []),
  ];
}

function viewOther(loop, { topology, layout, loopSet }) {
  const { start, through } = walkOf(loop);
  const isNew = loopSet.helpful.includes(loop);
  const note = ["p", { class: isNew ? "note new" : "note" }, say(isNew ? "choose.new" : "choose.old")];
  const key = memberKey(loop.steps, topology.branches);
  return ["li", { "data-walk": [start, ...through].join(".") }, ["p", {}, ...setText(loopWords(loop, layout), topology), "."], note, buttons(["in", `loop ${key}`, say("choose.take_in")])];
}

/**
 * A walk of the reader's own, as far as it goes.
 * @param {import("../laws/walking.mjs").Walking} walking
 * @param {import("../laws/circuit.mjs").Topology} topology
 * @returns {Tree[]}
 */
export function viewWalking(walking, topology) {
  const { through, isClosed, next } = walking;
  const parts = next.map((part) => ["next", `next ${part}`, ...setText(part, topology)]);
  const undo = through.length ? ["back", "walk back", say("choose.back")] : null;
  return [
    ["p", {}, say("choose.how")],
    ["p", { class: "walk-so-far" }, ...tellWalking(walking, topology)],
    ["p", { class: "next-parts" }, ...buttons(...parts).slice(2)],
    buttons(isClosed ? ["done", "walk done", say("choose.take_in")] : null, undo, ["leave", "walk leave", say("choose.leave")]),
  ];
}

/** One sentence on where the walk stands. */
export function tellWalking({ start, through, here, isClosed, next }, topology) {
  if (!through.length) return tell("choose.first");
  const parts = setText(through.join(", "), topology);
  if (!here) return tell("choose.which_way", { parts });
  const key = isClosed ? "closed" : next.length ? "so_far" : "stuck";
  return tell(`choose.${key}`, { start: setName(start, "point"), parts, here: setName(here, "point") });
}

/** A line of buttons: what each does, how the focus finds it again, and its label. */
function buttons(...list) {
  const made = list.filter(Boolean).map(([what, focus, ...label]) => {
    const part = what === "next" ? { "data-part-name": focus.slice(5) } : {};
    return ["button", { type: "button", class: "live-button", "data-choose": what, "data-focus": focus, ...part }, ...label];
  });
  return ["p", { class: "live-tools" }, ...made];
}

/** The figure in words follows what the reader chose: arrows that are turned, and the loops of the set. */

import { say } from "../page/saying.mjs";
import { setText } from "../page/prose.mjs";
import { turnedBranches } from "../page/rings.mjs";
import { loopWords, wayInWords } from "../page/words.mjs";
import { build } from "./build.mjs";

/**
 * Say what is chosen in place of what is printed; a current as printed keeps its own sentence, which has the values too.
 * @param {import("./live-example.mjs").LiveExample} example
 */
export function writeWords({ article, worked: { topology, layout }, own }) {
  const words = article.querySelector(".in-words");
  if (!words) return;
  for (const old of words.querySelectorAll(".as-chosen")) old.remove();
  const turned = turnedBranches(topology, own);
  const printed = [...words.querySelectorAll("p")];
  for (const place of printed) {
    const branch = turned.find(({ current }) => nameIn(place).current === current);
    if (branch) place.after(write(say("words.current", { name: branch.current, way: wayInWords(branch, layout) }), topology));
    place.hidden = Boolean(branch || nameIn(place).loop);
  }
  for (const loop of topology.loops) {
    const said = say("words.loop", { name: loop.name, way: loopWords(loop, layout) });
    const same = printed.find((place) => place.textContent === said);
    if (same) same.hidden = false;
    else words.append(write(said, topology));
  }
}

const write = (said, topology) => build(["p", { class: "as-chosen" }, ...setText(said, topology)]);

/** What a sentence is about: the first name in it. */
const nameIn = (place) => place.querySelector(".name")?.dataset ?? {};

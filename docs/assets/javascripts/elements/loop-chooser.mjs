/** `<loop-chooser>`: a panel below the loops in which a reader chooses the set, or walks a loop of their own. */

import { parseWalk, walkOf } from "../laws/choices.mjs";
import { stepStart } from "../laws/circuit.mjs";
import { findSame } from "../laws/loop-sources.mjs";
import { isWalk, joinsOn, standOf, stepsOf } from "../laws/walking.mjs";
import { setName, setText } from "../page/prose.mjs";
import { speaking } from "../page/telling.mjs";
import sentences from "../choose-sentences.mjs";
import { build } from "./build.mjs";
import { bringIntoRoom } from "./clear-view.mjs";
import { setLight } from "./light.mjs";
import { findTappedPart } from "./live-figure.mjs";
import { tellSet, tellTakenIn, tellWalking, viewSet, viewWalking } from "./loop-list.mjs";
import { findExample } from "./page-state.mjs";
import { keepTyped, keptOf } from "./typed.mjs";

const { say, tell } = speaking(sentences);

const make = (trees) => trees.map((tree) => build(tree));

export class LoopChooser extends (globalThis.HTMLElement ?? Object) {
  #abort;

  async connectedCallback() {
    this.#abort = new AbortController();
    const { signal } = this.#abort;
    this.panel = this.querySelector("details");
    this.example = await findExample(this);
    if (signal.aborted || !this.example || !this.panel) return;
    this.set = document.createElement("div");
    this.walk = document.createElement("div");
    this.walk.className = "own-walk";
    this.panel.append(this.set, this.walk);
    this.panel.addEventListener("toggle", () => this.#onToggle(), { signal });
    addEventListener("popstate", () => this.#keep(), { signal });
    this.#openAgain();
    if (this.panel.open) this.show();
    this.addEventListener("click", (event) => this.#onClick(event.target.closest("[data-choose]")), { signal });
    this.closest("article").addEventListener("example-change", () => this.panel.open && this.show(), { signal });
    this.closest("article").querySelector(".figure-frame")?.addEventListener("click", (event) => this.#onFigure(event), { signal, capture: true });
  }

  disconnectedCallback() {
    this.#abort?.abort();
    if (this.walking) this.#endWalk();
    this.set?.remove();
    this.walk?.remove();
  }

  /** The parts of the reader's own walk; null while there is none. */
  walking = null;

  /** After a reload the panel is open as it was, and a walk stands where it stood. */
  #openAgain() {
    const kept = keptOf(this.localName);
    if (!kept) return;
    this.panel.open = true;
    if (!kept.walking || !isWalk(kept.walking, this.topology)) return;
    this.walking = kept.walking;
    this.#light(this.walking);
  }

  #keep() {
    keepTyped(this.localName, this.panel.open ? { walking: this.walking } : null);
  }

  get topology() {
    return this.example.worked.topology;
  }

  /** Show the set as it is chosen, and the walk as far as it goes. */
  show() {
    const lent = [...this.closest("article").querySelectorAll(".figure-frame .loop.lent")].map((ring) => ring.dataset.loop);
    this.set.replaceChildren(...make(viewSet(this.example.worked, lent)));
    this.#showWalk();
    this.#showSaid();
  }

  /** What came of a choice, where it was made; until something else is chosen. */
  #said = null;

  #say(trees, { dataset: { focus } }) {
    this.#said = { trees, focus, state: this.example.state };
    this.#showSaid();
    bringIntoRoom(this.querySelector(".chooser-says"));
    return trees;
  }

  #showSaid() {
    this.querySelector(".chooser-says")?.remove();
    const { trees, focus, state } = this.#said ?? {};
    if (state !== this.example.state) return;
    const place = this.querySelector(`[data-focus="${CSS.escape(focus)}"]`)?.closest("li, .own-walk") ?? this.set.firstChild;
    place.append(build(["p", { class: "chooser-says" }, ...trees]));
  }

  #showWalk(before = []) {
    const begin = ["p", { class: "live-tools" }, ["button", { type: "button", class: "live-button", "data-choose": "walk", "data-focus": "walk" }, say("choose.walk")]];
    const stand = this.walking && standOf(this.walking, this.topology);
    const told = stand && [...before, ...tellWalking(stand, this.topology)];
    this.walk.replaceChildren(...make(stand ? viewWalking(stand, this.topology, told) : [begin]));
    return told;
  }

  #onToggle() {
    if (this.panel.open) this.show();
    else this.#leave();
    this.#keep();
  }

  #onClick(button) {
    if (!button) return;
    const actions = { turn: this.#turn, start: this.#start, out: this.#takeOut, in: this.#takeIn, show: this.#show, walk: this.#begin, next: this.#next, back: this.#back, done: this.#done, leave: this.#leaveWalk };
    actions[button.dataset.choose].call(this, button);
  }

  /** Where the loop of a button stands in the set. */
  #placeOf(button) {
    const { choice } = button.closest("li").dataset;
    return this.topology.loops.findIndex((loop) => loop.name === choice);
  }

  /** Choose these loops; what is said about it stands where it was chosen, too. */
  #choose(walk, said, button) {
    this.example.change({ walk }, (worked) => this.#say(said(worked), button));
  }

  #put(at, walk, said, button) {
    this.#choose(this.topology.loops.map(walkOf).with(at, walk), () => said, button);
  }

  #turn(button) {
    const at = this.#placeOf(button);
    const { start, through } = walkOf(this.topology.loops[at]);
    this.#put(at, { start, through: through.toReversed() }, tell("choose.turned", { name: this.#nameOf(at) }), button);
  }

  #start(button) {
    const at = this.#placeOf(button);
    const { through } = walkOf(this.topology.loops[at]);
    const start = stepStart(this.topology.loops[at].steps[1]);
    this.#put(at, { start, through: [...through.slice(1), through[0]] }, tell("choose.started", { name: this.#nameOf(at), point: setName(start, "point") }), button);
  }

  #show(button) {
    const { choice, other } = button.closest("li").dataset;
    this.closest("article").querySelector("lit-terms")?.lightLoop(choice ?? other, button);
  }

  #takeOut(button) {
    const at = this.#placeOf(button);
    const name = this.#nameOf(at);
    this.#choose(this.topology.loops.map(walkOf).toSpliced(at, 1), (worked) => [...tell("choose.taken_out", { name }), " ", ...tellSet(worked)[0]], button);
  }

  #takeIn(button) {
    this.#add(parseWalk(button.closest("li").dataset.walk), button);
  }

  /** Take a loop in; walked the other way, one of the set takes its way. */
  #add(walk, button) {
    const { at, isTurned } = findSame(walk, this.topology);
    const name = at < 0 ? "" : this.#nameOf(at);
    if (isTurned) this.#put(at, walk, tell("choose.turned", { name }), button);
    else if (name) this.example.announce(this.#say(tell("choose.was_in", { name }), button));
    else this.#choose([...this.topology.loops.map(walkOf), walk], (worked) => tellTakenIn(worked, worked.topology.loops.at(-1).name), button);
  }

  #nameOf(at) {
    return setText(this.topology.loops[at].name, this.topology);
  }

  /** Begin a walk, with the figure in sight. */
  #begin() {
    const pin = this.closest("article").querySelector("figure-pin");
    this.pinned = pin && !pin.isPinned && !pin.isInSight ? pin : null;
    this.closest("article").querySelector("lit-terms")?.end(); // What was tapped would outshine the walk.
    this.#walkOn([]);
    this.pinned?.pin(true);
    bringIntoRoom(this.walk); // What to do stands above what has the focus.
  }

  #next(button) {
    this.#walkOn([...this.walking, button.dataset.partName]);
  }

  #back() {
    this.#walkOn(this.walking.slice(0, -1));
  }

  #done() {
    const { start, through } = standOf(this.walking, this.topology);
    this.#leaveWalk();
    this.#add({ start, through }, this.querySelector("[data-choose=walk]"));
  }

  #leaveWalk() {
    this.#leave();
    this.#showWalk();
    this.querySelector("[data-choose=walk]").focus({ preventScroll: true });
  }

  #leave() {
    if (!this.walking) return;
    this.#endWalk();
    this.#keep();
  }

  #endWalk() {
    this.walking = null;
    setLight(this.closest("article") ?? this.example.article, "tap", null);
    this.pinned?.pin(false);
    this.pinned = null;
  }

  /** The walk with these parts; what to do next has the focus, and is said. */
  #walkOn(parts, before) {
    const hadFocus = this.contains(document.activeElement);
    this.walking = parts;
    this.#said = null;
    const told = this.#showWalk(before);
    this.#keep();
    const stand = this.#light(parts);
    if (hadFocus) this.walk.querySelector(stand.isClosed ? "[data-choose=done]" : "[data-choose=next], [data-choose=back]").focus({ preventScroll: true });
    this.example.announce(told);
  }

  /** Light a walk in the figure, with the plain lines on its way; gives where it stands. */
  #light(parts) {
    const stand = standOf(parts, this.topology);
    setLight(this.closest("article"), "tap", { part: parts, steps: stepsOf(stand, this.topology) });
    return stand;
  }

  /** While a walk goes on, a tap on a part of the figure is its next part, and nothing else. */
  #onFigure(event) {
    if (!this.walking) return;
    event.stopImmediatePropagation();
    const name = findTappedPart(event, this.topology);
    if (!name) return;
    const stand = standOf(this.walking, this.topology);
    if (stand.next.includes(name)) this.#walkOn([...this.walking, name]);
    else if (this.walking.at(-1) === name) this.#back();
    else this.#walkOn(this.walking, [...tell(this.#whyNot(name, stand), { part: setText(name, this.topology) }), " "]);
  }

  /** Why a part cannot be the next one. */
  #whyNot(name, stand) {
    if (!this.topology.branchOf.has(name)) return "choose.not_alive";
    return joinsOn(name, stand, this.topology) && !this.walking.includes(name) ? "choose.twice" : "choose.not_next";
  }
}

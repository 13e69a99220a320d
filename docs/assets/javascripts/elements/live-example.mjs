/**
 * `<live-example>`: the controller of a page. It holds what the reader chose, works the circuit out with it, writes the
 * address and puts changed sections in place of the old ones; then it tells the others, with `example-change`.
 */

import { readTopology } from "../laws/circuit.mjs";
import { workOut } from "../laws/meaning.mjs";
import { say } from "../page/saying.mjs";
import { SECTIONS, viewSection } from "../page/views.mjs";
import { build } from "./build.mjs";
import { attachControls } from "./choice-controls.mjs";
import { holdStill, isSeen } from "./hold-still.mjs";
import { drawChoices } from "./live-figure.mjs";
import { AS_PRINTED, CHOICES, differ, ENTRIES, readState, tidy, writeState } from "./page-state.mjs";
import { patch } from "./patch.mjs";

const SHOWN_FOR = 4000;

export class LiveExample extends (globalThis.HTMLElement ?? Object) {
  #abort;
  #trees = new Map();
  #timer;
  #rest = null;

  connectedCallback() {
    const record = document.getElementById("circuit");
    if (!record || this.#abort) return;
    this.#abort = new AbortController();
    const { signal } = this.#abort;
    this.article = this.closest("article") ?? document.body;
    this.printed = JSON.parse(record.textContent);
    this.layout = JSON.parse(document.getElementById("figure")?.textContent ?? "null");
    this.own = readTopology(this.printed);
    this.state = AS_PRINTED;
    this.worked = this.#work(AS_PRINTED);
    this.addEventListener("click", (event) => this.#onClick(event), { signal });
    attachControls(this, signal);
    addEventListener("popstate", () => this.#readAddress(), { signal });
    this.#readAddress();
  }

  disconnectedCallback() {
    this.#abort?.abort();
    this.#abort = undefined;
    clearTimeout(this.#timer);
    this.#trees.clear();
  }

  /** What `solve --json` prints, with the practice values where the reader took some. */
  get example() {
    return this.worked.example;
  }

  /**
   * Change what is chosen: the page, the figure and the address follow. The back button takes back choices and steps.
   * @param {Partial<import("./page-state.mjs").State>} patch
   * @param {string | import("../page/saying.mjs").Tree[]} [said] the one sentence about it; or a function that makes it afterwards
   */
  change(patch, said = "") {
    this.#finish();
    const before = this.state;
    const state = tidy({ ...before, ...patch }, this.own);
    if (!differ(before, state)) return;
    const isEntry = differ(before, state, ENTRIES);
    holdStill(this.article, () => this.#show(state, keepsShape(before, state)));
    const address = location.pathname + writeState(this.state, location.search) + location.hash;
    history[isEntry ? "pushState" : "replaceState"](history.state, "", address);
    this.announce(typeof said === "function" ? said(this.worked) : said);
  }

  /** Say one sentence, for the eye and for a screen reader. */
  announce(said) {
    if (!said?.length) return;
    const trees = typeof said === "string" ? [said] : said;
    this.querySelector("[role=status]").replaceChildren(...trees.map((tree) => build(tree)));
  }

  #readAddress() {
    this.#finish();
    const { state, notes } = readState(location.search, this.own, 0);
    const isNew = differ(this.state, state);
    this.#show(state);
    if (notes.length) this.announce(say(`note.${notes[0].kind}`, { value: notes[0].value }));
    else if (isNew) this.announce(say("live.as_address"));
  }

  /** The page for a state. What is out of sight may wait until what is in sight has been painted. */
  #show(state, mayWait = false) {
    const isChoice = differ(this.state, state, CHOICES);
    if (!isChoice && !differ(this.state, state)) return;
    this.state = state;
    this.querySelector("[data-do=again]").hidden = !differ(state, AS_PRINTED, CHOICES);
    if (!isChoice) return this.#tell([]);
    const before = this.worked;
    this.worked = this.#work(state);
    const places = [...this.article.querySelectorAll("[data-section]")].filter((place) => SECTIONS.includes(place.dataset.section));
    const seen = mayWait ? places.filter(isSeen) : places;
    this.#unmark();
    drawChoices(this.article, this.worked.topology, this.own);
    this.#write(seen, before);
    if (!mayWait) return;
    this.#rest = () => this.#write(places.filter((place) => !seen.includes(place)), before);
    requestAnimationFrame(() => setTimeout(() => this.#finish()));
  }

  /** Whether the whole page shows the state. */
  get isWritten() {
    return !this.#rest;
  }

  /** Write what waits. */
  #finish() {
    const rest = this.#rest;
    this.#rest = null;
    if (rest && this.#abort) holdStill(this.article, rest);
  }

  #write(places, before) {
    const changed = places.filter((place) => this.#writeSection(place, before));
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#unmark(), SHOWN_FOR);
    this.#tell(changed.map((place) => place.dataset.section));
  }

  #tell(changed) {
    this.dispatchEvent(new CustomEvent("example-change", { bubbles: true, detail: { worked: this.worked, state: this.state, changed } }));
  }

  /** Writes a section anew where it differs; says whether it does. */
  #writeSection(place, before) {
    const id = place.dataset.section;
    const older = this.#trees.get(id) ?? viewSection(id, before);
    const newer = viewSection(id, this.worked);
    this.#trees.set(id, newer);
    return patch(place, older, newer);
  }

  #unmark() {
    for (const element of this.article.querySelectorAll(".changed")) element.classList.remove("changed");
  }

  #work({ flip, leaveOut, walk }) {
    return workOut(this.printed, { flip, leaveOut, walk }, this.layout);
  }

  #onClick(event) {
    const control = event.target.closest("[data-do]");
    if (!control) return;
    event.preventDefault();
    if (control.dataset.do === "again") this.change({ ...AS_PRINTED, step: this.state.step, help: this.state.help }, say("live.again_done"));
    else this.#copy();
  }

  /** Copy the address; where the browser does not let us, show it in a field, selected. */
  async #copy() {
    try {
      await navigator.clipboard.writeText(location.href);
      this.announce(say("live.copied"));
    } catch {
      const field = this.querySelector("input");
      field.hidden = false;
      field.value = location.href;
      field.focus();
      field.select();
      this.announce(say("live.copy_by_hand"));
    }
  }
}

/** Whether only assumed directions differ: every row and every step is where it was, and no mode looks at all of them. */
const keepsShape = (before, state) => !state.step && !state.help && !differ(before, state, ["leaveOut", "walk", "set", "step", "help"]);

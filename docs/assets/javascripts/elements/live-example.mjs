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
import { bringIntoRoom } from "./clear-view.mjs";
import { writeWords } from "./figure-words.mjs";
import { glimpse } from "./glimpse.mjs";
import { offerToGoOn } from "./go-on.mjs";
import { holdFocus, holdStill, isSeen } from "./hold-still.mjs";
import { keepPlace } from "./keep-place.mjs";
import { drawArrows, drawLoops } from "./live-figure.mjs";
import { AS_PRINTED, CHOICES, differ, readState, SETS, tidy, writeState } from "./page-state.mjs";
import { Rewriting } from "./rewriting.mjs";

const SHOWN_FOR = 4000;
const whenIdle = globalThis.requestIdleCallback ?? ((action) => setTimeout(action, 50));

export class LiveExample extends (globalThis.HTMLElement ?? Object) {
  #abort;
  #trees = new Map();
  #timer;
  #glimpsed;
  #waiting = [];
  #practice;
  #sets = 0;
  /** The places of what depends on choices: they stay, whatever is written into them. */
  #sections = [];
  /** The set that the address asks for while its scripts are fetched. */
  #awaited = 0;

  connectedCallback() {
    const record = document.getElementById("circuit");
    if (!record || this.#abort) return;
    this.#abort = new AbortController();
    const { signal } = this.#abort;
    this.article = this.closest("article") ?? document.body;
    this.#sections = [...this.article.querySelectorAll("[data-section]")].filter((place) => SECTIONS.includes(place.dataset.section));
    this.printed = JSON.parse(record.textContent);
    this.layout = JSON.parse(document.getElementById("figure")?.textContent ?? "null");
    this.own = readTopology(this.printed);
    this.state = AS_PRINTED;
    this.worked = workOut(this.printed, AS_PRINTED, this.layout);
    this.addEventListener("click", (event) => this.#onClick(event), { signal });
    this.#sets = this.article.querySelector("[data-set]") ? SETS : 0;
    attachControls(this, signal);
    this.article.addEventListener("click", (event) => this.#onSet(event.target.closest("[data-set]")), { signal });
    addEventListener("popstate", () => this.#readAddress(), { signal });
    this.#readAddress(offerToGoOn(this, signal));
    keepPlace(this.article, signal);
    // By then everything has been laid out once, so what is out of sight can be passed over at its known size.
    requestAnimationFrame(() => setTimeout(() => this.article.classList.add("laid-out")));
    whenIdle(() => this.#prepare([...SECTIONS]));
  }

  disconnectedCallback() {
    this.#abort?.abort();
    this.#abort = this.#practice = undefined;
    this.#endShowing();
    this.#unmark();
    this.#waiting = [];
    this.#trees.clear();
  }

  /** What `solve --json` prints, with the practice values where the reader took some. */
  get example() {
    return this.worked.example;
  }

  /**
   * Change what is chosen: the page, the figure and the address follow, and the back button takes it back.
   * @param {Partial<import("./page-state.mjs").State>} patch
   * @param {string | import("../page/saying.mjs").Tree[]} [said] the one sentence about it; or a function that makes it afterwards
   * @param {boolean} [inFigure] whether a hand is on the figure: then the rows may follow it
   */
  change(patch, said = "", inFigure = false) {
    this.#finish();
    const before = this.state;
    const state = tidy({ ...before, ...patch }, this.own);
    if (!differ(before, state)) return;
    const announce = () => this.announce(typeof said === "function" ? said(this.worked) : said);
    const mayWait = keepsShape(before, state);
    if (!mayWait) this.#enter(state);
    // What comes of chosen loops is said where they are chosen; what comes of these, perhaps out of sight.
    const isSaidAfar = said && differ(before, state, ["flip", "leaveOut"]);
    this.#show(state, isSaidAfar ? () => (announce(), this.#glimpse()) : announce, mayWait, inFigure);
  }

  /**
   * Make a state an entry of the history. To browsers that is as much work as turning all arrows is. The section that the
   * address named is left: Back would lead there, far from what it takes back.
   */
  #enter(state) {
    if (location.hash) history.replaceState(history.state, "", location.pathname + location.search);
    history.pushState({ ...history.state, from: location.search }, "", this.#address(state));
  }

  #address(state) {
    return location.pathname + writeState({ ...state, set: state.set || this.#awaited }, location.search) + location.hash;
  }

  /** Take a choice back: by the entry before this one where that is the same, else in place of this one. */
  takeBack(patch) {
    const state = tidy({ ...this.state, ...patch }, this.own);
    const address = this.#address(state);
    if (location.pathname + history.state?.from + location.hash === address) return history.back();
    history.replaceState(history.state, "", address);
    this.#show(state, () => {});
  }

  /** Say one sentence, for the eye and for a screen reader. */
  announce(said) {
    if (!said?.length) return;
    this.#glimpsed?.remove();
    const trees = typeof said === "string" ? [said] : said;
    this.querySelector("[role=status]").replaceChildren(...trees.map((tree) => build(tree)));
  }

  /** What was said out of sight is to be seen for as long as the changes are marked. */
  #glimpse() {
    this.#glimpsed = glimpse(this.querySelector("[role=status]"));
  }

  /** @param {import("../page/saying.mjs").Tree[]} [offer] what is said besides */
  #readAddress(offer = []) {
    this.#finish();
    const { state, notes } = readState(location.search, this.own, this.#sets);
    this.#awaited = this.#practice ? 0 : state.set;
    if (this.#awaited) {
      state.set = 0;
      this.#fetchPractice(() => this.#readAddress());
    }
    const isOther = differ(this.state, state);
    const told = notes.length ? say(`note.${notes[0].kind}`, { value: notes[0].value }) : isOther ? say("live.as_address") : "";
    const announce = () => this.announce([told, told && offer.length ? " " : "", ...offer].filter(Boolean));
    if (isOther) this.#show(state, announce);
    else announce();
  }

  /**
   * The page for a state. Where only arrows turn, they are turned at once, with their rows where these were touched; what
   * else is in sight follows when that has been painted, and what is out of sight after it.
   */
  #show(state, announce, mayWait = false, inFigure = false) {
    const isChoice = differ(this.state, state, CHOICES);
    this.state = state;
    this.querySelector("[data-do=again]").hidden = !differ(state, AS_PRINTED, CHOICES);
    this.#waiting = isChoice ? this.#plan(announce, mayWait, inFigure) : [() => this.#tell([]), announce];
    if (mayWait) this.#goOn();
    else this.#finish();
  }

  /** What is to be done so that the whole page shows its state, in turn. */
  #plan(announce, mayWait, inFigure) {
    const older = this.worked;
    const { set } = this.state;
    this.worked = workOut(set ? this.#practice.take(set) : this.printed, this.state, this.layout);
    const rewriting = new Rewriting(this.#sections, this.#trees, older, this.worked);
    const write = (isChosen) => holdStill(this.article, () => {
      rewriting.write(isChosen);
      this.#tell(rewriting.takeChanged());
    });
    const turnRows = () => holdFocus(this.article, () => {
      this.#unmark(".changed", this.article.querySelector(".directions"));
      rewriting.write((place) => place.dataset.section === "directions");
    });
    const writeSeen = () => {
      this.#unmark(inFigure ? ".changed" : ".changed:not(.directions *)");
      write(isSeen);
    };
    const writeRest = () => {
      write();
      writeWords(this);
    };
    const enter = () => this.#enter(this.state);
    this.#endShowing();
    this.#timer = setTimeout(() => (this.#endShowing(), this.#unmark()), SHOWN_FOR);
    drawArrows(this);
    if (mayWait) return [inFigure ? () => {} : turnRows, enter, writeSeen, announce, writeRest];
    drawLoops(this);
    this.#unmark();
    return [writeRest, announce];
  }

  /** See what each section shows, one at a time: then the first tap need not wait for it. */
  #prepare([id, ...others]) {
    if (!this.#abort) return;
    if (this.isWritten && !this.#trees.has(id)) this.#trees.set(id, viewSection(id, this.worked));
    if (others.length) whenIdle(() => this.#prepare(others));
  }

  /** Whether the whole page shows the state. */
  get isWritten() {
    return !this.#waiting.length;
  }

  /** Do the next thing that waits, and what follows it after the next paint. */
  #goOn() {
    this.#waiting.shift()?.();
    if (this.#waiting.length) requestAnimationFrame(() => setTimeout(() => this.#goOn()));
  }

  /** Do all that waits. */
  #finish() {
    while (this.#waiting.length) this.#waiting.shift()();
  }

  #tell(changed) {
    this.dispatchEvent(new CustomEvent("example-change", { bubbles: true, detail: { worked: this.worked, state: this.state, changed } }));
  }

  /** What was said of the last change is no longer shown over the page. */
  #endShowing() {
    clearTimeout(this.#timer);
    this.#glimpsed?.remove();
  }

  /** Take the marks of the last change away: all, or those that a selector chooses. */
  #unmark(marked = ".changed", place = this.article) {
    for (const element of place.querySelectorAll(marked)) element.classList.remove("changed");
  }

  /** Practice values have scripts of their own, fetched when somebody asks for them. */
  async #fetchPractice(action) {
    const { signal } = this.#abort;
    try {
      const { PracticeValues } = await import("./practice-values.mjs");
      if (signal.aborted) return;
      this.#practice ??= new PracticeValues(this, signal);
      this.#sets = SETS;
    } catch {
      // Whatever else the address asks for is shown all the same.
      this.#sets = 0;
      this.#readAddress();
      return this.announce(say("practice.failed"));
    }
    action();
  }

  #onSet(button) {
    if (button) this.#fetchPractice(() => this.#practice.choose(button.dataset.set));
  }

  #onClick(event) {
    const control = event.target.closest("[data-do]");
    if (!control) return;
    event.preventDefault();
    if (control.dataset.do === "again") this.change({ ...AS_PRINTED, step: this.state.step, help: this.state.help }, say("live.again_done"));
    else this.#copy();
  }

  /**
   * Copy the address, without the section that was last led to: who copies it looks at the top of the page. Where the
   * browser does not let us, show it in a field, selected.
   */
  async #copy() {
    this.#finish();
    const address = location.href.replace(location.hash, "");
    try {
      await navigator.clipboard.writeText(address);
      this.announce(say("live.copied"));
      bringIntoRoom(this);
    } catch {
      const field = this.querySelector("input");
      field.hidden = false;
      field.value = address;
      field.focus();
      field.select();
      this.announce(say("live.copy_by_hand"));
      bringIntoRoom(this);
    }
  }
}

/** Whether only assumed directions differ: every row and every step is where it was, and no mode looks at all of them. */
const keepsShape = (before, state) => !state.step && !state.help && !differ(before, state, ["leaveOut", "walk", "set", "step", "help"]);

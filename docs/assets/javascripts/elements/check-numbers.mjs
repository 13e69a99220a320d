/** `<check-numbers>`: are my currents right, and which law do they break. */

import { askedCurrents } from "../laws/circuit.mjs";
import { setText } from "../page/prose.mjs";
import { listed, say } from "../page/check-saying.mjs";
import { wayInWords } from "../page/words.mjs";
import { build } from "./build.mjs";
import { CheckElement, viewTitle } from "./check-element.mjs";
import { viewName } from "./check-keys.mjs";

const field = { type: "text", inputmode: "text", enterkeyhint: "go", autocomplete: "off", autocapitalize: "off", autocorrect: "off", spellcheck: "false", maxlength: "60" };

export class CheckNumbers extends CheckElement {
  /** The current whose arrow was turned here. */
  #turned = "";
  /** The values for which the numbers were typed. */
  #parts;

  fetchLaws() {
    return import("../page/checking-numbers.mjs");
  }

  /** The element's content as trees. */
  view(place) {
    const { topology, units } = place;
    this.#parts = place.example.parts;
    const asked = askedCurrents(topology);
    const about = [say("check.numbers.about", { unit: units.current }), ...(asked.length ? [say("check.numbers.asked", { currents: listed(asked) })] : [])].join(" ");
    const form = ["form", { novalidate: "novalidate", autocomplete: "off" }, ...topology.branches.map((branch) => this.#viewNumber(branch, place)),
      ["button", { type: "submit" }, say("check.check")],
      ["div", { role: "status", class: "verdict" }],
    ];
    return [viewTitle("check.numbers.title", "my-numbers", this.source.isLesson), ["p", {}, ...setText(about, topology)], form];
  }

  #viewNumber(branch, place) {
    const { current } = branch;
    const [id, way] = [`${this.stem}-${current}`, `${this.stem}-${current}-way`];
    return ["div", { class: "number" },
      ["label", { for: id }, ...viewName(current), " ="],
      ["input", { id, name: current, ...field, "aria-describedby": way }],
      ["button", { type: "button", "data-arrow": current, "aria-label": say("check.numbers.turn_one", { current }), "aria-pressed": String(place.flip.includes(current)) }, say("check.numbers.turn")],
      ["p", { id: way, class: "way" }, ...viewWay(branch, place)],
    ];
  }

  start(signal) {
    this.form.addEventListener("click", (event) => this.#turn(event.target.closest("[data-arrow]")), { signal });
  }

  get #fields() {
    return [...this.form.querySelectorAll("input")];
  }

  /** What is typed, by current. */
  get typed() {
    return Object.fromEntries(this.#fields.map((input) => [input.name, input.value]));
  }

  set typed(values) {
    for (const input of this.#fields) input.value = values[input.name] ?? "";
  }

  check({ answerNumbers }) {
    const { says, unread } = answerNumbers(this.typed, this.#findEquations(), this.source.place());
    this.tell(says, unread);
  }

  /** Words and arrows as they are now; what was said of the numbers is old. */
  follow() {
    const place = this.source.place();
    for (const branch of place.topology.branches) {
      const button = this.form.querySelector(`[data-arrow="${CSS.escape(branch.current)}"]`);
      button.setAttribute("aria-pressed", String(place.flip.includes(branch.current)));
      button.parentElement.querySelector(".way").replaceChildren(...viewWay(branch, place).map((tree) => build(tree)));
    }
    const typed = this.#turned && this.typed[this.#turned].trim();
    this.tell(typed ? [["p", {}, ...setText(say("check.numbers.sign", { current: this.#turned }), place.topology)]] : []);
    this.#turned = "";
    if (place.example.parts !== this.#parts && Object.values(this.typed).some((text) => text.trim())) this.status.replaceChildren(build(["p", {}, say("check.numbers.other_values")]));
    this.#parts = place.example.parts;
  }

  #turn(button) {
    if (button) this.source.turn((this.#turned = button.dataset.arrow));
  }

  /** What the student typed into the other check of the page or the part. */
  #findEquations() {
    return this.closest(".part, article")?.querySelector("check-equation")?.equations ?? [];
  }
}

const viewWay = (branch, { topology, layout }) => setText(wayInWords(branch, layout), topology);

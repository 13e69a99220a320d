/**
 * `<example-filter>`: shows of the list of examples what the reader asks for. The form stands in the page; the choice
 * stands in the address, so that a link carries it: ?topic=bridge&level=core.
 */

export class ExampleFilter extends (globalThis.HTMLElement ?? Object) {
  #abort;

  connectedCallback() {
    if (this.#abort) return;
    this.#abort = new AbortController();
    const { signal } = this.#abort;
    this.form = this.querySelector("form");
    this.entries = [...this.querySelectorAll(".catalogue-entry")];
    this.form.addEventListener("change", () => this.#choose(), { signal });
    this.form.addEventListener("submit", (event) => event.preventDefault(), { signal });
    this.form.addEventListener("reset", () => setTimeout(() => this.#choose()), { signal });
    addEventListener("popstate", () => this.#readAddress(), { signal });
    // What was chosen before this script came holds, unless the address asks for something.
    const asked = new URLSearchParams(location.search);
    if (this.#fields.some(({ name }) => asked.has(name))) this.#readAddress();
    else this.#choose();
  }

  disconnectedCallback() {
    this.#abort?.abort();
    this.#abort = undefined;
  }

  get #fields() {
    return [...this.form.querySelectorAll("select")];
  }

  /** A value that is no option of its field is left out. */
  #readAddress() {
    const asked = new URLSearchParams(location.search);
    for (const field of this.#fields) {
      const value = asked.get(field.name) ?? "";
      field.value = [...field.options].some((option) => option.value === value) ? value : "";
    }
    this.#show();
  }

  #choose() {
    const asked = new URLSearchParams(location.search);
    for (const { name, value } of this.#fields) {
      asked.delete(name);
      if (value) asked.set(name, value);
    }
    history.replaceState(history.state, "", location.pathname + (asked.size ? `?${asked}` : "") + location.hash);
    this.#show();
  }

  #show() {
    const wanted = this.#fields.filter((field) => field.value);
    for (const entry of this.entries) {
      entry.hidden = !wanted.every(({ name, value }) => entry.getAttribute(`data-${name}`).split("|").includes(value));
    }
    for (const shelf of this.querySelectorAll(".shelf")) {
      shelf.hidden = !shelf.querySelector(".catalogue-entry:not([hidden])");
    }
    const shown = this.entries.filter((entry) => !entry.hidden).length;
    const status = this.querySelector("[role=status]");
    const says = shown ? status.dataset.says : status.dataset.none;
    status.textContent = wanted.length ? says.replace("{shown}", shown).replace("{all}", this.entries.length) : "";
    this.form.querySelector("[type=reset]").disabled = !wanted.length;
  }
}

// Two versions of a garment over each other: this one, and what it was before a change or what another garment is.

import { ask, folder } from "./store.js";
import { read } from "./lengths.js";
import { html, render } from "./vendor/preact-htm.js";

export class Compare {
  open = false;
  #asked = null; // {back} or {other}, and words
  #changes = [];
  #others = [];
  #told = null;

  constructor(host, table) {
    this.host = host;
    this.table = table;
    host.hidden = true;
    table.garment.listen((garment) => {
      if (!this.open || garment.trying) return;
      this.#list();
      this.#show();
    });
  }

  async toggle() {
    this.open = !this.open;
    this.host.hidden = !this.open;
    if (!this.open) {
      this.#asked = null;
      this.table.against(null);
      return render(null, this.host);
    }
    await this.#list();
    this.#choose(this.#changes.length ? "back 1" : this.#others[0] ? `other ${this.#others[0].file}` : "");
  }

  async #list() {
    const { garment } = this.table;
    const [{ changes }, { garments }] = await Promise.all([ask("changes", { file: garment.file }), folder()]);
    this.#changes = changes;
    this.#others = garments.filter(({ file, problem }) => file !== garment.file && !problem);
    this.#draw();
  }

  #choose(value) {
    const [kind, ...rest] = value.split(" ");
    const words = rest.join(" ");
    this.#asked = kind === "back" ? { value, back: Number(words) } : kind === "other" ? { value, other: words } : null;
    this.#show();
  }

  async #show() {
    if (!this.#asked) return this.#draw();
    const { value, ...asked } = this.#asked;
    try {
      this.#told = await ask("compare", { file: this.table.garment.file, ...asked });
    } catch (refusal) {
      this.#told = { trouble: refusal.message };
    }
    if (!this.open || this.#asked?.value !== value) return;
    this.table.against(this.#told.pieces ?? null);
    this.#draw();
  }

  #draw() {
    if (!this.open) return;
    const told = this.#told;
    const chosen = this.#asked?.value;
    render(html`
      <label for="compare-with">Drawn over</label>
      <select id="compare-with" class="fill" onChange=${(event) => this.#choose(event.target.value)}>
        ${this.#changes.map((words, at) => html`<option key=${`back ${at + 1}`} value=${`back ${at + 1}`} selected=${chosen === `back ${at + 1}`}>as it was before: ${read(words)}</option>`)}
        ${this.#others.map(({ file, title }) => html`<option key=${file} value=${`other ${file}`} selected=${chosen === `other ${file}`}>${title}, ${file}</option>`)}
      </select>
      <div aria-live="polite">
        ${told?.trouble && html`<p>${told.trouble}</p>`}
        ${told?.pieces && html`<p class="small">Thin line: the other. Hatched: what is otherwise.
          ${told.gone.length > 0 && ` Only the other has: ${told.gone.join(", ")}.`}
          ${told.moved.length === 0 && " Both measure the same."}</p>
        <ul class="slip-moved" aria-label="What is otherwise">${told.moved.map((each) => html`<li key=${each.name}><span>${each.name}</span> <span>${read(each.before)} → <b>${read(each.after)}</b></span></li>`)}</ul>`}
      </div>`, this.host);
  }
}

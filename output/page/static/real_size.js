// The pieces as large on the screen as they are: once she has held a card or a coin to it.

import { html, render } from "./vendor/preact-htm.js";

// widths in mm: ISO/IEC 7810 for the card; the mints of the coins for the rest
const HELD = [
  { name: "a bank card", mm: 85.6, shape: "card" },
  { name: "a 1 euro coin", mm: 23.25, shape: "coin" },
  { name: "a 1 pound coin", mm: 23.43, shape: "coin" },
  { name: "a US quarter", mm: 24.26, shape: "coin" },
];
const KEY = "pixels of the screen to a millimetre";

export class RealSize {
  open = false;
  #held = 0;

  constructor(host, table) {
    this.host = host;
    this.table = table;
    host.hidden = true;
  }

  /** Pixels to a millimetre as she has set them, else as screens commonly have: 96 to an inch. */
  get k() {
    const set = Number(localStorage.getItem(KEY));
    return (set || (96 / 25.4) * devicePixelRatio) / devicePixelRatio;
  }

  toggle() {
    this.open = !this.open;
    this.#draw();
  }

  /** What is said of the scale. */
  words(k) {
    const unit = this.table.garment.state.unit === "in" ? "inch" : "centimetre";
    const real = localStorage.getItem(KEY) && Math.abs(k / this.k - 1) < 1e-3;
    return real ? "Real size: lay it against the screen." : `One ${unit} on the tape is one ${unit} on the pieces.`;
  }

  #draw() {
    this.host.hidden = !this.open;
    if (!this.open) return render(null, this.host);
    const held = HELD[this.#held];
    const wide = this.k * held.mm;
    render(html`
      <label>Hold <select class="fill" onChange=${(event) => { this.#held = event.target.selectedIndex; this.#draw(); }}>
        ${HELD.map((each, at) => html`<option selected=${at === this.#held}>${each.name}</option>`)}</select> to the screen</label>
      <div class=${held.shape} ref=${(box) => box && (box.style.width = `${wide}px`)} aria-hidden="true"></div>
      <label>and make this as wide as it is
        <input type="range" min="1.5" max="14" step="0.005" value=${this.k} onInput=${(event) => this.#set(event.target.value)} />
      </label>
      <button type="button" onClick=${() => this.#done()}>It is as wide: show the real size</button>`, this.host);
  }

  #set(k) {
    localStorage.setItem(KEY, String(Number(k) * devicePixelRatio));
    this.#draw();
  }

  #done() {
    this.#set(this.k);
    this.toggle();
    const { lay, camera } = this.table;
    camera.scale(this.k, lay.clientWidth / 2, lay.clientHeight / 2);
    this.table.update(new Set());
    this.table.say("The pieces are shown in their real size.");
  }
}

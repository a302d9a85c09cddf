// A seam walked: one piece lies still, the other is laid on it right sides together and rolled along the edge.

import { ask } from "./store.js";
import { put, svg } from "./svg.js";
import { html, render } from "./vendor/preact-htm.js";

const AROUND = 130; // mm seen around the edge that lies still
const GLIDE = 4; // milliseconds for each frame between two marks, about

/** Puts the walk into `host`. Gives {walk(seam)}, which shows a seam and brings it into view. */
export function mountWalk(host, garment) {
  return new Walk(host, garment);
}

class Walk {
  #at = 0;
  #data = null;
  #asked = "";
  #stale = true;
  #inView = false;
  #gliding = 0;

  constructor(host, garment) {
    this.host = host;
    this.garment = garment;
    host.classList.add("walk");
    this.controls = document.createElement("div");
    this.picture = document.createElement("div");
    this.picture.className = "walk-picture";
    host.append(this.controls, this.picture);
    this.svg = svg("svg", { role: "img", "aria-label": "Both pieces laid together" }, this.picture);
    this.sides = Object.fromEntries(["b", "a"].map((side) => [side, svg("g", { class: `side ${side}` }, this.svg)]));
    this.here = svg("circle", { class: "here" }, this.svg);
    this.steps = document.createElement("div");
    host.append(this.steps);
    new IntersectionObserver(([seen]) => {
      this.#inView = seen.isIntersecting;
      this.#renew();
    }, { rootMargin: "200px" }).observe(host);
    garment.listen((_, changed) => {
      if (![...changed].some((name) => name === "walk" || name.startsWith("piece "))) return;
      this.#stale = true;
      clearTimeout(this.#soon);
      this.#soon = setTimeout(() => this.#renew(), 250);
    });
  }

  #soon = 0;

  async walk(seam) {
    this.#asked = seam;
    this.#stale = true;
    this.#at = 0;
    this.#inView = true;
    await this.#renew();
    this.host.scrollIntoView({ block: "center" });
    this.controls.querySelector("select")?.focus({ preventScroll: true });
  }

  async #renew() {
    const seams = this.garment.parts.walk?.seams ?? [];
    this.host.hidden = !seams.length;
    if (!this.#inView || !this.#stale || !seams.length || (this.garment.trying && this.#data)) return;
    if (!seams.some((seam) => seam.name === this.#asked)) {
      this.#asked = (seams.find((seam) => seam.a !== seam.b) ?? seams[0]).name;
      this.#at = 0;
    }
    this.#stale = false;
    const asked = this.#asked;
    try {
      const data = await ask("walk", { file: this.garment.file, seam: asked });
      if (asked !== this.#asked) return;
      this.#data = data;
      this.#at = Math.min(this.#at, data.frames.length - 1);
    } catch (refusal) {
      this.#stale = true;
      render(html`<p>${refusal.message}</p>`, this.steps);
      return;
    }
    this.#build();
    this.#draw();
  }

  /** Draws the pieces of both sides once; then only the one is moved. */
  #build() {
    for (const side of ["a", "b"]) {
      const { pieces, edges } = this.#data[side];
      this.sides[side].replaceChildren();
      for (const piece of pieces) {
        const group = svg("g", { transform: `matrix(${piece.m.join(" ")})` }, this.sides[side]);
        for (const kind of ["outline", "sewing", "darts", "notches"]) svg("path", { class: kind, d: piece[kind] }, group);
        for (const edge of edges.filter((each) => each.piece === piece.name)) {
          edge.walked = svg("path", { class: "walked", d: edge.d }, group);
          svg("path", { class: "edge", d: edge.d }, group);
        }
      }
    }
    const seen = svg("g", {}, this.svg);
    for (const piece of this.#data.b.pieces) {
      const group = svg("g", { transform: `matrix(${piece.m.join(" ")})` }, seen);
      for (const edge of this.#data.b.edges.filter((each) => each.piece === piece.name)) svg("path", { d: edge.d }, group);
    }
    const box = seen.getBBox();
    seen.remove();
    const wide = Math.max(box.width + 2 * AROUND, (box.height + 2 * AROUND) * 1.1);
    const high = box.height + 2 * AROUND;
    this.svg.setAttribute("viewBox", [box.x + box.width / 2 - wide / 2, box.y - AROUND, wide, high].map((n) => n.toFixed(1)).join(" "));
    const px = Math.max(wide / Math.max(1, this.picture.clientWidth), high / Math.max(1, this.picture.clientHeight));
    this.px = px;
    this.here.setAttribute("r", (5 * px).toFixed(2));
  }

  #draw() {
    const frame = this.#data.frames[this.#at];
    put(this.sides.a, "transform", `matrix(${frame.m.join(" ")})`);
    put(this.here, "cx", String(frame.x));
    put(this.here, "cy", String(frame.y));
    for (const side of ["a", "b"]) {
      for (const { walked, begins, length } of this.#data[side].edges) {
        const gone = Math.max(0, Math.min(length, frame[side] - begins));
        put(walked, "stroke-dasharray", `${gone.toFixed(2)} ${(length + 1).toFixed(2)}`);
        put(walked, "stroke-width", (8 * this.px).toFixed(2));
        put(walked, "visibility", gone > 0 ? "visible" : "hidden");
      }
    }
    const { frames, left } = this.#data;
    const last = this.#at === frames.length - 1;
    const words = frame.words + (last && left ? ` ${left}` : "");
    render(html`
      <label for="walk-seam">Which seam</label>
      <select id="walk-seam" class="fill" onChange=${(event) => this.walk(event.target.value)}>
        ${this.garment.parts.walk.seams.map((seam) => html`<option key=${seam.name} value=${seam.name} selected=${seam.name === this.#asked}>
          ${seam.name}: ${seam.a === seam.b ? seam.a : `${seam.a} on ${seam.b}`}</option>`)}
      </select>
      <p class="small">${this.garment.parts.walk.seams.find((seam) => seam.name === this.#asked)?.words}.
        The ${this.#data.a.pieces[0].name} is turned over and laid on, right sides together.</p>`, this.controls);
    render(html`
      <label for="walk-step">How far along</label>
      <input id="walk-step" type="range" min="0" max=${frames.length - 1} value=${this.#at} aria-valuetext=${words}
        onInput=${(event) => this.#go(Number(event.target.value))} />
      <div class="row">
        <button type="button" disabled=${this.#at === 0} onClick=${() => this.#hop(-1)}>Back to the mark before</button>
        <button type="button" disabled=${last} onClick=${() => this.#hop(1)}>On to the next mark</button>
      </div>
      <p class="told" aria-live="polite">${words}</p>`, this.steps);
  }

  #go(at) {
    cancelAnimationFrame(this.#gliding);
    this.#at = at;
    this.#draw();
  }

  /** To the next place where notches meet, or to the end. */
  #hop(way) {
    const { frames } = this.#data;
    let to = this.#at + way;
    while (to > 0 && to < frames.length - 1 && !frames[to].meets) to += way;
    to = Math.max(0, Math.min(frames.length - 1, to));
    if (matchMedia("(prefers-reduced-motion: reduce)").matches) return this.#go(to);
    const from = this.#at;
    const start = performance.now();
    const long = Math.min(900, Math.max(200, GLIDE * Math.abs(to - from) * 3));
    const step = (now) => {
      const t = Math.min(1, (now - start) / long);
      this.#at = Math.round(from + (to - from) * t);
      this.#draw();
      if (t < 1) this.#gliding = requestAnimationFrame(step);
    };
    cancelAnimationFrame(this.#gliding);
    this.#gliding = requestAnimationFrame(step);
  }
}

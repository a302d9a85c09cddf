// The tape between table and sheet: its marks are as far apart as they are on the pieces.

import { svg } from "./svg.js";

const MARKS = {
  // mm between whole marks, what one of them counts, into how many parts each is divided where there are so many px
  cm: { whole: 10, counts: 1, parts: [[10, 60], [2, 16], [1, 4]] },
  mm: { whole: 10, counts: 10, parts: [[10, 60], [2, 16], [1, 4]] },
  in: { whole: 25.4, counts: 1, parts: [[8, 44], [4, 22], [2, 12], [1, 5]] },
};
const TOUCHING = 4; // px between two marks below which whole marks are left out

/** Keeps a tape in `host`, lying along its longer side. */
export class Tape {
  #drawn = "";
  #shift = null;

  constructor(host) {
    this.host = host;
    host.setAttribute("aria-hidden", "true");
    this.svg = svg("svg", { width: "100%", height: "100%" }, host);
    this.marks = svg("path", { class: "marks" }, this.svg);
    this.numbers = svg("g", {}, this.svg);
    new ResizeObserver(() => this.#measure()).observe(host);
    this.#measure();
  }

  #measure() {
    this.width = this.host.clientWidth;
    this.height = this.host.clientHeight;
    this.#drawn = "";
    if (this.#last) this.draw(...this.#last);
  }

  #last = null;

  /** unit: "cm", "in" or "mm"; k: pixels to a millimetre; zero: px along the tape where it begins */
  draw(unit, k, zero) {
    this.#last = [unit, k, zero];
    const upright = this.height >= this.width;
    const long = upright ? this.height : this.width;
    const wide = upright ? this.width : this.height;
    const { whole, parts, counts } = MARKS[unit] ?? MARKS.cm;
    const key = [unit, k.toFixed(5), upright, long, wide].join();
    const gap = whole * k;
    const every = [1, 2, 5, 10, 20, 50, 100].find((n) => n * gap >= TOUCHING) ?? 100;
    const numbered = [1, 2, 5, 10, 20, 50, 100, 200].find((n) => n * gap >= 26) ?? 200;
    const split = every > 1 ? 1 : parts.find(([, room]) => gap >= room)?.[0] ?? 1;
    // drawn once from one numbered mark before the beginning to one beyond the end; then it is only shifted
    const period = numbered * gap;
    const from = Math.floor(-zero / period) * numbered;
    if (this.#drawn !== `${key},${from}`) {
      this.#drawn = `${key},${from}`;
      this.#draw(upright, wide, long, gap, every, split, numbered, from, counts);
    }
    const shift = zero + from * gap;
    if (this.#shift !== shift) {
      this.#shift = shift;
      const move = upright ? `translate(0 ${shift.toFixed(2)})` : `translate(${shift.toFixed(2)} 0)`;
      this.marks.setAttribute("transform", move);
      this.numbers.setAttribute("transform", move);
    }
  }

  #draw(upright, wide, long, gap, every, split, numbered, from, counts) {
    this.#shift = null;
    const count = Math.ceil(long / gap) + 2 * numbered;
    let d = "";
    const texts = [];
    const line = (at, share) => {
      const far = (wide * share).toFixed(1);
      d += upright ? `M0 ${at.toFixed(2)}H${far}` : `M${at.toFixed(2)} ${wide}V${(wide - wide * share).toFixed(1)}`;
    };
    for (let i = 0; i < count; i += every) {
      line(i * gap, i % numbered === 0 ? 0.36 : i % 5 === 0 ? 0.28 : 0.2);
      for (let part = 1; part < split; part++) line((i + part / split) * gap, 2 * part === split ? 0.16 : 0.1);
      if (i % numbered) continue;
      const text = svg("text", upright ? { x: wide - 4, y: (i * gap + 4).toFixed(2) } : { x: (i * gap + 3).toFixed(2), y: 12 });
      text.textContent = String(counts * (from + i)).replace("-", "−");
      texts.push(text);
    }
    this.marks.setAttribute("d", d);
    this.numbers.replaceChildren(...texts);
    this.numbers.setAttribute("text-anchor", upright ? "end" : "start");
  }
}

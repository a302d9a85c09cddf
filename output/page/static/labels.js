// Names on the table, at the size of the screen's letters: none ever lies on another, at any zoom.

import { put, svg } from "./svg.js";

const AIR = 3; // pixels around a name

/** Keeps the writing of the table. */
export class Labels {
  #texts = new Map();
  #widths = new Map();
  #pen = document.createElement("canvas").getContext("2d");
  #font = "";

  constructor(into) {
    this.group = svg("g", { class: "labels", "aria-hidden": "true" }, into);
  }

  /** The size of the letters, px; asked again when the page's letters grow. */
  measure() {
    const style = getComputedStyle(this.group);
    this.size = parseFloat(style.fontSize);
    const font = `${style.fontSize} ${style.fontFamily}`;
    if (font !== this.#font) {
      this.#font = font;
      this.#widths.clear();
    }
  }

  /**
   * Writes what has room: first every name as plainly as it may be written, the first first; then what more has room.
   *
   * Gives the keys of those that are written short: a number that stands for a name.
   *
   * wanted: [{key, kind, choices: [{x, y, lines: [words], more, short}], beside: [boxes]}], (x, y) the middle of the upper
   *         edge; `more` for what tells more than is needed. Of the choices the first is written that touches no writing and
   *         nothing of what lies beside it, else the first that touches no writing, else none
   */
  write(wanted, width, height) {
    let chosen = this.#chosen(wanted, width, height, false);
    if (wanted.some(({ key, kind }) => kind.startsWith("name") && !chosen.has(key))) {
      const other = this.#chosen(wanted, width, height, true);
      if (other.size > chosen.size) chosen = other;
    }
    const seen = new Set(chosen.keys());
    for (const [key, { choice, kind }] of chosen) this.#set(key, kind, choice);
    for (const [key, text] of this.#texts) {
      if (seen.has(key)) continue;
      text.group.setAttribute("display", "none");
      text.group.replaceChildren(); // what is not seen is not found in the text either
      text.lines = "";
    }
    if (this.#texts.size > 4 * wanted.length + 40) this.#forget(seen);
    return [...chosen].filter(([, { choice }]) => choice.short).map(([key]) => key);
  }

  /** What is written of all that is wanted. isClose: whether a number is rather written than a name on another piece */
  #chosen(wanted, width, height, isClose) {
    const chosen = new Map();
    for (const round of ["plain", "more"]) {
      for (const { key, kind, choices, beside = [] } of wanted) {
        const taken = [...chosen].filter(([other]) => other !== key).map(([, { box }]) => box);
        const free = choices.filter((choice) => round === "more" || !choice.more)
          .map((choice) => ({ choice, kind, box: this.#box(choice, kind) }))
          .filter(({ box }) => box[0] >= 0 && box[2] <= width && box[1] >= 0 && box[3] <= height
            && taken.every((other) => apart(box, other)));
        const whole = free.filter(({ choice }) => !choice.short);
        const isFree = ({ box, choice }) => (isClose && choice.short) || beside.every((other) => apart(box, other));
        const best = (isClose ? free : whole).find(isFree) ?? chosen.get(key) ?? whole[0] ?? free[0];
        if (best) chosen.set(key, best);
      }
    }
    return chosen;
  }

  /** How broad the narrowest way is of writing a piece's name in so many lines, px. */
  narrowest(name, most) {
    return Math.min(...nameChoices(name, name, name, 0, 0).filter(({ lines }) => lines.length <= most).map(({ lines }) =>
      Math.max(...lines.map((words) => this.#width(words, true))))) + 2 * AIR;
  }

  #box({ x, y, lines }, kind) {
    const wide = Math.max(...lines.map((words, at) => this.#width(words, !kind.startsWith("number") && at === 0)));
    return [x - wide / 2 - AIR, y - AIR, x + wide / 2 + AIR, y + lines.length * this.size * 1.25 + AIR];
  }

  #width(words, bold) {
    const key = (bold ? "b" : "n") + words;
    if (!this.#widths.has(key)) {
      this.#pen.font = (bold ? "bold " : "") + this.#font;
      this.#widths.set(key, this.#pen.measureText(words).width);
    }
    return this.#widths.get(key);
  }

  #set(key, kind, { x, y, lines }) {
    let text = this.#texts.get(key);
    if (!text) {
      text = { group: svg("g", {}, this.group), lines: "" };
      this.#texts.set(key, text);
    }
    put(text.group, "class", kind);
    const written = [this.size, ...lines].join("\n");
    if (text.lines !== written) {
      text.lines = written;
      text.group.replaceChildren(...lines.map((words, at) => {
        const line = svg("text", { y: (at + 0.95) * this.size * 1.25, class: at ? "more" : "first" });
        line.textContent = words;
        return line;
      }));
    }
    text.group.setAttribute("transform", `translate(${x.toFixed(1)} ${y.toFixed(1)})`);
    text.group.removeAttribute("display");
  }

  #forget(seen) {
    for (const [key, text] of this.#texts) {
      if (seen.has(key)) continue;
      text.group.remove();
      this.#texts.delete(key);
    }
  }
}

const apart = (one, other) =>
  one[2] <= other[0] || other[2] <= one[0] || one[3] <= other[1] || other[3] <= one[1];

/** How a piece's name may be written under it: with how it is cut, in full or in short, alone, in two lines. */
export function nameChoices(name, cut, short, x, y) {
  const words = name.split(" ");
  const half = Math.ceil(words.length / 2);
  const names = [[name]];
  if (words.length > 1) names.push([words.slice(0, half).join(" "), words.slice(half).join(" ")]);
  if (words.length > 2) names.push(words);
  const inTwo = short.split(/(?<=,) | (?=on fold)/);
  const told = [
    [name, cut],
    [name, ...cut.split(/(?<=,) /)],
    ...names.flatMap((lines) => [[...lines, short], [...lines, ...inTwo]]),
  ];
  return [...told.map((lines) => ({ x, y, lines, more: true })), ...names.map((lines) => ({ x, y, lines, more: false }))];
}

// One piece on the table, drawn as SVG.

import { put, svg } from "./svg.js";

// from the lowest to the uppermost: the class, and the kind of line that the server calls so
const DASH = 1.6; // pixels to a millimetre of the dashes that sizes are told apart by, at any zoom

const LINES = [
  ["balance", "balance line"],
  ["sewing", "sewing line"],
  ["gather", "gathering threads"],
  ["fold", "fold of cloth"],
  ["dart", "dart leg"],
  ["grain", "grain line"],
  ["point", "marked point"],
  ["notch", "notch"],
  ["cut", "cutting line"],
];

export class Piece {
  #paths = {};
  #edges = [];
  #edgesOf = null;
  #sizes = null;
  #others;
  sizeNames = []; // where each outline of several sizes is named: {size, spots: [[x, y]]}, mm
  folded = null;

  /** table: what it lies in; pressed(piece, edge or null, byKeys), pointed(piece, edge or null): what is told */
  constructor(name, table, { pressed, pointed }) {
    this.name = name;
    this.group = svg("g", { class: "piece", tabindex: 0, role: "button", "aria-pressed": "false" }, table);
    for (const kind of ["ground", "differs", "was"]) this.#paths[kind] = svg("path", { class: kind }, this.group);
    this.#others = svg("g", { class: "sizes" }, this.group);
    for (const [kind] of LINES) this.#paths[kind] = svg("path", { class: kind }, this.group);
    this.#paths.bad = svg("path", { class: "bad" }, this.group);
    this.feelers = svg("g", { class: "feelers" }, this.group);
    this.lit = svg("path", { class: "lit" }, this.group);
    this.group.addEventListener("click", (event) => pressed(this, this.#edgeAt(event), false));
    this.group.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" && event.key !== " ") return;
      event.preventDefault();
      pressed(this, null, true);
    });
    this.group.addEventListener("pointermove", (event) => {
      this.#feel();
      pointed(this, this.#edgeAt(event));
    });
    this.group.addEventListener("pointerleave", () => pointed(this, null));
  }

  /** Draws what the server tells of it, without making anything anew. */
  update(data) {
    this.data = data;
    this.folded = null;
    this.#edgesOf = null;
    this.#draw(data.outline, data.lines, data.before);
    put(this.#paths.bad, "d", data.edges.filter((edge) => edge.fails).map((edge) => edge.d).join(""));
    const changed = data.new ? ", new" : data.before ? ", changed" : "";
    put(this.group, "aria-label", `${data.name}, ${data.cut}${changed}`);
    this.group.classList.toggle("new", data.new);
    this.group.classList.remove("folded");
  }

  /** Draws it with its darts folded away; null for as it is cut. */
  fold(shape) {
    this.folded = shape;
    if (shape) this.#draw(shape.outline, shape.lines, "");
    else this.update(this.data);
    this.group.classList.toggle("folded", Boolean(shape));
  }

  /** Draws its outlines in several sizes: {drawn, sizes, outlines} as the server tells, each by the line it prints with. */
  inSizes(told) {
    const outlines = told?.outlines[this.name] ?? {};
    const several = Object.keys(outlines).length > 0;
    this.#others.replaceChildren();
    this.sizeNames = (several ? told.sizes : []).map(({ size, dash }, place) => {
      const line = size === told.drawn ? this.#paths.cut : svg("path", { d: outlines[size] }, this.#others);
      line.style.strokeDasharray = dash.map((each) => each * DASH).join(" ");
      return { size, spots: spots(line, place, told.sizes.length) };
    });
    if (!several) this.#paths.cut.style.strokeDasharray = "";
    const { x, y, width, height } = this.#others.getBBox();
    this.#sizes = width ? [x, y, x + width, y + height] : null;
  }

  /** The box around all that is drawn: left, top, width, height, mm about its own origin. */
  get box() {
    const [left, top, width, height] = this.data.box;
    if (!this.#sizes) return this.data.box;
    const [x0, y0, x1, y1] = this.#sizes;
    const low = [Math.min(left, x0), Math.min(top, y0)];
    return [...low, Math.max(left + width, x1) - low[0], Math.max(top + height, y1) - low[1]];
  }

  /** Moves it on the table. */
  place([x, y]) {
    this.at = [x, y];
    put(this.group, "transform", `translate(${x.toFixed(2)} ${y.toFixed(2)})`);
  }

  /** Lights one of its edges; null for none. */
  light(edge) {
    put(this.lit, "d", edge && !this.folded ? edge.d : "");
  }

  choose(chosen) {
    this.group.classList.toggle("chosen", chosen);
    this.group.setAttribute("aria-pressed", String(chosen));
  }

  remove() {
    this.group.remove();
  }

  #draw(outline, lines, before) {
    put(this.#paths.ground, "d", outline);
    put(this.#paths.was, "d", before);
    // two outlines in one path: what lies in one of them only is what was added or taken away
    put(this.#paths.differs, "d", before ? before + outline : "");
    for (const [kind, line] of LINES) put(this.#paths[kind], "d", lines[line] || "");
  }

  #feel() {
    if (this.#edgesOf === this.data) return;
    this.#edgesOf = this.data;
    this.#edges = this.data.edges.map((edge, at) => {
      const feeler = this.feelers.children[at] ?? svg("path", {}, this.feelers);
      put(feeler, "d", edge.d);
      return [feeler, edge];
    });
    while (this.feelers.children.length > this.#edges.length) this.feelers.lastChild.remove();
  }

  #edgeAt(event) {
    if (this.folded) return null;
    this.#feel();
    return this.#edges.find(([feeler]) => feeler === event.target)?.[1] ?? null;
  }
}

/** Where the line of a size may be named: each of so many sizes by places of its own along the line. */
function spots(line, place, count) {
  const long = line.getTotalLength();
  return [0, 1, 2, 3, 4, 5].map((round) => {
    const { x, y } = line.getPointAtLength(long * ((round + (place + 0.5) / count) / 6));
    return [x, y];
  });
}

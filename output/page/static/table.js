// The pieces on the table: drawn true to each other, seen from nearer or farther, their edges pointed at.

import { Camera, steer } from "./camera.js";
import { Compare } from "./compare.js";
import { EdgeList } from "./edges.js";
import { mountFlatPicture } from "./flat_picture.js";
import { Labels } from "./labels.js";
import { wanted } from "./names.js";
import { Piece } from "./piece.js";
import { firstPlaces, writtenBoxes } from "./first_places.js";
import { placed } from "./places.js";
import { Slip } from "./slip.js";
import { svg } from "./svg.js";
import { ask } from "./store.js";
import { Tape } from "./tape.js";
import { RealSize } from "./real_size.js";
import { drawFoot, FOLDED } from "./table_foot.js";
import { mountWalk } from "./walk.js";

const KEYS = "Arrow keys move the table, plus and minus bring it nearer and farther. Enter on a piece lists its edges.";
const OTHER = 0.1; // the share by which a room has to be another for the pieces to be laid anew
const KEPT = 300; // milliseconds without a try after which the pieces may be brought into view again

/** Puts the table and the tape of a garment into the page, and what the table knows into the sheet. Gives its end. */
export function mountTable(garment) {
  const table = new Table(document.getElementById("table"), document.getElementById("tape"), garment);
  const more = [];
  // the sheet makes its questions when the first answer is there
  const fill = () => {
    const host = document.getElementById("together-more");
    if (!host || host.firstChild) return;
    const [picture, heading, walk] = ["div", "h3", "div"].map((tag) => document.createElement(tag));
    heading.textContent = "Walk a seam";
    host.append(picture, heading, walk);
    mountFlatPicture(picture, garment);
    const walking = mountWalk(walk, garment);
    table.walkSeam = (seam) => walking.walk(seam);
    table.watch(document.getElementById("changed"));
  };
  more.push(garment.listen(() => requestAnimationFrame(fill)));
  return () => {
    more.forEach((end) => end());
    table.end();
  };
}

export class Table {
  #pieces = new Map();
  #first = null;
  #room = { width: 0, height: 0 };
  #pointed = null;
  #edge = null;
  #settle = 0;
  #atChanges = false;
  #ends = [];
  #followed = "";
  narrow = matchMedia("(max-width: 56rem)");

  constructor(host, tapeHost, garment) {
    this.garment = garment;
    this.host = host;
    const name = quiet("h2", "table-name", "The pieces on the table");
    const keys = quiet("p", "table-keys", KEYS);
    host.append(
      name,
      keys,
      (this.slipRoom = div("slip-room")),
      (this.lay = div("lay")),
      (this.edgesHost = div("edges")),
      (this.keyHost = div("key small")),
      (this.foot = div("table-foot")),
      (this.coinHost = div("coin")),
      (this.compareHost = div("compare")),
    );
    this.slipRoom.append((this.slipHost = div("slip")));
    for (const [name, value] of [["tabindex", 0], ["role", "region"], ["aria-label", "The note on the table"]]) {
      this.slipHost.setAttribute(name, value); // what is longer than the note is scrolled to, by keys too
    }
    this.svg = svg("svg", { role: "group", "aria-label": "The pieces, true to each other", "aria-describedby": "table-keys" }, this.lay);
    const hatch = svg("pattern", { id: "hatch", width: 8, height: 8, patternUnits: "userSpaceOnUse" }, svg("defs", {}, this.svg));
    svg("line", { x1: 0, y1: 0, x2: 0, y2: 8, class: "hatch", "stroke-width": 3 }, hatch);
    this.hatch = hatch;
    this.ground = svg("g", {}, this.svg);
    this.labels = new Labels(this.svg);
    this.camera = new Camera(() => this.#seen());
    steer(this.svg, this.camera);
    this.tape = new Tape(tapeHost);
    this.slip = new Slip(this.slipHost, garment);
    this.edges = new EdgeList(this.edgesHost, this);
    this.real = new RealSize(this.coinHost, this);
    this.compare = new Compare(this.compareHost, this);
    this.#lieTape(tapeHost);
    this.said = quiet("p", "table-said", "");
    this.said.setAttribute("aria-live", "polite");
    host.append(this.said);
    // what has the focus is never under the table
    const high = () => document.documentElement.style.setProperty("--table-high", `${host.offsetHeight + 16}px`);
    for (const [element, measure] of [[this.lay, () => this.#measure()], [host, high]]) {
      const observer = new ResizeObserver(measure);
      observer.observe(element);
      this.#ends.push(() => observer.disconnect());
    }
    this.svg.addEventListener("keydown", (event) => event.key === "Escape" && this.choose(null));
    this.#measure();
    this.#ends.push(garment.listen((_, changed) => this.update(changed)));
    this.update(new Set(Object.keys(garment.parts)));
  }

  /** Leaves the page as it was before. */
  end() {
    this.#ends.forEach((end) => end());
    clearTimeout(this.#settle);
    this.host.replaceChildren();
  }

  /** Draws what has changed, by the names of its parts. */
  update(changed) {
    const { parts } = this.garment;
    if (!parts.table) return;
    for (const [name, piece] of this.#pieces) {
      if (parts[`piece ${name}`]) continue;
      piece.remove();
      this.#pieces.delete(name);
      if (this.chosen === piece) this.choose(null);
      this.#first = null;
    }
    let drawn = false;
    for (const name of parts.table.pieces) {
      let piece = this.#pieces.get(name);
      if (!piece) {
        piece = new Piece(name, this.ground, {
          pressed: (...how) => this.#pressed(...how),
          pointed: (over, edge) => this.#point(over, edge),
        });
        this.#pieces.set(name, piece);
        this.#first = null;
      } else if (!changed.has(`piece ${name}`)) continue;
      piece.update(parts[`piece ${name}`]);
      drawn = true;
    }
    if (changed.has("sizes")) {
      for (const piece of this.#pieces.values()) piece.inSizes(parts.sizes);
      this.#first = null;
    }
    if (changed.has("slip") || changed.has("head")) this.slip.update();
    if (drawn || !this.#first) this.#place();
    if (drawn) this.#follow();
    if (this.chosen && changed.has(`piece ${this.chosen.name}`)) this.edges.show(this.chosen, this.#edge);
    this.#foot();
    clearTimeout(this.#settle);
    this.#settle = setTimeout(() => this.#settled(), KEPT);
  }

  /** On a phone the tape lies along the table, else beside it. */
  #lieTape(tape) {
    const { parentNode: beside, nextSibling: after } = tape;
    const lie = () => (this.narrow.matches ? this.lay.after(tape) : beside.insertBefore(tape, after));
    this.narrow.addEventListener("change", lie);
    this.#ends.push(() => {
      this.narrow.removeEventListener("change", lie);
      beside.insertBefore(tape, after);
      tape.replaceChildren();
    });
    lie();
  }

  /** On a phone, while she is at the changes, the table comes near what the last of them touched. */
  watch(changes) {
    new IntersectionObserver(([seen]) => {
      this.#atChanges = seen.isIntersecting;
      this.#follow();
    }, { rootMargin: "-45% 0px -20% 0px" }).observe(changes);
  }

  #follow() {
    if (this.chosen) return;
    const touched = this.pieces.filter(({ data }) => data.before || data.new);
    const near = this.narrow.matches && this.#atChanges && touched.length > 0 && touched.length < this.#pieces.size;
    const key = near ? touched.map(({ name }) => name).join() : "";
    if (key === this.#followed) return;
    this.#followed = key;
    for (const piece of this.#pieces.values()) piece.group.classList.toggle("aside", near && !touched.includes(piece));
    if (near) this.near(touched);
    else this.all();
  }

  /** Brings a piece near and lists its edges; null for all pieces. */
  choose(piece) {
    if (this.chosen === piece && piece) piece = null;
    this.chosen?.choose(false);
    this.chosen?.light(null);
    this.chosen = piece;
    this.#edge = null;
    this.#followed = "";
    for (const each of this.#pieces.values()) each.group.classList.remove("aside");
    piece?.choose(true);
    this.edges.show(piece, null);
    this.#measure();
    if (piece) this.near([piece]);
    else this.all();
    this.say(piece ? `${piece.name} is near. Its ${piece.data.edges.length} edges stand in the list below it.` : "All pieces are in view.");
    this.#foot();
  }

  /** Sees all the pieces, laid out anew where they have grown. */
  all({ anew = false, glide = true } = {}) {
    if (anew) this.#first = null;
    this.camera.whole = true;
    this.#place({ glide });
  }

  /** Sees some pieces as near as they fit. */
  near(pieces, glide = true) {
    const boxes = pieces.map(({ at: [x, y], box: [left, top, width, height] }) =>
      [x + left, y + top, x + left + width, y + top + height]);
    const all = [0, 1].map((i) => Math.min(...boxes.map((box) => box[i])))
      .concat([2, 3].map((i) => Math.max(...boxes.map((box) => box[i]))));
    this.camera.whole = false;
    this.camera.moved = false;
    const writing = 2.7 * this.labels.size;
    this.camera.fit(all, this.#room.width, this.#room.height - writing, { glide });
  }

  /** Lights an edge of the chosen piece; null for none. */
  light(edge) {
    this.#edge = edge;
    this.chosen?.light(edge);
  }

  /** Draws another version under the pieces, by what `compare` answers of them; null for the state before again. */
  against(pieces) {
    this.host.classList.toggle("comparing", Boolean(pieces));
    for (const [name, piece] of this.#pieces) {
      const own = this.garment.parts[`piece ${name}`];
      if (own) piece.update(pieces?.[name] ? { ...own, ...pieces[name] } : own);
    }
    this.#place({ fit: true });
  }

  /** Says something to who does not see the table. */
  say(words) {
    this.said.textContent = words;
  }

  get pieces() {
    return [...this.#pieces.values()];
  }

  #pressed(piece, edge, byKeys) {
    if (piece !== this.chosen) this.choose(piece);
    else if (!edge) this.choose(null);
    if (edge && piece === this.chosen) this.edges.show(piece, edge);
    if (byKeys && piece === this.chosen) this.edges.enter();
  }

  #point(piece, edge) {
    if (this.#pointed && this.#pointed !== piece) this.#pointed.light(null);
    this.#pointed = piece;
    piece.light(edge ?? (piece === this.chosen ? this.#edge : null));
    this.edges.point(piece, edge);
  }

  #measure() {
    const width = this.lay.clientWidth;
    const height = this.lay.clientHeight;
    this.labels.measure();
    if (width === this.#room.width && height === this.#room.height) return;
    this.#room = { width, height };
    const laid = this.#first?.room ?? { width: 0, height: 0 };
    const other = (now, then) => Math.abs(Math.log(now / then)) > OTHER;
    if ((other(width, laid.width) || other(height, laid.height)) && !this.chosen) this.#first = null;
    this.#place({ fit: true });
    if (this.chosen && !this.camera.moved) this.near([this.chosen], false);
  }

  #place({ fit = false, glide = false } = {}) {
    const { width, height } = this.#room;
    if (!width || !height || !this.#pieces.size) return;
    const first = !this.#first;
    if (first) this.#first = firstPlaces(this.#pieces, this.labels, this.#room, this.garment.parts.table.arrangements);
    const { origins, box } = placed(this.#first, writtenBoxes(this.#pieces, this.labels, this.#first.writing));
    for (const [name, piece] of this.#pieces) piece.place(origins[name]);
    this.box = box;
    if (this.camera.whole && (first || fit || glide)) this.#fit(glide);
    else this.#seen();
  }

  #fit(glide) {
    this.camera.fit(this.box, this.#room.width, this.#room.height, { glide });
    this.camera.whole = true;
  }

  /** Some time after the last change: what has grown out of sight is brought into view. */
  #settled() {
    if (this.garment.trying || !this.camera.whole || !this.box) return;
    const { width, height } = this.#room;
    const [left, top] = this.camera.screen(this.box[0], this.box[1]);
    const [right, bottom] = this.camera.screen(this.box[2], this.box[3]);
    if (left < -1 || top < -1 || right > width + 1 || bottom > height + 1) this.#fit(true);
  }

  #seen() {
    const { k, x, y } = this.camera;
    this.ground.setAttribute("transform", `matrix(${k} 0 0 ${k} ${x.toFixed(2)} ${y.toFixed(2)})`);
    this.hatch.setAttribute("patternTransform", `rotate(45) scale(${(1 / k).toFixed(4)})`);
    this.tape.draw(this.garment.state.unit, k, this.#zero());
    this.#write();
    this.host.classList.toggle("whole", this.camera.whole);
  }

  /** Where the tape begins, px along it: at the end of the piece that is chosen, else of the first. */
  #zero() {
    const { at, box } = this.chosen ?? this.pieces[0] ?? {};
    if (!at) return 0;
    const [x, y] = this.camera.screen(at[0] + box[0], at[1] + box[1]);
    return this.narrow.matches ? x : y + this.lay.offsetTop;
  }

  #write() {
    const { width, height } = this.#room;
    const short = this.labels.write(wanted(this.pieces, this.camera, this.#room, this.labels.size), width, height);
    const key = this.pieces.map(({ name }, place) => (short.includes(name) ? `${place + 1} ${name}` : "")).filter(Boolean).join(", ");
    if (key === this.key) return;
    this.key = key;
    this.keyHost.textContent = key;
  }

  #foot() {
    drawFoot(this.foot, this, { fold: () => this.#fold(), again: () => this.#foot(), room: this.#room });
  }

  async #fold() {
    const piece = this.chosen;
    if (piece.folded) piece.fold(null);
    else piece.fold(await ask("folded", { file: this.garment.file, piece: piece.name }));
    this.#place();
    this.#foot();
    this.say(piece.folded ? FOLDED : "Its darts are open.");
  }
}

function quiet(tag, id, words) {
  const element = document.createElement(tag);
  element.className = "quiet";
  element.id = id;
  element.textContent = words;
  return element;
}

function div(name) {
  const element = document.createElement("div");
  element.className = name;
  return element;
}

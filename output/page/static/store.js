// What the page knows of one garment, and how it asks the server. One question is under way at a time; of the values
// that are tried meanwhile only the newest is asked next, and every change is sent in its turn.

const PAUSES = 120; // milliseconds after which her hand pauses in a change
const RESTS = 700; // milliseconds after the last key until what is typed is taken as it is meant

/** Asks an address below api/. Gives the JSON; throws a Refusal with a sentence that can be shown. */
export async function ask(address, given) {
  let answer;
  try {
    answer = await fetch(`api/${address}`, given === undefined ? {} : {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(given),
    });
  } catch {
    throw new Refusal("The server has ended: start `trueseam open` again. What you changed is in your files.", 0);
  }
  const told = await answer.json().catch(() => ({}));
  if (!answer.ok) throw new Refusal(told.sentence || "That was not understood.", answer.status);
  return told;
}

/** A question that was not answered. status: the HTTP status, 0 where the server is gone. */
export class Refusal extends Error {
  constructor(sentence, status) {
    super(sentence);
    this.status = status;
  }
}

/** The people and garments of the folder: {folder, people, garments, lacks}. */
export const folder = () => ask("folder");

/** Writes a first file; gives {file}. */
export const begin = (given) => ask("new", given);

/**
 * One garment.
 *
 * parts:    the data of each part by its name, as last answered; a part that did not change stays the same object
 * state:    the rest of the last answer: file, version, unit, problems, written, asks
 * trying:   whether the parts show a value that is tried and not yet written
 * trouble:  a sentence where the last question was not answered, else null
 */
export class Garment {
  #listeners = new Set();
  #hashes = {};
  #waiting = [];
  #tried = null;
  #busy = false;
  #late = 0;
  #pause = 0;
  #last = null; // what was tried last, while her hand is at it
  #stood = []; // what was wrong before anything was tried
  #base = null; // the version she saw when she began what is tried: whoever wrote the same place since is asked about

  constructor(file) {
    this.file = file;
    this.parts = {};
    this.state = { file, version: "", unit: "cm", problems: [], written: false, asks: null };
    this.trying = false;
    this.trouble = null;
  }

  /** Calls `listener(garment, changed)` after every answer, `changed` being a Set of names of parts. Gives its end. */
  listen(listener) {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Asks for the garment as its files stand. Each of these gives a promise that ends when it is answered. */
  look() {
    return this.#send("look", {});
  }

  /** The first look: the pieces and most of the sheet as soon as can be, then all of it. */
  async first() {
    await this.#send("look", { soon: true });
    return this.look();
  }

  /** The same after another hand wrote: what is tried goes on, and rests on what it began with. */
  follow() {
    return this.#send("look", {}, { follows: true });
  }

  /**
   * Shows what edits would give: the pieces at once, the rest when her hand pauses. While a question is under way only
   * the newest call is kept; the others end at once.
   * typing: whether she may be in the middle of a number: what is wrong with that is only shown once her hand rests
   */
  try(edits, { typing = false } = {}) {
    return new Promise((done) => {
      this.#tried?.done();
      this.#tried = { address: "try", given: { edits, soon: true }, typing, done };
      this.#next();
    });
  }

  /** Writes edits. words: what they do, for the undo button; run: the same for all of one drag, else left out. */
  change(edits, words, run = "") {
    this.#forget();
    return this.#send("change", { edits, words, run });
  }

  undo() {
    this.#forget();
    return this.#send("undo", {});
  }

  redo() {
    this.#forget();
    return this.#send("redo", {});
  }

  #forget() {
    this.#tried?.done();
    this.#tried = null;
  }

  #send(address, given, { follows = false } = {}) {
    return new Promise((done) => {
      this.#waiting.push({ address, given, done, follows });
      this.#next();
    });
  }

  async #next() {
    if (this.#busy) return;
    const question = this.#waiting.shift() ?? this.#tried;
    if (!question) return;
    if (question === this.#tried) this.#tried = null;
    this.#busy = true;
    clearTimeout(this.#late);
    clearTimeout(this.#pause);
    let changed = new Set();
    const { asks } = this.state;
    const tries = question.address === "try";
    if (tries) this.#last = question;
    else if (!question.follows) this.#last = null;
    else if (this.#last) this.#tried ??= { ...this.#last, done: () => {} }; // shown again on what another hand wrote
    if (tries) this.#base ??= this.state.version;
    try {
      const given = { file: this.file, version: this.#base ?? this.state.version, have: this.#hashes, ...question.given };
      changed = this.#take(await ask(question.address, given));
      this.trying = tries;
      if (!tries) this.#stood = this.state.problems;
      else if (question.typing && this.state.problems.length > this.#stood.length) this.#tellLate();
      if (tries || question.follows) this.state.asks ??= asks; // until she has said which
      else this.#base = null;
      this.trouble = null;
    } catch (refusal) {
      this.trouble = refusal.message;
    }
    this.#busy = false;
    for (const listener of this.#listeners) listener(this, changed);
    if (this.state.more && !this.trouble) this.#pause = setTimeout(() => this.#tryWhole(question), PAUSES);
    question.done();
    this.#next();
  }

  /** What was tried, with all that is looked at when her hand pauses. */
  #tryWhole(question) {
    this.#tried ??= { ...question, given: { edits: question.given.edits } };
    this.#next();
  }

  /** What is wrong with a number that is not yet typed to its end is told when no more is typed. */
  #tellLate() {
    const whole = this.state;
    this.state = { ...whole, problems: this.#stood };
    this.#late = setTimeout(() => {
      this.state = whole;
      for (const listener of this.#listeners) listener(this, new Set());
    }, RESTS);
  }

  #take({ parts, hashes, gone, ...state }) {
    for (const name of gone) delete this.parts[name];
    Object.assign(this.parts, parts);
    this.#hashes = hashes;
    this.state = state;
    return new Set([...gone, ...Object.keys(parts)]);
  }
}

/** Calls `listener(told)` for whatever the server tells by itself: {changed: [files]}, {job}. Gives its end. */
export function hear(listener) {
  const events = new EventSource("api/events");
  events.onmessage = (event) => listener(JSON.parse(event.data));
  return () => events.close();
}

// Small things that every question of the sheet is made of: fields, choices, sliders, notes with buttons.

import { Component, html, useEffect, useLayoutEffect, useRef, useState } from "./vendor/preact-htm.js";
import { completed, read, writtenAs } from "./lengths.js";

const RESTS = 200; // milliseconds after which a hand rests
const BREATH = 900; // milliseconds between two changes of one hand that are undone as one

/** A part of the sheet that is drawn again only when something it is given has changed. */
export class Still extends Component {
  shouldComponentUpdate(next) {
    const now = this.props;
    return Object.keys({ ...now, ...next }).some((key) => now[key] !== next[key]);
  }
}

/** Brings the focus to a place once what was answered is drawn; a heading takes it too. */
export function focusOn(id) {
  requestAnimationFrame(() => {
    const place = document.getElementById(id);
    if (place && !place.matches("a, button, input, select, [tabindex]")) place.tabIndex = -1;
    place?.focus();
  });
}

/** An edit of one place: its new value, or nothing any more where she left the field empty. */
export function edit(where, at, value) {
  return value === "" || value === null ? { in: where, do: "remove", at } : { in: where, do: "set", at, value };
}

/** What is wrong at a place of a file and below it. */
export function problemsAt(problems, where, at) {
  return problems.filter((each) => each.in === where && each.at && at.every((step, place) => each.at[place] === step));
}

/** A name for all changes of one hand: one undo step as long as no more than a breath lies between them. */
export function useRun(name) {
  const held = useRef({ id: "", last: 0 });
  return () => {
    const now = Date.now();
    if (now - held.current.last > BREATH) held.current.id = `${name}.${now}`;
    held.current.last = now;
    return held.current.id;
  };
}

/**
 * A text that she fills in. It is sent when she leaves it or presses Enter, and only where she changed it; Escape puts
 * back what stood there. While it has her hand it is never written over.
 *
 * send(text): sends it, gives a promise that ends when it is answered
 * attempt(text): shows what it would give; null where she would rather not
 */
export function Typed({ id, text, label, send, attempt, below, hers = true, bad, placeholder, refused }) {
  const [typed, show] = useState(null);
  const newest = useRef(null); // what is typed, though it be not drawn yet
  const setTyped = (value) => {
    newest.current = value;
    show(value);
  };
  const isNew = useRef(false); // whether anything was typed since it was sent
  const stood = useRef(text); // before she began to type: what is tried meanwhile shows in `text`
  useEffect(() => {
    if (!refused && newest.current !== null && document.activeElement?.id !== id) setTyped(null);
  }, [text, refused]);
  const putBack = () => {
    isNew.current = false;
    setTyped(null);
    attempt?.(null);
  };
  const finish = () => {
    const value = newest.current;
    if (value === null) return;
    if (!isNew.current) return refused || setTyped(null); // it was sent: what stands is shown, or why it cannot
    if (value.trim() === String(stood.current).trim()) return putBack();
    isNew.current = false;
    send(value);
  };
  const keys = (event) => {
    if (event.key === "Enter") {
      event.preventDefault();
      finish();
    }
    if (event.key === "Escape" && newest.current !== null) putBack();
  };
  const input = (event) => {
    const value = event.target.value;
    if (newest.current === null) stood.current = text;
    isNew.current = true;
    setTyped(value);
    if (attempt && value.trim()) attempt(value, { typing: true });
  };
  return html`<input
    class=${hers ? "fill" : "fill open"}
    type="text"
    id=${id}
    value=${typed ?? text}
    aria-label=${label}
    aria-describedby=${below}
    aria-invalid=${bad ? "true" : undefined}
    placeholder=${placeholder}
    autocomplete="off"
    spellcheck="false"
    onInput=${input}
    onBlur=${finish}
    onKeyDown=${keys}
  />`;
}

/** One of several words. empty: what stands for none of them; left out where one has to be taken */
export function Choice({ id, value, choices, label, send, empty }) {
  const all = choices.includes(value) || value === "" ? choices : [value, ...choices];
  return html`<select class="fill" id=${id} aria-label=${label} value=${value} onChange=${(event) => send(event.target.value)}>
    ${empty !== undefined && html`<option value="" selected=${value === ""}>${empty}</option>`}
    ${all.map((each) => html`<option key=${each} value=${each} selected=${each === value}>${each}</option>`)}
  </select>`;
}

/** Yes or no. */
export function Check({ id, on, off = false, label, send }) {
  return html`<label class="check">
    <input type="checkbox" id=${id} checked=${on} disabled=${off} onChange=${(event) => send(event.target.checked)} />
    <span>${label}</span>
  </label>`;
}

/** A field of an option by its kind. send(value): the value as it is written in the file, "" to leave it out */
export function Field({ field, unit, bare, id, label, send, attempt, bad, refused }) {
  const said = label ?? field.name;
  const asked = field.asked ?? field.text;
  if (field.kind === "flag") return html`<${Check} id=${id} on=${field.value === true} label=${said} send=${send} />`;
  if (field.choices.length) {
    const empty = field.required || field.default ? undefined : "as it comes";
    return html`<${Choice} id=${id} value=${String(asked)} choices=${field.choices} label=${said} send=${send} empty=${empty} />`;
  }
  const whole = (text) => (text.trim() === "" ? "" : completed(text, field.kind, unit, bare));
  const tried = attempt && ((text, how) => attempt(text === null ? null : whole(text), how));
  return html`<span class="filled">
    <${Typed}
      id=${id}
      text=${asked}
      label=${said}
      hers=${field.hers}
      bad=${bad}
      refused=${refused}
      placeholder=${field.required ? "" : field.default || "as it comes"}
      send=${(text) => send(whole(text))}
      attempt=${tried}
    />
    ${field.other && html`<span class="other small">${read(field.other)}</span>`}
  </span>`;
}

/**
 * A slider with marks in her unit. While it is drawn nothing of it moves under her hand but the thumb, whatever is
 * answered meanwhile. A run of arrow keys is written when it rests, one drag when it ends.
 *
 * attempt(value), send(value): the value as it is written in the file
 * cannot: [from, to], what is known not to be had
 */
export function Slider({ field, unit, id, label, attempt, send, cannot = [] }) {
  const slider = useRef(null);
  const moves = useRef(0); // of her hand, that are not answered yet
  const rest = useRef(0);
  const [held, setHeld] = useState(null);
  const [frozen, setFrozen] = useState(null);
  const scale = frozen ?? field.scale;
  const stands = field.value ?? Math.max(scale.low, 0);
  useLayoutEffect(() => {
    if (!moves.current) slider.current.value = stands;
  }, [stands, scale.low, scale.high, held]);
  const typed = (event) => writtenAs(field.kind, Number(event.target.value), unit);
  const input = (event) => {
    clearTimeout(rest.current);
    moves.current += 1;
    setFrozen((now) => now ?? scale);
    setHeld(typed(event));
    attempt(typed(event));
  };
  const change = (event) => {
    const [count, value] = [moves.current, typed(event)];
    clearTimeout(rest.current);
    rest.current = setTimeout(async () => {
      await send(value);
      if (moves.current !== count) return;
      moves.current = 0;
      setFrozen(null);
      setHeld(null);
    }, RESTS);
  };
  return html`<div class="slide">
    ${cannot.map((range) => html`<${Cannot} range=${range} scale=${scale} />`)}
    <input
      type="range"
      ref=${slider}
      id=${id}
      min=${scale.low}
      max=${scale.high}
      step=${scale.step}
      aria-label=${label}
      aria-valuetext=${read(held ?? writtenAs(field.kind, stands, unit))}
      onInput=${input}
      onChange=${change}
    />
    <${Marks} scale=${scale} kind=${field.kind} unit=${unit} />
  </div>`;
}

/** The part of a slider that cannot be had, hatched. */
function Cannot({ range, scale }) {
  const part = (at) => 100 * Math.min(1, Math.max(0, (at - scale.low) / (scale.high - scale.low)));
  const [from, to] = range.map(part);
  if (to <= from) return null;
  const lay = (node) => node && Object.assign(node.style, { left: `${from}%`, width: `${to - from}%` });
  return html`<span class="cannot" ref=${lay} />`;
}

class Marks extends Still {
  render({ scale, kind, unit }) {
    const { low, high, mark } = scale;
    const sizes = { length: { in: 25.4, cm: 10, mm: 1 }[unit], percent: 0.01 };
    const size = sizes[kind] ?? 1;
    const every = [1, 2, 5, 10, 20, 50].find((each) => (high - low) / mark / each <= 13) ?? 100;
    const marks = [];
    for (let count = Math.ceil(low / mark - 1e-9); count * mark <= high + 1e-9; count += 1) marks.push(count);
    const number = (count) => String(Math.round((count * mark * 100) / size) / 100).replace("-", "−");
    const one = (count) => {
      const kept = count % every === 0; // every other number stays where there is little room
      const lay = (node) => node && (node.style.left = `${(100 * (count * mark - low)) / (high - low)}%`);
      const how = kept ? (count % (2 * every) === 0 ? "big even" : "big") : "";
      return html`<span key=${count} class=${how} ref=${lay}>${kept && html`<i>${number(count)}</i>`}</span>`;
    };
    return html`<div class="marks" aria-hidden="true">${marks.map(one)}</div>`;
  }
}

/** Whether a field has a slider: one whose thumb would lie at what holds. */
export const slides = (field) => Boolean(field.scale) && (field.hers || field.required || field.value !== null);

/** Buttons that do what is offered. */
export function Offers({ offers, take, main }) {
  return (offers ?? []).map((each) => html`<button type="button" class=${main ? "main" : ""} onClick=${() => take(each)}>
    ${read(each.words)}
  </button>`);
}

/**
 * What cannot be had, with what can be had in its place as buttons.
 *
 * pending: whether it was asked for and is kept until it can be had, or until she leaves it; then: after a button
 */
export function Refusal({ problems, garment, pending, then }) {
  if (!problems.length) return null;
  const take = (offer) => garment.change(offer.edits, offer.words).then(then);
  const mayLeave = pending && (garment.trying || garment.parts.head?.pending);
  const leave = () => (garment.trying ? garment.look() : garment.undo()).then(then);
  const one = (problem) => html`<div>
    <p><b>${problem.cannot ? "That cannot be had." : "That cannot be used."} The pieces stand as they were.</b></p>
    ${problem.sentences.map((sentence) => html`<p>${read(sentence)}</p>`)}
    <div class="row">
      <${Offers} offers=${problem.offers} take=${take} />
      ${mayLeave && html`<button type="button" onClick=${leave}>Leave it as it was</button>`}
    </div>
  </div>`;
  return html`<div class="refusal" role="group" aria-label="What cannot be had">${problems.map(one)}</div>`;
}

// Small things that every question of the sheet is made of: fields, choices, sliders, notes with buttons.

import { Component, html, useEffect, useLayoutEffect, useRef, useState } from "./vendor/preact-htm.js";
import { completed, read, writtenAs } from "./lengths.js";

const RESTS = 200; // milliseconds after which a hand rests

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

/** A set of edits of one kind: `set` a value, or `remove` it where she left the field empty. */
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
    if (now - held.current.last > 900) held.current.id = `${name}.${now}`;
    held.current.last = now;
    return held.current.id;
  };
}

/**
 * A text that she fills in. It is sent when she leaves it or presses Enter, and only where she changed it; Escape puts
 * back what stood there. While it has her hand it is never written over.
 * send(text): sends it, gives a promise that ends when it is answered; attempt(text): shows what it would give
 */
export function Typed({ id, text, label, send, attempt, below, hers = true, wide, bad, placeholder, refused }) {
  const [typed, setTyped] = useState(null);
  const timer = useRef(0);
  const sent = useRef(null);
  const stood = useRef(text); // before she began to type: what is tried meanwhile shows in `text`
  useEffect(() => () => clearTimeout(timer.current), []);
  useEffect(() => {
    if (!refused) setTyped((now) => (now !== null && document.activeElement?.id !== id ? null : now));
  }, [text, refused]);
  const finish = async () => {
    clearTimeout(timer.current);
    if (typed === null) return;
    if (typed.trim() === String(stood.current).trim()) {
      setTyped(null);
      return attempt?.(null);
    }
    if (refused && sent.current === typed) return; // it was refused already
    sent.current = typed;
    await send(typed);
  };
  const keys = (event) => {
    if (event.key === "Enter") {
      event.preventDefault();
      finish();
    }
    if (event.key === "Escape" && typed !== null) {
      clearTimeout(timer.current);
      setTyped(null);
      attempt?.(null);
    }
  };
  const input = (event) => {
    const value = event.target.value;
    if (typed === null) stood.current = text;
    setTyped(value);
    clearTimeout(timer.current);
    if (attempt && value.trim()) timer.current = setTimeout(() => attempt(value), 16); // the newest key of a frame
  };
  return html`<input class=${`fill${hers ? "" : " open"}${wide ? " wide" : ""}`} type="text" id=${id} value=${typed ?? text}
    aria-label=${label} aria-describedby=${below} aria-invalid=${bad ? "true" : undefined} placeholder=${placeholder}
    autocomplete="off" spellcheck="false" onInput=${input} onBlur=${finish} onKeyDown=${keys} />`;
}

/** One of several words, as a line of a sentence. */
export function Choice({ id, value, choices, label, send, below, empty }) {
  const all = choices.includes(value) || value === "" ? choices : [value, ...choices];
  return html`<select class="fill" id=${id} aria-label=${label} aria-describedby=${below} value=${value} onChange=${(event) => send(event.target.value)}>
    ${empty !== undefined && html`<option value="">${empty}</option>`}
    ${all.map((each) => html`<option key=${each} value=${each} selected=${each === value}>${each}</option>`)}
  </select>`;
}

/** Yes or no. */
export function Check({ id, on, label, send }) {
  return html`<label class="check"><input type="checkbox" id=${id} checked=${on} onChange=${(event) => send(event.target.checked)} /> <span>${label}</span></label>`;
}

/** A field of an option by its kind. send(value): the value as it is written in the file, "" to leave it out */
export function Field({ field, unit, bare, id, label, send, attempt, bad, refused }) {
  const said = label ?? field.name;
  const asked = field.asked ?? (field.hers || field.value !== null ? field.text : "");
  if (field.kind === "flag") return html`<${Check} id=${id} on=${field.value === true} label=${said} send=${send} />`;
  if (field.choices.length) {
    return html`<${Choice} id=${id} value=${String(asked)} choices=${field.choices} label=${said} send=${send} empty=${field.required ? undefined : field.default ? undefined : "as it comes"} />`;
  }
  const whole = (text) => (text.trim() === "" ? "" : completed(text, field.kind, unit, bare));
  return html`<span class="filled"><${Typed} id=${id} text=${asked} label=${said} hers=${field.hers} bad=${bad} refused=${refused}
      placeholder=${field.required ? "" : field.default || "as it comes"}
      send=${(text) => send(whole(text))} attempt=${attempt && ((text) => attempt(text === null ? null : whole(text)))} />
    ${field.other && html`<span class="other small">${read(field.other)}</span>`}</span>`;
}

/**
 * A slider with marks in her unit. While it is drawn nothing of it moves under her hand but the thumb, whatever is
 * answered meanwhile.
 * attempt(value), send(value): the value as it is written in the file
 */
export function Slider({ field, unit, id, label, attempt, send, cannot }) {
  const slider = useRef(null);
  const hand = useRef(0); // how many of her moves are not answered yet
  const [held, setHeld] = useState(null);
  const [frozen, setFrozen] = useState(null);
  const scale = frozen ?? field.scale;
  const stands = field.value ?? Math.max(scale.low, 0);
  useLayoutEffect(() => {
    if (!hand.current) slider.current.value = stands;
  }, [stands, scale.low, scale.high, held]);
  const typed = (event) => writtenAs(field.kind, Number(event.target.value), unit);
  const rest = useRef(0);
  const input = (event) => {
    clearTimeout(rest.current);
    hand.current += 1;
    setFrozen((now) => now ?? scale);
    setHeld(typed(event));
    attempt(typed(event));
  };
  // a run of arrow keys is written when it rests, one drag when it ends
  const change = (event) => {
    const [moves, value] = [hand.current, typed(event)];
    clearTimeout(rest.current);
    rest.current = setTimeout(async () => {
      await send(value);
      if (hand.current !== moves) return;
      hand.current = 0;
      setFrozen(null);
      setHeld(null);
    }, RESTS);
  };
  const part = (at) => Math.min(1, Math.max(0, (at - scale.low) / (scale.high - scale.low)));
  const shown = held ?? writtenAs(field.kind, stands, unit);
  return html`<div class="slide">
    ${(cannot ?? []).filter(([from, to]) => part(to) > part(from)).map(([from, to]) => html`<span class="cannot" ref=${(node) => node && Object.assign(node.style, { left: `${100 * part(from)}%`, width: `${100 * (part(to) - part(from))}%` })} />`)}
    <input type="range" ref=${slider} id=${id} min=${scale.low} max=${scale.high} step=${scale.step} aria-label=${label} aria-valuetext=${read(shown)} onInput=${input} onChange=${change} />
    <${Marks} scale=${scale} kind=${field.kind} unit=${unit} />
  </div>`;
}

class Marks extends Still {
  render({ scale, kind, unit }) {
    const { low, high, mark } = scale;
    const size = kind === "length" ? (unit === "in" ? 25.4 : unit === "mm" ? 1 : 10) : kind === "percent" ? 0.01 : 1;
    const many = (high - low) / mark;
    const every = [1, 2, 5, 10, 20, 50].find((each) => many / each <= 13) ?? 100;
    const marks = [];
    for (let count = Math.ceil(low / mark - 1e-9); count * mark <= high + 1e-9; count += 1) marks.push(count);
    const shown = (count) => String(Math.round((count * mark * 100) / size) / 100).replace("-", "−");
    return html`<div class="marks" aria-hidden="true">${marks.map((count) => html`<span key=${count} class=${count % (2 * every) === 0 ? "big even" : count % every === 0 ? "big" : ""}
      ref=${(node) => node && (node.style.left = `${(100 * (count * mark - low)) / (high - low)}%`)}>${count % every === 0 && html`<i>${shown(count)}</i>`}</span>`)}</div>`;
  }
}

/** Buttons that do what is offered. */
export function Offers({ offers, take, main }) {
  return (offers ?? []).map((each) => html`<button type="button" class=${main ? "main" : ""} onClick=${() => take(each)}>${read(each.words)}</button>`);
}

/** What cannot be had, with what can be had in its place as buttons. */
export function Refusal({ problems, take }) {
  if (!problems.length) return null;
  return html`<div class="refusal" role="group" aria-label="What cannot be had">
    ${problems.map((each) => html`<div>${each.sentences.map((sentence, place) => html`<p>${place === 0 && html`<b>${each.cannot ? "That cannot be had." : "That cannot be used."} The pieces stand as they were.</b>`}${read(sentence)}</p>`)}
      ${each.offers.length > 0 && html`<div class="row"><${Offers} offers=${each.offers} take=${take} /></div>`}</div>`)}
  </div>`;
}

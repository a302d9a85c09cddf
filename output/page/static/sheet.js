// The sheet: her own questions from top to bottom.

import { html } from "./vendor/preact-htm.js";
import { Changed } from "./changed.js";
import { Notes } from "./first.js";
import { read } from "./lengths.js";
import { Paper } from "./paper.js";
import { edit, Offers, Still } from "./parts.js";
import { Together } from "./together.js";
import { Cloth, What } from "./what.js";
import { Who } from "./who.js";

const QUESTIONS = [
  ["who", "For whom"],
  ["what", "What"],
  ["cloth", "Of what cloth"],
  ["changed", "Changed how"],
  ["together", "Together"],
  ["paper", "On paper"],
];

const NONE = []; // one and the same, so that nothing is drawn again for it

export function Sheet({ garment, known }) {
  const { parts, state } = garment;
  const { head, who, figure, what, cloth, changed, order, more, sizes, together, paper } = parts;
  if (!head) return html`<${Broken} garment=${garment} />`;
  const shared = {
    garment,
    unit: head.unit,
    bare: head.bare,
    problems: state.problems.length ? state.problems : NONE,
  };
  return html`
    <${Head} head=${head} garment=${garment} trouble=${garment.trouble} />
    <${Notes} notes=${known.notes} />
    <${Asks} asks=${state.asks} garment=${garment} />
    <${Elsewhere} problems=${state.problems} parts=${parts} />
    ${who && html`<${Who} ...${shared} part=${who} figure=${figure} known=${known} bare=${who.bare} trying=${garment.trying} />`}
    ${what && html`<${What} ...${shared} part=${what} faults=${together?.faults} />`}
    ${cloth && html`<${Cloth} ...${shared} part=${cloth} />`}
    ${changed && html`<${Changed} ...${shared} part=${changed} order=${order} more=${more} what=${what} />`}
    ${together && html`<${Together} part=${together} sizes=${sizes} people=${alike(known.people, who)} garment=${garment} />`}
    ${paper && html`<${Paper} ...${shared} part=${paper} people=${alike(known.people, who)} sizes=${sizes} />`}
  `;
}

const Folder = () => html`<a href="#people">All that is in this folder</a>`;

/** The people whom a garment can be drafted for: a child's for children, a woman's for women. */
const alike = (people, who) => people.filter((each) => !each.problem && (each.body === "woman") === (who?.body === "woman"));

class Head extends Still {
  render({ head, garment, trouble }) {
    const files = head.files.map((file, place) => html`${place > 0 && " and "}<code>${file}</code>`);
    const question = ([id, name]) => html`<li>
      <a href=${`#${id}`} onClick=${(event) => goTo(event, id)}>${name}</a>
      ${id === "together" && head.state === "failed" && html`<span class="flag">fails</span>`}
    </li>`;
    return html`<header class="head">
      <p class="small house">
        <${Folder} /> <span>writes to ${files} on this machine and nowhere else</span>
      </p>
      <h1>${head.title}</h1>
      <p class="for">for <b class="hers">${head.wearer}</b></p>
      <div class="row head-row">
        <button type="button" aria-disabled=${!head.undo} onClick=${() => head.undo && garment.undo()}>
          ${head.undo ? `Undo: ${read(head.undo)}` : "Undo"}
        </button>
        <button type="button" aria-disabled=${!head.redo} onClick=${() => head.redo && garment.redo()}>
          ${head.redo ? `Do again: ${read(head.redo)}` : "Do it again"}
        </button>
        <${Units} head=${head} garment=${garment} />
      </div>
      ${trouble && html`<p class="refusal" role="alert">${trouble}</p>`}
      <nav aria-label="The questions"><ol class="index">${QUESTIONS.map(question)}</ol></nav>
    </header>`;
  }
}

/** Leads to a question and gives it the focus, without touching the address: that names the file. */
function goTo(event, id) {
  event.preventDefault();
  const heading = document.querySelector(`#${id} h2`);
  heading?.setAttribute("tabindex", "-1");
  heading?.focus({ preventScroll: true });
  document.getElementById(id)?.scrollIntoView();
}

function Units({ head, garment }) {
  const one = ([unit, name]) => html`<label>
    <input
      type="radio"
      name="unit"
      value=${unit}
      checked=${head.unit === unit}
      disabled=${!head.units[unit]}
      onChange=${() => garment.change(head.units[unit], `lengths in ${name}`)}
    />
    ${" "}<span>${name}</span>
  </label>`;
  return html`<fieldset class="either">
    <legend class="quiet">Lengths are shown in</legend>
    ${Object.entries({ cm: "cm", in: "inches" }).map(one)}
  </fieldset>`;
}

/** A file that was changed meanwhile, in the same place: both values, and a button for each. */
function Asks({ asks, garment }) {
  if (!asks) return null;
  const said = (value) => (value === null ? "nothing" : read(value));
  const mine = () => garment.change([edit(asks.in, asks.at, asks.here)], `${asks.at.at(-1)} ${said(asks.here)}`);
  return html`<div class="note asks" role="group" aria-label="Which of the two?">
    <p><b>${read(asks.sentence)}</b></p>
    <div class="row">
      <button type="button" onClick=${mine}>Yours: ${said(asks.here)}</button>
      <button type="button" onClick=${() => garment.look()}>What the file says: ${said(asks.there)}</button>
    </div>
  </div>`;
}

/** Whether a problem has a place on the sheet: a card, a length, a field of one of the other questions. */
function hasPlace({ in: where, at, of }, { what, cloth, paper, changed }) {
  if (where === "person") return !at || (at[0] === "measurements" && at.length > 1);
  if ([...(what?.blocks ?? []), ...(what?.parts ?? [])].some((each) => (each.called ?? each.name) === of)) return true;
  if (!at) return false;
  if (at[0] === "step") return at[1] < (changed?.cards.length ?? 0);
  const made = [...(what?.blocks ?? []), ...(what?.parts ?? [])].flatMap((each) => each.fields);
  const fields = [...made, ...(cloth?.fields ?? []), ...(cloth?.ease ?? []), ...(paper?.fields ?? [])];
  return fields.some((field) => field.at?.join() === at.join());
}

/** A place of a file in words: "step 3, by". */
const placeWords = (at) => at.map((step, place) => (typeof step === "number" ? ` ${step + 1}` : place ? `, ${step}` : step)).join("");

/** What is wrong at no place that the sheet shows. */
function Elsewhere({ problems, parts }) {
  const rest = problems.filter((each) => !hasPlace(each, parts));
  if (!rest.length) return null;
  const one = (problem) => problem.sentences.map((sentence) => html`<li>
    ${problem.at && html`<b>${placeWords(problem.at)}: </b>`}${read(sentence)}
  </li>`);
  return html`<div class="refusal" role="group" aria-label="What cannot be used">
    <p><b>This cannot be used as it stands. Below is what was last drafted.</b></p>
    <ul>${rest.map(one)}</ul>
  </div>`;
}

/** A garment that could not be drafted since the page was opened. */
function Broken({ garment }) {
  const { problems } = garment.state;
  if (!garment.trouble && !problems.length) return html`<p class="answer" role="status">Drafting …</p>`;
  const take = (offer) => garment.change(offer.edits, offer.words);
  const one = (problem) => html`<div>
    ${problem.sentences.map((sentence) => html`<p>${problem.at && html`<b>${placeWords(problem.at)}: </b>`}${read(sentence)}</p>`)}
    <div class="row"><${Offers} offers=${problem.offers} take=${take} /></div>
  </div>`;
  return html`<header class="head"><p class="small house"><${Folder} /></p><h1>${garment.file}</h1></header>
    <div class="refusal" role="alert">
      <p><b>${garment.trouble || "It cannot be drafted as its file stands."}</b></p>
      ${problems.map(one)}
      <p>Mend it in the file with any editor and save it: this page follows by itself.</p>
    </div>`;
}

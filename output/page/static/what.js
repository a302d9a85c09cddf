// What it is, and of what cloth: blocks and parts as small drawings of the engine's own, then cloth, fit and ease.

import { html, useState } from "./vendor/preact-htm.js";
import { capital, read } from "./lengths.js";
import { Picture } from "./picture.js";
import { Choice, edit, Field, Offers, problemsAt, Refusal, Slider, slides, Still, useRun } from "./parts.js";
import { idOf } from "./find.js";

export class What extends Still {
  render({ part, garment, problems, faults }) {
    const all = [...part.blocks, ...part.parts.filter((each) => each.there || !each.instead)];
    const fields = all.flatMap((each) => each.fields.map((field) => ({ field, name: `${each.called ?? each.name}, ${field.name}` })));
    const first = fields.filter(({ field }) => field.first);
    const rest = fields.filter(({ field }) => !field.first);
    const row = ({ field, name }) => fieldRow(this.props, field, name, undefined, faultsOf(field, faults ?? []));
    return html`<section id="what" aria-labelledby="q2">
      <h2 id="q2">What is it?</h2>
      ${problems.some((each) => each.in === "person") && html`<p class="note">
        The lengths of whoever it is for keep this from being drafted.${" "}
        <button type="button" class="plain" onClick=${goToLengths}>Go to what is wrong</button>
      </p>`}
      <div class="blocks">
        ${all.map((each) => html`<${Block}
          key=${each.called ?? each.name}
          block=${each}
          body=${part.body}
          problems=${problems.filter((one) => isOf(one, each))}
          faults=${(faults ?? []).filter((one) => one.verdict === "fail" && one.step === null && one.of === (each.called ?? each.name))}
          garment=${garment}
        />`)}
      </div>
      <div class="rows">${first.map(row)}</div>
      ${rest.length > 0 && html`<details class="others">
        <summary>What else can be said of them</summary>
        <div class="rows">${rest.map(row)}</div>
      </details>`}
    </section>`;
  }
}

/** The failed checks that another value of a field mends. */
const faultsOf = (field, faults) => faults.filter(({ verdict, offers }) => verdict === "fail" && field.at
  && offers.some(({ edits }) => edits.length === 1 && edits[0].at?.join() === field.at.join()));

/** Leads to what is refused of her lengths. */
function goToLengths() {
  const refused = document.querySelector("#who .refusal");
  refused?.scrollIntoView({ block: "center" });
  refused?.querySelector("button, input")?.focus({ preventScroll: true });
}

/** Whether a problem stands on the card of a block or a part: it comes from it, and from no field of its own. */
const isOf = ({ of, at }, block) =>
  of === (block.called ?? block.name) && !block.fields.some((field) => at && field.at.join() === at.join());

/** A block or a part, with what it looks like, in the garment or not. */
function Block({ block, body, problems, faults, garment }) {
  const name = block.called ?? block.name;
  const kept = `${garment.file} ${name}`; // what it took the place of, to be given back
  const before = block.there && block.take_out.length ? JSON.parse(sessionStorage.getItem(kept) ?? "[]") : [];
  const back = before.map((value, place) => ({ in: "garment", do: "insert", at: ["part", block.back_at + place], value }));
  const put = (event) => {
    const on = event.target.checked;
    if (on) sessionStorage.setItem(kept, JSON.stringify(block.replaced));
    garment.change(on ? block.put_in : [...block.take_out, ...back], `${block.name} ${on ? "put in" : "taken out"}`);
  };
  const fixed = block.there && !block.take_out.length;
  const [none, setNone] = useState(false); // whether it can be drawn for no garment of this kind of body
  const out = { words: `Leave the ${name} out`, edits: block.take_out };
  const offered = problems.map((each) => (block.there && block.take_out.length ? { ...each, offers: [...each.offers, out] } : each));
  return html`<div class=${problems.length || faults.length ? "block of-it" : "block"} id=${idOf(block)} hidden=${none && !block.there}>
    <label>
      <${Picture} of="picture" name=${block.name} body=${body} none=${() => setNone(true)} key=${block.name} />
      <b><input type="checkbox" checked=${block.there} disabled=${fixed} onChange=${put} /> ${name}</b>
      <span class="small">
        ${capital(read(block.about))}${block.there && !block.at && " It stands in the file that this one follows."}
      </span>
      ${!block.there && block.in_place && html`<span class="small instead">${block.in_place}</span>`}
      ${before.length > 0 && html`<span class="small instead">Taken out, it gives back: ${before.map((each) => each.name).join(", ")}.</span>`}
    </label>
    <${Refusal} problems=${offered} garment=${garment} pending=${!block.there} />
    ${faults.map((each) => html`<div class="note">
      <p><b>${each.verdict === "fail" ? "A check fails" : "Look at"}: ${each.check}, ${read(each.where)}.</b> ${read(each.sentence)}</p>
      <div class="row"><${Offers} offers=${each.offers} take=${(offer) => garment.change(offer.edits, offer.words)} /></div>
    </div>`)}
  </div>`;
}

/** One option as a row: its name, its value, a slider where it has one.
 *  note: what is said below it; faults: the failed checks that another value of it mends */
export function Row({ field, name, unit, bare, problems, garment, note, faults = [] }) {
  const run = useRun(field.at.join("."));
  const id = field.at.join("-");
  const edits = (value) => [edit("garment", field.at, value)];
  const inWords = (value) => (value === "" ? "as it comes" : value === true ? "yes" : value === false ? "no" : value);
  const given = {
    field,
    unit,
    bare,
    label: name,
    send: (value) => garment.change(edits(value), `${name} ${inWords(value)}`, run()),
    attempt: (value, how) => (value === null ? garment.look() : garment.try(edits(value), how)),
    bad: problems.length > 0 || faults.length > 0,
    refused: problems.length > 0,
  };
  const refusal = html`<div class="below">
    <${Refusal} problems=${problems} garment=${garment} pending=${(field.asked ?? null) !== null} />
  </div>`;
  if (field.kind === "flag") return html`<div class="row-of"><${Field} ...${given} id=${id} />${refusal}</div>`;
  return html`<div class="row-of">
    <label for=${id}>${name}</label>
    <${Field} ...${given} id=${id} />
    ${slides(field) && (field.hers || field.first) && html`<div class="below"><${Slider} ...${given} id=${`${id}-slider`} /></div>`}
    ${note ?? (!field.hers && html`<p class="small below">${read(field.about)}</p>`)}
    ${refusal}
    ${faults.length > 0 && html`<div class="below note">
      <p><b>With this a check fails: ${faults.map((each) => each.check).join(", ")}.</b></p>
      <div class="row"><${Offers} offers=${faults.flatMap((each) => each.offers)} take=${(offer) => garment.change(offer.edits, offer.words)} /></div>
    </div>`}
  </div>`;
}

/** The row of one field of a question, with what is wrong with it. */
const fieldRow = ({ unit, bare, problems, garment }, field, name, note, faults) => html`<${Row}
  key=${name}
  field=${field}
  name=${name}
  unit=${unit}
  bare=${bare}
  problems=${problemsAt(problems, "garment", field.at)}
  garment=${garment}
  note=${note}
  faults=${faults}
/>`;

const NAMES = {
  stretch_along: "stretches along the grain by",
  weight: "how heavy it is",
  thickness: "how thick it is",
  beneath: "what is worn beneath is thick",
};

export class Cloth extends Still {
  render({ part, garment }) {
    const by = Object.fromEntries(part.fields.map((each) => [each.key, each]));
    const row = (field, name, note) => fieldRow(this.props, field, name, note);
    const kind = (value) => garment.change([edit("garment", by.kind.at, value)], `cloth ${value}`);
    const fit = (value) => garment.change([edit("garment", part.fit.at, value)], `worn ${value}`);
    const ease = (each) => each.at
      ? row(each, each.where, html`<${EaseNote} ease=${each} />`)
      : html`<div class="row-of"><span>${each.where}</span><span>${read(each.text)}</span></div>`;
    const has = (key) => problemsAt(this.props.problems, "garment", by[key].at).length > 0;
    const late = ["stretch_along", "weight", "thickness", "beneath"];
    const kindAsked = by.kind.asked ?? by.kind.value;
    return html`<section id="cloth" aria-labelledby="q3">
      <h2 id="q3">Of what cloth, and how close?</h2>
      <p class="answer">
        Of <${Choice} id="cloth-kind" label="Kind of cloth" value=${kindAsked} choices=${by.kind.choices} send=${kind} />
, worn <${Choice} id="cloth-fit" label="How close" value=${part.fit.value} choices=${part.fit.choices} send=${fit} />.
      </p>
      <div class="rows">
        ${(part.knit || has("stretch") || by.stretch.hers) && row(by.stretch, "stretches by")}
        ${row(by.width, "width")}
        ${row(by.shrinkage, "the wash takes")}
        ${row(by.repeat, "its pattern comes again after")}
        ${row(by.one_way, "all pieces lie with their tops one way")}
        ${row(by.over, "worn over")}
      </div>
      ${part.said.map((each) => html`<p class="small">${read(each)}</p>`)}
      <details class="others" open=${late.some(has)}>
        <summary>What else can be said of the cloth</summary>
        <div class="rows">${late.map((key) => row(by[key], NAMES[key]))}</div>
      </details>
      <details class="ease" open=${part.ease.some((each) => each.note)}>
        <summary>How much larger than you, place by place</summary>
        <p class="small">What you leave open is chosen for this cloth and fit.</p>
        <div class="rows">${part.ease.map(ease)}</div>
      </details>
    </section>`;
  }
}

/** What is usual at a place, what the garment measures there, and where that is not usual. */
function EaseNote({ ease }) {
  const said = [
    !ease.given && "chosen for you",
    ease.usual && `usual is ${read(ease.usual)}`,
    ease.finished && `it measures ${read(ease.finished)} there`,
  ].filter(Boolean);
  return html`<p class="small below">
    ${said.length > 0 && `${capital(said.join("; "))}.`}${ease.note && html`<b class="worth"> ${read(ease.note)}</b>`}
  </p>`;
}

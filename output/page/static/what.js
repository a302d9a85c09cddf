// What it is, and of what cloth: blocks and parts as small drawings of the engine's own, then cloth, fit and ease.

import { html } from "./vendor/preact-htm.js";
import { read } from "./lengths.js";
import { edit, Field, problemsAt, Refusal, Slider, Still, useRun } from "./parts.js";

export class What extends Still {
  render({ part, unit, bare, problems, garment }) {
    const parts = part.parts.filter((each) => each.there || !each.instead);
    const fields = [...part.blocks, ...parts].flatMap((each) => each.fields.map((field) => ({ field, of: each.name })));
    const first = fields.filter(({ field }) => field.hers || field.kind === "length");
    const rest = fields.filter((each) => !first.includes(each));
    const row = ({ field, of }) => html`<${Row} key=${`${of} ${field.key}`} field=${field} name=${`${of}, ${field.name}`} unit=${unit} bare=${bare} problems=${problemsAt(problems, "garment", field.at)} garment=${garment} />`;
    return html`<section id="what" aria-labelledby="q2">
      <h2 id="q2">What is it?</h2>
      <div class="blocks">${[...part.blocks, ...parts].map((each) => html`<${Block} key=${each.name} block=${each} garment=${garment} only=${part.blocks.filter((one) => one.there).length === 1} />`)}</div>
      <div class="rows">${first.map(row)}</div>
      ${rest.length > 0 && html`<details class="others"><summary>What else can be said of them</summary><div class="rows">${rest.map(row)}</div></details>`}
    </section>`;
  }
}

function Block({ block, garment, only }) {
  const kind = block.add[0];
  const put = (on) => {
    const value = { name: block.name };
    const edits = on ? [{ in: "garment", do: "insert", at: block.add, value }] : [{ in: "garment", do: "remove", at: block.at }];
    garment.change(edits, `${block.name} ${on ? "put in" : "taken out"}`);
  };
  const fixed = block.there && (!block.at || (only && kind === "block"));
  return html`<label class="block">${block.picture && html`<${Picture} picture=${block.picture} />`}
    <b><input type="checkbox" checked=${block.there} disabled=${fixed} onChange=${(event) => put(event.target.checked)} /> ${block.name}</b>
    <span class="small">${read(block.about)}${block.there && !block.at && " It stands in the file that this one follows."}</span></label>`;
}

class Picture extends Still {
  render({ picture }) {
    const [left, top, width, height] = picture.box;
    return html`<svg class="flat" viewBox=${`${left - 4} ${top - 4} ${width + 8} ${height + 8}`} aria-hidden="true">${Object.entries(picture.lines).map(([kind, d]) => html`<path key=${kind} class=${kind} d=${d} />`)}</svg>`;
  }
}

/** One option as a row: its name, its value, a slider where it has one. */
export function Row({ field, name, unit, bare, problems, garment, note }) {
  const run = useRun(field.at.join("."));
  const id = field.at.join("-");
  const edits = (value) => [edit("garment", field.at, value)];
  const send = (value) => garment.change(edits(value), `${name} ${value === "" ? "as it comes" : value === true ? "yes" : value === false ? "no" : value}`, run());
  const attempt = (value) => (value === null ? garment.look() : garment.try(edits(value)));
  const slides = field.scale && field.hers;
  if (field.kind === "flag") return html`<div class="row-of"><${Field} field=${field} unit=${unit} id=${id} label=${name} send=${send} /></div>`;
  return html`<div class="row-of"><label for=${id}>${name}</label>
    <${Field} field=${field} unit=${unit} bare=${bare} id=${id} label=${name} send=${send} attempt=${attempt} bad=${problems.length > 0} refused=${problems.length > 0} />
    ${slides && html`<div class="below"><${Slider} field=${field} unit=${unit} id=${`${id}-slider`} label=${name} send=${send} attempt=${attempt} /></div>`}
    ${note ?? (!field.hers && html`<p class="small below">${read(field.about)}</p>`)}
    <div class="below"><${Refusal} problems=${problems} take=${(offer) => garment.change(offer.edits, offer.words)} /></div></div>`;
}

export class Cloth extends Still {
  render({ part, unit, bare, problems, garment }) {
    const by = Object.fromEntries(part.fields.map((each) => [each.key, each]));
    const at = (field) => problemsAt(problems, "garment", field.at);
    const row = (field, name, note) => field && html`<${Row} key=${name} field=${field} name=${name} unit=${unit} bare=${bare} problems=${at(field)} garment=${garment} note=${note} />`;
    const knit = by.kind.value === "knit";
    const kind = (value) => {
      const edits = [edit("garment", by.kind.at, value)];
      if (value === "knit" && !by.stretch.hers) edits.push(edit("garment", by.stretch.at, "30 %"));
      garment.change(edits, `cloth ${value}`);
    };
    return html`<section id="cloth" aria-labelledby="q3">
      <h2 id="q3">Of what cloth, and how close?</h2>
      <p class="answer">Of a <select class="fill" aria-label="Kind of cloth" value=${by.kind.value} onChange=${(event) => kind(event.target.value)}>${by.kind.choices.map((each) => html`<option value=${each} selected=${each === by.kind.value}>${each}</option>`)}</select> cloth, worn
        ${" "}<select class="fill" aria-label="How close" value=${part.fit.value} onChange=${(event) => garment.change([edit("garment", part.fit.at, event.target.value)], `worn ${event.target.value}`)}>${part.fit.choices.map((each) => html`<option value=${each} selected=${each === part.fit.value}>${each}</option>`)}</select>.</p>
      <div class="rows">${knit && row(by.stretch, "stretches by")}${row(by.width, "width")}${row(by.shrinkage, "the wash takes")}${row(by.repeat, "its pattern comes again after")}${row(by.one_way, "all pieces lie with their tops one way")}</div>
      <details class="ease" open=${part.ease.some((each) => each.note)}><summary>How much larger than you, place by place</summary>
        <p class="small">What you leave open is chosen for this cloth and fit.</p>
        <div class="rows">${part.ease.map((each) => each.at ? row(each, each.where, html`<p class="small below">${each.given ? "" : "chosen for you"}${each.usual && `${each.given ? "" : "; "}usual is ${read(each.usual)}`}${each.finished && `${each.given && !each.usual ? "" : "; "}it measures ${read(each.finished)} there`}.${each.note && html`<b class="worth"> ${read(each.note)}</b>`}</p>`) : html`<div class="row-of"><span>${each.where}</span><span>${read(each.text)}</span></div>`)}</div></details>
    </section>`;
  }
}

// Does it go together: the verdict, what failed with what mends it, and what the finished garment will measure.

import { html, useEffect, useState } from "./vendor/preact-htm.js";
import { idOf } from "./find.js";
import { read } from "./lengths.js";
import { focusOn, Offers, Still } from "./parts.js";
import { ask } from "./store.js";
import { Told } from "./told.js";
import { Wearers } from "./wearers.js";

export class Together extends Still {
  render({ part, sizes, people, garment }) {
    return html`<section id="together" aria-labelledby="q5">
      <h2 id="q5">Does it go together?</h2>
      <div class="verdict" id="verdict" data-state=${part.state}>
        <p class="big">${part.verdict}</p>
        <ul class="faults">${part.faults.map((each) => html`<${Fault} fault=${each} garment=${garment} />`)}</ul>
      </div>
      ${part.child.length > 0 && html`<div class="note" id="for-a-child" role="group" aria-label="For a child">
        <p><b>For a child</b></p>${part.child.map((each) => html`<p>${read(each)}</p>`)}
      </div>`}
      <${Looked} garment=${garment} version=${garment.state.version} />
      ${sizes && html`<${Sizes} sizes=${sizes} />`}
      <h3 id="measures">What it will measure</h3>
      <div class="wide" tabindex="0" role="region" aria-labelledby="measures">
        <${Measures} rows=${part.finished} />
      </div>
      <div id="together-more"></div>
      ${people.length > 0 && html`<${Wearers} people=${people} garment=${garment} />`}
    </section>`;
  }
}

/** Everything that the checks looked at, asked for when it is opened. */
function Looked({ garment, version }) {
  const [open, setOpen] = useState(false);
  const [said, setSaid] = useState([]);
  useEffect(() => {
    if (open) ask("looked", { file: garment.file }).then((told) => setSaid(told.said), () => setSaid([]));
  }, [open, version]);
  return html`<details class="others" onToggle=${(event) => setOpen(event.target.open)}>
    <summary>Everything that was looked at</summary>
    ${open && html`<${Told} said=${said} id="looked" />`}
  </details>`;
}

/** How each of several sizes went, and what each will measure. */
function Sizes({ sizes }) {
  if (sizes.refused.length) return html`<div class="refusal" role="group" aria-label="The sizes">
    <p><b>These sizes cannot be drawn over each other.</b></p>
    ${sizes.refused.map((each) => html`<p>${read(each)}</p>`)}
  </div>`;
  if (!sizes.sizes.length) return null;
  const one = ({ size, state, verdict, dash }) => html`<li class=${state === "failed" ? "fail" : ""}>
    <b>Size ${size}:</b> <${SizeLine} dash=${dash} /> ${verdict}
  </li>`;
  return html`<h3 id="by-size">In each size</h3>
    <ul class="faults">${sizes.sizes.map(one)}</ul>
    <div class="wide" tabindex="0" role="region" aria-labelledby="by-size">
      <table>
        <thead><tr><th scope="col">where</th>${sizes.sizes.map(({ size }) => html`<th scope="col">size ${size}</th>`)}</tr></thead>
        <tbody>${sizes.finished.map((each) => html`<tr key=${each.name}>
          <th scope="row">${each.name}</th>${each.by_size.map((text) => html`<td>${read(text)}</td>`)}
        </tr>`)}</tbody>
      </table>
    </div>
    <p class="small">The cards, the edges and the seams above are of size ${sizes.drawn}.</p>`;
}

/** The line that a size is drawn and printed with. */
const SizeLine = ({ dash }) => html`<svg class="size-line" viewBox="0 0 60 6" aria-hidden="true">
  <path d="M0 3H60" stroke-dasharray=${dash.map((each) => 1.6 * each).join(" ") || null} /></svg>`;

function Fault({ fault, garment }) {
  const failed = fault.verdict === "fail";
  const take = (offer) => garment.change(offer.edits, offer.words).then(() => focusOn("verdict"));
  const [id, name] = fault.step === null ? [fault.of && idOf({ name: fault.of }), fault.of] : [`step-${fault.step}`, "the change"];
  const go = () => {
    document.getElementById(id)?.scrollIntoView({ block: "center" });
    focusOn(document.getElementById(id)?.querySelector("input")?.id || id);
  };
  return html`<li class=${fault.verdict}>
    <b>${failed ? "Fails" : "Look at"}: ${fault.check}, ${read(fault.where)}.</b> ${read(fault.sentence)}
    <span class="row">
      <${Offers} offers=${fault.offers} main=${failed} take=${take} />
      ${id && html`<button type="button" class="plain" onClick=${go}>Go to ${name}</button>`}
    </span>
  </li>`;
}

function Measures({ rows }) {
  const moved = rows.some((each) => each.before);
  const heads = ["where", "you", "ease", ...(moved ? ["before"] : []), "finished"];
  return html`<table>
    <thead><tr>${heads.map((each) => html`<th key=${each} scope="col">${each}</th>`)}</tr></thead>
    <tbody>${rows.map((each) => html`<tr key=${each.name}>
      <th scope="row">${each.name}</th>
      <td>${read(each.body)}</td>
      <td>${read(each.ease)}</td>
      ${moved && html`<td class="did">${read(each.before)}</td>`}
      <td class="is">${read(each.finished)}</td>
    </tr>`)}</tbody>
  </table>`;
}

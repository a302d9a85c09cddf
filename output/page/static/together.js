// Does it go together: the verdict, what failed with what mends it, and what the finished garment will measure.

import { html } from "./vendor/preact-htm.js";
import { read } from "./lengths.js";
import { focusOn, Offers, Still } from "./parts.js";

export class Together extends Still {
  render({ part, garment }) {
    return html`<section id="together" aria-labelledby="q5">
      <h2 id="q5">Does it go together?</h2>
      <div class="verdict" id="verdict" data-state=${part.state}>
        <p class="big">${part.verdict}</p>
        <ul class="faults">${part.faults.map((each) => html`<${Fault} fault=${each} garment=${garment} />`)}</ul>
      </div>
      <h3 id="measures">What it will measure</h3>
      <div class="wide" tabindex="0" role="region" aria-labelledby="measures">
        <${Measures} rows=${part.finished} />
      </div>
      <div id="together-more"></div>
    </section>`;
  }
}

function Fault({ fault, garment }) {
  const failed = fault.verdict === "fail";
  const take = (offer) => garment.change(offer.edits, offer.words).then(() => focusOn("verdict"));
  return html`<li class=${fault.verdict}>
    <b>${failed ? "Fails" : "Look at"}: ${fault.check}, ${read(fault.where)}.</b> ${read(fault.sentence)}
    ${fault.offers.length > 0 && html`<span class="row"><${Offers} offers=${fault.offers} main=${failed} take=${take} /></span>`}
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

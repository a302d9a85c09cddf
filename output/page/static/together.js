// Does it go together: the verdict, what failed with what mends it, and what the finished garment will measure.

import { html } from "./vendor/preact-htm.js";
import { read } from "./lengths.js";
import { focusOn, Offers, Still } from "./parts.js";

export class Together extends Still {
  render({ part, garment }) {
    const faults = part.faults.map((each) => html`<li key=${`${each.check} ${each.where}`} class=${each.verdict}>
      <b>${each.verdict === "fail" ? "Fails" : "Look at"}: ${each.check}, ${read(each.where)}.</b> ${read(each.sentence)}
      ${each.offers.length > 0 && html`<span class="row"><${Offers} offers=${each.offers} main=${each.verdict === "fail"} take=${(offer) => garment.change(offer.edits, offer.words).then(() => focusOn("verdict"))} /></span>`}</li>`);
    const did = part.finished.some((each) => each.before);
    return html`<section id="together" aria-labelledby="q5">
      <h2 id="q5">Does it go together?</h2>
      <div class="verdict" id="verdict" data-state=${part.state}><p class="big">${part.verdict}</p>
        ${faults.length > 0 && html`<ul class="faults">${faults}</ul>`}</div>
      <h3 id="measures">What it will measure</h3>
      <div class="wide" tabindex="0" role="region" aria-labelledby="measures"><table>
        <thead><tr><th scope="col">where</th><th scope="col">you</th><th scope="col">ease</th>${did && html`<th scope="col">before</th>`}<th scope="col">finished</th></tr></thead>
        <tbody>${part.finished.map((each) => html`<tr key=${each.name} class=${each.before ? "moved" : ""}><th scope="row">${each.name}</th><td>${read(each.body)}</td><td>${read(each.ease)}</td>
          ${did && html`<td class="did">${read(each.before)}</td>`}<td class="is">${read(each.finished)}</td></tr>`)}</tbody></table></div>
      <div id="together-more"></div>
    </section>`;
  }
}

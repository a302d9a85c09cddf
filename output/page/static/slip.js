// The note on the table: how it goes together, what is hatched, what the last change moved most.

import { read } from "./lengths.js";
import { html, render } from "./vendor/preact-htm.js";

export class Slip {
  constructor(host, garment) {
    this.host = host;
    this.garment = garment;
  }

  update() {
    const { slip, head, together } = this.garment.parts;
    if (!slip) return;
    const fault = together?.faults?.[0];
    this.host.dataset.state = slip.state;
    const offers = slip.state === "calm" ? [] : (fault?.offers ?? []).slice(0, 2);
    render(html`<div>
        <p class="slip-word">${head?.verdict ?? ""}</p>
        ${slip.state !== "calm" && fault && html`<p class="slip-more fault"><b>${read(fault.where)}:</b> ${read(fault.sentence)}</p>`}
        ${slip.hatched && html`<p class="slip-more hatched">${slip.hatched}</p>`}
        ${slip.moved.length > 0 && html`<ul class="slip-moved" aria-label="What the last change did">
          ${slip.moved.map((each) => html`<li key=${each.name}><span>${each.name}</span> <span>${read(each.before)} → <b>${read(each.after)}</b></span></li>`)}
        </ul>`}
      </div>
      ${offers.length > 0 && html`<div class="slip-do">${offers.map((offer) => html`<button type="button" key=${offer.words}
        onClick=${() => this.garment.change(offer.edits, offer.words)}>${read(offer.words)}</button>`)}</div>`}`, this.host);
  }
}

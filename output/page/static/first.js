// What is in the folder: people, garments, and how to begin the first ones.

import { html } from "./vendor/preact-htm.js";

export function First({ known }) {
  return html`<header class="head"><p class="small house">trueseam</p><h1>What shall we make?</h1><p class="for">Everything here lies in <code>${known.folder}</code>, on this machine and nowhere else.</p></header>
    ${known.trouble && html`<p class="refusal" role="alert">${known.trouble}</p>`}
    <section aria-labelledby="garments"><h2 id="garments">Garments</h2>
      <ul class="garments">${known.garments.map((each) => html`<li key=${each.file}><a href=${`#${each.file}`}>${each.picture && html`<img src=${`data:image/svg+xml,${encodeURIComponent(each.picture)}`} alt="" />`}<b>${each.title}</b><span class="small">${each.problem ?? each.file}</span></a></li>`)}</ul></section>
    <section aria-labelledby="people"><h2 id="people">People</h2><ul class="people">${known.people.map((each) => html`<li key=${each.file}><b>${each.name}</b> <span class="small">${each.problem ?? each.file}</span></li>`)}</ul></section>`;
}

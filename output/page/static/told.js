// What the engine tells in passages and tables, and the pictures that go with it.

import { html } from "./vendor/preact-htm.js";
import { read } from "./lengths.js";

/** Passages {title, sentences} and tables {title, columns, rows, below}, one below the other. */
export function Told({ said, id }) {
  return said.map((each, place) => (each.columns
    ? html`<${ToldTable} key=${place} table=${each} id=${`${id}-${place}`} />`
    : html`<div key=${place}>
      ${each.title && html`<h3>${each.title}</h3>`}
      ${each.sentences.map((sentence) => html`<p>${read(sentence)}</p>`)}
    </div>`));
}

function ToldTable({ table, id }) {
  const row = (cells) => html`<tr>${cells.map((cell, at) => (at ? html`<td>${read(cell)}</td>` : html`<th scope="row">${read(cell)}</th>`))}</tr>`;
  return html`<h3 id=${id}>${table.title}</h3>
    <div class="wide words" tabindex="0" role="region" aria-labelledby=${id}>
      <table>
        <thead><tr>${table.columns.map((each) => html`<th scope="col">${each || "what"}</th>`)}</tr></thead>
        <tbody>${table.rows.map(row)}</tbody>
      </table>
    </div>
    ${table.below.map((each) => html`<p class="small">${read(each)}</p>`)}`;
}

/** A picture that the engine drew, on white ground; what it shows is said beside it. */
export const Drawn = ({ svg, name }) => html`<img
  class="drawn"
  alt=${name}
  src=${`data:image/svg+xml,${encodeURIComponent(svg.replaceAll("currentColor", "#182428"))}`}
/>`;

// A child: how she grows, what of the garment lasts until when, and what is left in it to be let down.

import { html, useEffect, useState } from "./vendor/preact-htm.js";
import { edit, Refusal, problemsAt } from "./parts.js";
import { Keep } from "./keep.js";
import { ask } from "./store.js";
import { Drawn, Told } from "./told.js";

/** part: what the sheet knows of the wearer; grow: the day until which the garment is to fit, "" for none */
export function Growth({ part, problems, garment }) {
  const [open, setOpen] = useState(false);
  const [told, setTold] = useState(null);
  const version = garment.state.version;
  useEffect(() => {
    if (!open) return;
    let isNewest = true;
    ask("growth", { file: garment.file, until: part.grow }).then(
      (answer) => isNewest && setTold(answer),
      (refusal) => isNewest && setTold({ trouble: refusal.message }),
    );
    return () => (isNewest = false);
  }, [open, version]);
  const born = (event) => garment.change([edit("person", ["born"], event.target.value)], `born on ${event.target.value}`);
  const until = (event) => {
    const day = event.target.value;
    const edits = [day ? edit("garment", ["grow", "until"], day) : { in: "garment", do: "remove", at: ["grow"] }];
    garment.change(edits, day ? `to fit until ${day}` : "no room to grow");
  };
  return html`<p class="answer">
      Born on <input class="fill" type="date" aria-label="Born on" value=${part.born} onChange=${born} />.${" "}
      It is to fit until <input class="fill" type="date" aria-label="It is to fit until" value=${part.grow} onChange=${until} />${" "}
      <span class="small">${part.grow ? "room to grow is left in it" : "left open, no room to grow is left in it"}</span>
    </p>
    <${Refusal} problems=${problemsAt(problems, "garment", ["grow"])} garment=${garment} pending=${true} />
    <details class="others" onToggle=${(event) => setOpen(event.target.open)}>
      <summary>How ${part.name} grows, and what lasts until when</summary>
      ${told?.trouble && html`<p class="note">${told.trouble}</p>`}
      ${told?.chart && html`<${Drawn} svg=${told.chart} name=${`How ${part.name} grows until ${told.until}: the numbers stand below`} />
        <${Told} said=${told.said} id="growth" />
        <p class="row"><${Keep} words="A page of it, to print" made=${() => ({ name: `${part.name} grows.html`, page: told.page })} /></p>`}
    </details>`;
}

/** Her lengths over time, where they were taken on more than one day. */
export function OverTime({ garment }) {
  const [rows, setRows] = useState(null);
  const version = garment.state.version;
  useEffect(() => {
    let isNewest = true;
    ask("over", { file: garment.file }).then((answer) => isNewest && setRows(answer.rows), () => {});
    return () => (isNewest = false);
  }, [version]);
  if (!rows?.length) return null;
  const days = [...new Set(rows.flatMap((row) => row.days.map((each) => each.day)))].sort();
  const line = (row) => html`<tr key=${row.name}>
    <th scope="row">${row.name}</th>
    ${days.map((day) => html`<td>${row.days.find((each) => each.day === day)?.text ?? ""}</td>`)}
    <td class="did">${row.per_year}</td>
  </tr>`;
  return html`<h3 id="over-time">Over time</h3>
    <div class="wide" tabindex="0" role="region" aria-labelledby="over-time">
      <table>
        <thead><tr><th scope="col">length</th>${days.map((day) => html`<th scope="col">${day}</th>`)}<th scope="col">in a year</th></tr></thead>
        <tbody>${rows.map(line)}</tbody>
      </table>
    </div>`;
}

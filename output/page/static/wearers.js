// One garment for several people, side by side.

import { html, useEffect, useState } from "./vendor/preact-htm.js";
import { read } from "./lengths.js";
import { Check } from "./parts.js";
import { ask } from "./store.js";

export function Wearers({ people, garment }) {
  const [chosen, setChosen] = useState([]);
  const [told, setTold] = useState(null);
  const version = garment.state.version;
  useEffect(() => {
    if (!chosen.length) return setTold(null);
    let isNewest = true;
    ask("wearers", { file: garment.file, people: chosen }).then(
      (answer) => isNewest && setTold(answer),
      (refusal) => isNewest && setTold({ trouble: refusal.message }),
    );
    return () => (isNewest = false);
  }, [chosen.join(), version]);
  const which = (each) => html`<${Check}
    on=${chosen.includes(each.file)}
    label=${each.name}
    send=${(on) => setChosen(on ? [...chosen, each.file] : chosen.filter((file) => file !== each.file))}
  />`;
  return html`<details class="others">
    <summary>For several people, side by side</summary>
    <p class="small">The same garment, drafted for each from her own lengths. Nothing is written.</p>
    <div class="row" role="group" aria-label="For whom, side by side">${people.map(which)}</div>
    <div aria-live="polite">
      ${told?.trouble && html`<p class="note">${told.trouble}</p>`}
      ${told?.people && html`<${SideBySide} told=${told} />`}
    </div>
  </details>`;
}

function SideBySide({ told }) {
  const one = (each) => html`<li class=${each.state === "failed" ? "fail" : ""}>
    <b>${each.name}: ${{ calm: "it goes together.", warning: "look at it again.", failed: "it does not go together." }[each.state]}</b>
    ${" "}${read(each.sentences.join(" "))}
  </li>`;
  return html`<ul class="faults">${told.people.map(one)}</ul>
    <h3 id="side-by-side">What it will measure for each</h3>
    <div class="wide" tabindex="0" role="region" aria-labelledby="side-by-side">
      <table>
        <thead><tr><th scope="col">where</th>${told.people.map((each) => html`<th scope="col">${each.name}</th>`)}</tr></thead>
        <tbody>${told.rows.map((row) => html`<tr key=${row.name}>
          <th scope="row">${row.name}</th>${row.cells.map((cell) => html`<td>${read(cell ?? "")}</td>`)}
        </tr>`)}</tbody>
      </table>
    </div>`;
}

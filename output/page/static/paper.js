// On paper: what it is printed on, and what is made of it, with progress, to be stopped and to be kept.

import { html, useEffect, useState } from "./vendor/preact-htm.js";
import { Check, problemsAt, Still } from "./parts.js";
import { ask } from "./store.js";
import { Row } from "./what.js";

const THINGS = [
  ["print-at-home", "The pattern to print at home (PDF)"],
  ["copy-shop", "For a copy shop, on large paper (PDF)"],
  ["report", "The report: how to sew it, with every number"],
  ["dxf", "A drawing for a cutter (DXF)"],
  ["lay", "How it lies on the cloth, and how much to buy"],
  ["all-files", "All of it: sheets, pieces, drawings, report (ZIP)"],
];

const FOLDS = [["", "lengthwise, selvedge to selvedge"], ["double", "double"], ["single", "not at all"], ["across", "across"]];
const LAY = [
  ["width", "another width", { cm: "140 cm", in: "55 in" }],
  ["repeat_across", "its pattern comes again across after", { cm: "none", in: "none" }],
  ["have", "how much there is", { cm: "180 cm", in: "2 yd" }],
  ["seconds", "seconds to look for a shorter lay", { cm: "6" }],
];

const NAMES = {
  size: "paper",
  seam_allowance: "added for seams",
  hem: "turned up for hems",
  roll: "the copy shop's roll is wide",
};

export class Paper extends Still {
  render({ part, sizes, people, unit, bare, problems, garment }) {
    const row = (field) => html`<${Row}
      key=${field.key}
      field=${field}
      name=${NAMES[field.key] ?? field.name}
      unit=${unit}
      bare=${bare}
      problems=${problemsAt(problems, "garment", field.at)}
      garment=${garment}
      note=${field.key === "roll" ? undefined : false}
    />`;
    return html`<section id="paper" aria-labelledby="q6">
      <h2 id="q6">On paper, and out of how much cloth?</h2>
      ${part.failed && html`<p class="note">
        A check fails. What is made now says so on its first sheet: do not cut yet.
      </p>`}
      <div class="rows">${part.fields.map(row)}</div>
      <h3>Make it</h3>
      <${Things} pieces=${part.pieces} people=${people} unit=${unit} sizes=${(sizes?.sizes ?? []).map((each) => each.size)} garment=${garment} />
    </section>`;
  }
}

/** What can be made, of all pieces or of some; each with how far it has come. */
function Things({ pieces, sizes, people, unit, garment }) {
  const [said, setSaid] = useState({ for: "", fold: "", width: "", repeat_across: "", have: "", seconds: "" });
  const say = (key) => (event) => setSaid((now) => ({ ...now, [key]: event.target.value }));
  const [out, setOut] = useState([]);
  const [without, setWithout] = useState([]);
  const [jobs, setJobs] = useState({});
  const put = (job) => setJobs((now) => ({ ...now, [job.id]: { ...now[job.id], ...job } }));
  useEffect(() => {
    const hear = ({ detail: { job } }) => job && put(job);
    addEventListener("told", hear);
    return () => removeEventListener("told", hear);
  }, []);
  const chosen = pieces.filter((each) => !out.includes(each));
  const inSizes = sizes.filter((each) => !without.includes(each));
  const make = async (what) => {
    const options = { ...said, pieces: chosen.length < pieces.length ? chosen : [], sizes: inSizes };
    try {
      const { job } = await ask("make", { file: garment.file, what, options });
      setJobs((now) => ({ ...now, [job]: { id: job, what, state: "working", doing: "beginning", share: 0, ...now[job] } }));
    } catch (refusal) {
      put({ id: what, what, state: "failed", sentences: [refusal.message] });
    }
  };
  const which = (piece) => html`<${Check}
    on=${!out.includes(piece)}
    label=${piece}
    send=${(on) => setOut(on ? out.filter((each) => each !== piece) : [...out, piece])}
  />`;
  const size = (each) => html`<${Check}
    on=${!without.includes(each)}
    label=${each}
    send=${(on) => setWithout(on ? without.filter((one) => one !== each) : [...without, each])}
  />`;
  const thing = ([what, name]) => {
    const job = Object.values(jobs).findLast((each) => each.what === what);
    const busy = job?.state === "working";
    return html`<li key=${what}>
      <button
        type="button"
        class=${what === "print-at-home" ? "main" : ""}
        disabled=${busy || !chosen.length || (sizes.length > 0 && !inSizes.length)}
        onClick=${() => make(what)}
      >${name}</button>
      ${job && html`<${Job} job=${job} />`}
    </li>`;
  };
  return html`
    ${pieces.length > 1 && html`<details>
      <summary>Which pieces: ${chosen.length === pieces.length ? "all" : chosen.join(", ") || "none"}</summary>
      <div class="row">${pieces.map(which)}</div>
    </details>`}
    ${sizes.length > 1 && html`<details>
      <summary>Which sizes: ${inSizes.length === sizes.length ? "all, one over the other" : inSizes.join(", ") || "none"}</summary>
      <div class="row">${sizes.map(size)}</div>
      <p class="small">The report, the drawing for a cutter and the lay are of the size on the table.</p>
    </details>`}
    <p class="small">
      Print at 100 %, never “fit to page”. The first sheet carries two squares to measure before anything is cut.
    </p>
    ${people.length > 1 && html`<p><label for="made-for">Made for</label>${" "}
      <select class="fill" id="made-for" value=${said.for} onChange=${say("for")}>
        <option value="">whom it is for</option>${people.map((each) => html`<option value=${each.file}>${each.name}</option>`)}
      </select></p>`}
    <details>
      <summary>How the cloth lies, and how much of it there is</summary>
      <div class="rows">
        <div class="row-of"><label for="lay-fold">folded</label>
          <select class="fill" id="lay-fold" value=${said.fold} onChange=${say("fold")}>
            ${FOLDS.map(([each, name]) => html`<option value=${each}>${name}</option>`)}
          </select></div>
        ${LAY.map(([key, name, example]) => html`<div class="row-of"><label for=${`lay-${key}`}>${name}</label>
          <input class="fill" id=${`lay-${key}`} type="text" autocomplete="off" placeholder=${example[unit] ?? example.cm}
            value=${said[key]} onInput=${say(key)} /></div>`)}
      </div>
    </details>
    <ul class="things">${THINGS.map(thing)}</ul>`;
}

export function Job({ job }) {
  const id = `job-${job.id}`;
  if (job.state === "working") {
    return html`<div class="making">
      <label for=${id}>${job.doing}</label>
      <progress id=${id} max="1" value=${job.share}></progress>
      <button type="button" onClick=${() => ask("stop", { job: job.id }).catch(() => {})}>Stop</button>
    </div>`;
  }
  if (job.state === "done") {
    return html`<p class="told" role="status">
      Made: <a href=${`api/made/${job.id}`} download=${job.name_of}>${job.name_of}</a>
    </p>`;
  }
  const told = job.state === "stopped" ? "Stopped. Nothing was made." : (job.sentences ?? []).join(" ");
  return html`<p class="told" role="status">${told}</p>`;
}

// Patterns from elsewhere: a DXF of pieces or a pattern.json, brought in, looked at, named, checked, put on paper.

import { html, useEffect, useState } from "./vendor/preact-htm.js";
import { read } from "./lengths.js";
import { Job } from "./paper.js";
import { ask } from "./store.js";
import { Drawn, Told } from "./told.js";

const LARGEST = 14_000_000; // bytes: what the server takes, once it is written as letters

/** Those that lie in the folder, and how another is brought in. */
export function Patterns({ patterns, open }) {
  const [wrong, setWrong] = useState("");
  const bring = async (event) => {
    const files = [...event.target.files];
    const pattern = files.find(({ name }) => /\.(dxf|json)$/i.test(name));
    const names = files.find(({ name }) => /\.toml$/i.test(name));
    event.target.value = "";
    try {
      if (!pattern) throw new Error("Choose a DXF of pieces (.dxf) or a pattern.json, with its .toml if it has one.");
      if (pattern.size > LARGEST) throw new Error("That file is larger than any pattern.");
      const { file } = await ask("bring", { name: pattern.name, content: await letters(pattern), names: names ? await names.text() : "" });
      open(file);
    } catch (refusal) {
      setWrong(refusal.message);
    }
  };
  return html`<section aria-labelledby="elsewhere">
    <h2 id="elsewhere">Patterns from elsewhere</h2>
    <p class="small">A drawing of pieces (DXF), with the file that names its places and seams if it has one, or a pattern.json: looked at, checked, put on paper.</p>
    <ul class="people">${patterns.map((file) => html`<li key=${file}>
      <button type="button" class="plain" onClick=${() => open(file)}>${file}</button>
    </li>`)}</ul>
    <p><label for="bring">Bring one in:</label> <input id="bring" type="file" multiple accept=".dxf,.json,.toml" onChange=${bring} /></p>
    ${wrong && html`<p class="refusal" role="alert">${wrong}</p>`}
  </section>`;
}

/** What is in a file, as letters that JSON can hold. */
async function letters(file) {
  const url = await new Promise((done, failed) => {
    const reader = new FileReader();
    reader.onload = () => done(reader.result);
    reader.onerror = () => failed(new Error("That file cannot be read."));
    reader.readAsDataURL(file);
  });
  return url.slice(url.indexOf(",") + 1);
}

/** One of them. */
export function Brought({ file, leave }) {
  const [unit, setUnit] = useState("cm");
  const [paper, setPaper] = useState("A4");
  const [told, setTold] = useState(null);
  const [typed, setTyped] = useState(null); // what she types of the names, null for what stands there
  const [wrong, setWrong] = useState("");
  const [job, setJob] = useState(null);
  const look = () => ask("brought", { file, unit }).then(setTold, (refusal) => setWrong(refusal.message));
  useEffect(() => void look(), [file, unit]);
  useEffect(() => {
    const hear = ({ detail: { job: now } }) => now && setJob((last) => (last?.id === now.id ? { ...last, ...now } : last));
    addEventListener("told", hear);
    return () => removeEventListener("told", hear);
  }, []);
  const write = async () => {
    try {
      await ask("names", { file, was: told.names, text: typed });
      setWrong("");
      setTyped(null);
      look();
    } catch (refusal) {
      setWrong(refusal.message);
    }
  };
  const make = async () => {
    try {
      const { job: id } = await ask("make", { file, what: "brought-files", options: { paper, unit } });
      setJob({ id, state: "working", doing: "beginning", share: 0 });
    } catch (refusal) {
      setJob({ id: "none", state: "failed", sentences: [refusal.message] });
    }
  };
  const pick = (id, name, value, choices, put) => html`<label for=${id}>${name}</label>${" "}
    <select class="fill" id=${id} value=${value} onChange=${(event) => put(event.target.value)}>
      ${choices.map(([each, words]) => html`<option value=${each}>${words}</option>`)}
    </select>`;
  return html`<header class="head"><p class="small house">trueseam</p><h1 id="brought">${told?.title ?? file}</h1>
      <p class="for"><code>${file}</code></p>
      <div class="row"><button type="button" onClick=${leave}>Back to the wardrobe</button></div></header>
    <section class="plain" aria-labelledby="brought">
      <p>${pick("brought-unit", "Lengths in", unit, [["cm", "cm"], ["in", "inches"], ["mm", "mm"]], setUnit)}</p>
      ${wrong && html`<p class="refusal" role="alert">${wrong}</p>`}
      ${!told && !wrong && html`<p role="status">Looking at it …</p>`}
      ${told?.problems.length > 0 && html`<div class="refusal" role="alert"><p><b>It cannot be used as it stands.</b></p>
        <ul>${told.problems.map((each) => html`<li>${read(each)}</li>`)}</ul></div>`}
      ${told?.picture && html`<h2 class="smaller">What was found</h2>
        <${Told} said=${told.said.filter((each) => !each.columns)} id="brought" />`}
      ${told?.picture && html`<${Drawn} svg=${told.picture} name="Its pieces" />`}
      ${told?.picture && html`<h2 class="smaller">On paper</h2>
        <p>${pick("brought-paper", "Printed on", paper, ["A4", "Letter", "A3", "A0"].map((each) => [each, each]), setPaper)}</p>
        <p class="row"><button type="button" class="main" disabled=${job?.state === "working"} onClick=${make}>Sheets, pieces, DXF and pattern.json (ZIP)</button></p>
        ${job && html`<${Job} job=${job} />`}`}
      ${told && told.names !== null && html`<h2 class="smaller">What its edges are, what is sewn to what, how it is altered</h2>
        <label class="small" for="brought-names">Written beside it, in ${file.replace(/\.dxf$/i, ".toml")}; the edges are listed below by name.</label>
        <textarea id="brought-names" class="rows-typed" rows="12" spellcheck="false" placeholder=${NAMES_EXAMPLE}
          value=${typed ?? told.names} onInput=${(event) => setTyped(event.target.value)}></textarea>
        <div class="row"><button type="button" disabled=${typed === null} onClick=${write}>Write it, and check again</button></div>`}
      ${told && html`<details class="others" open=${told.names === "" || undefined}>
        <summary>Every edge, and everything that was looked at</summary>
        <h2 class="smaller">In every piece</h2>
        <${Told} said=${told.said.filter((each) => each.columns)} id="brought-all" />
      </details>`}
    </section>`;
}

const NAMES_EXAMPLE = `[[seam]]
name = "side"
a = ["front: side"]
b = ["back: side"]`;

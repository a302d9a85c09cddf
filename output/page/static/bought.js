// Which size of a bought pattern: its chart typed or pasted in, who it is for, and what the numbers say.

import { html, useEffect, useState } from "./vendor/preact-htm.js";
import { read } from "./lengths.js";
import { Keep } from "./keep.js";
import { ask, begin } from "./store.js";
import { Drawn, Told } from "./told.js";

const EMPTY = { title: "", unit: "in", sizes: "", for: "woman", body: "", finished: "" };
const LINE = /^\s*([^\d:=]*[^\d:=\s])[\s:=]+([\d½¼¾⅛⅜⅝⅞-].*)$/u;

/** What she typed as the tables of a chart file, and the lines that are no row: a word, then its numbers. */
export function chartOf(typed) {
  const wrong = [];
  const rows = (text) => Object.fromEntries(text.split("\n").filter((line) => line.trim()).flatMap((line) => {
    const found = LINE.exec(line.replaceAll("\t", "  "));
    if (found) return [[found[1].trim().toLowerCase().replace(/[\s-]+/g, "_"), found[2].trim()]];
    wrong.push(line.trim());
    return [];
  }));
  const { title, unit, sizes } = typed;
  const chart = { title: title.trim() || "bought pattern", unit, sizes: sizes.trim(), for: typed.for };
  for (const table of ["body", "finished"]) if (typed[table].trim()) chart[table] = rows(typed[table]);
  return { chart, wrong };
}

/** What stands in a chart file, as it is typed. */
const typedOf = (chart) => ({
  ...EMPTY,
  ...chart,
  sizes: Array.isArray(chart.sizes) ? chart.sizes.join("  ") : String(chart.sizes ?? ""),
  ...Object.fromEntries(["body", "finished"].map((table) => [table,
    Object.entries(chart[table] ?? {}).map(([word, row]) => `${word.replaceAll("_", " ")}  ${Array.isArray(row) ? row.join("  ") : row}`).join("\n")])),
});

export function Bought({ known, leave }) {
  const { people, charts = [] } = known;
  const [{ kinds, cloths, fits, built_in: builtIn }, setWords] = useState({ kinds: ["dress"], cloths: [], fits: [], built_in: [] });
  const [own, setOwn] = useState(""); // a chart that is built in; "" for one that is typed
  useEffect(() => void ask("words", {}).then(setWords, () => {}), []);
  const [typed, setTyped] = useState({ ...EMPTY, for: people[0]?.body ?? "woman" });
  const [asked, setAsked] = useState({ person: people[0]?.file ?? "", kind: "dress", cloth: "", stretch: "", fit: "" });
  const [told, setTold] = useState(null);
  const [kept, setKept] = useState("");
  const put = (key) => (event) => setTyped((now) => ({ ...now, [key]: event.target.value }));
  const put2 = (key) => (event) => setAsked((now) => ({ ...now, [key]: event.target.value }));
  const { chart, wrong } = chartOf(typed);
  const whose = (event) => {
    put2("person")(event);
    const body = people.find((each) => each.file === event.target.value)?.body;
    if (body && !typed.body && !typed.finished) setTyped((now) => ({ ...now, for: body }));
  };
  const answer = async (event) => {
    event?.preventDefault();
    setTold(await ask("size", { ...asked, chart: own || chart }).catch((refusal) => ({ problems: [refusal.message] })));
  };
  const keep = async () => {
    try {
      setKept((await begin({ kind: "chart", chart })).file);
    } catch (refusal) {
      setTold({ problems: [refusal.message] });
    }
  };
  const take = async (event) => {
    const name = event.target.value;
    setOwn(builtIn.includes(name) ? name : "");
    if (name && !builtIn.includes(name)) setTyped(typedOf((await ask("chart", { file: event.target.value })).chart));
  };
  const pick = (id, label, value, choices, send) => html`<select class="fill" id=${id} aria-label=${label} value=${value} onChange=${send}>
    ${choices.map(([each, name]) => html`<option value=${each} selected=${each === value}>${name}</option>`)}
  </select>`;
  const rows = (key, label, example) => html`<label for=${`chart-${key}`}>${label}</label>
    <textarea id=${`chart-${key}`} class="rows-typed" rows="5" spellcheck="false" placeholder=${example} value=${typed[key]} onInput=${put(key)}></textarea>`;
  const isTyped = typed.sizes.trim() && (typed.body.trim() || typed.finished.trim());
  const ready = (own || isTyped) && asked.person;
  return html`<header class="head"><p class="small house">trueseam</p><h1 id="bought">Which size of a bought pattern?</h1></header>
    <section class="plain" aria-labelledby="bought">
    <form onSubmit=${answer}>
      <p class="answer">
        For ${pick("size-person", "For whom", asked.person, people.map((each) => [each.file, each.name]), whose)},
        a ${pick("size-kind", "What it is", asked.kind, kinds.map((each) => [each, each]), put2("kind"))}${" "}
        of ${pick("size-cloth", "Of what cloth", asked.cloth, [["", "the cloth it is drawn for"], ...cloths.map((each) => [each, each])], put2("cloth"))},
        worn ${pick("size-fit", "How close", asked.fit, [["", "as it is drawn"], ...fits.map((each) => [each, each])], put2("fit"))}.
      </p>
      <p><label for="size-stretch">If it is a knit, it stretches by</label>${" "}
        <input class="fill" id="size-stretch" type="text" autocomplete="off" placeholder="as is usual" value=${asked.stretch} onInput=${put2("stretch")} /></p>
      <h2 class="smaller">The chart, as it stands on the packet</h2>
      <p><label for="chart-kept">Take</label>${" "}
        ${pick("chart-kept", "Which chart", own, [["", "the one below"], ...charts.map((each) => [each.file, each.title]),
          ...builtIn.map((each) => [each, `a plain chart for ${each}`])], take)}</p>
      <div class="rows">
        <div class="row-of"><label for="chart-title">what it is called</label>
          <input class="fill" id="chart-title" type="text" autocomplete="off" value=${typed.title} onInput=${put("title")} /></div>
        <div class="row-of"><label for="chart-unit">in</label>
          ${pick("chart-unit", "What the numbers are in", typed.unit, [["in", "inches"], ["cm", "cm"], ["mm", "mm"]], put("unit"))}</div>
        <div class="row-of"><label for="chart-for">drawn for</label>
          ${pick("chart-for", "Whose chart it is", typed.for, [["woman", "women"], ["girl", "girls"], ["boy", "boys"]], put("for"))}</div>
        <div class="row-of"><label for="chart-sizes">sizes, smallest first</label>
          <input class="fill" id="chart-sizes" type="text" autocomplete="off" placeholder="8  10  12  14" value=${typed.sizes} onInput=${put("sizes")} /></div>
      </div>
      <p class="small">A line for each row: its name, then a number under each size. A row copied from a table can be pasted.</p>
      ${rows("body", "The bodies that the sizes are for", "bust  31 1/2  32 1/2  34  36\nwaist  24  25  26 1/2  28\nhip  33 1/2  34 1/2  36  38")}
      ${rows("finished", "What the garment measures, if it says", "bust  35  36  37 1/2  39 1/2\nwaist  26  27  28 1/2  30")}
      ${wrong.length > 0 && html`<p class="note">No row can be read in: ${wrong.map((each) => `“${each}”`).join(", ")}. A row is a word and its numbers.</p>`}
      <div class="row">
        <button type="submit" class="main" disabled=${!ready}>Which size?</button>
        <button type="button" disabled=${!isTyped} onClick=${keep}>Keep this chart</button>
        <button type="button" onClick=${leave}>Back to the wardrobe</button>
      </div>
      ${kept && html`<p class="told" role="status">Kept in <code>${kept}</code>.</p>`}
    </form>
    <div id="size-told" aria-live="polite">
      ${told?.problems?.length > 0 && html`<div class="refusal"><p><b>The chart cannot be used as it stands.</b></p>
        <ul>${told.problems.map((each) => html`<li>${read(each)}</li>`)}</ul></div>`}
      ${told?.said && html`<p class="answer"><b class="hers">${read(told.take)}</b></p>
        ${told.picture && html`<${Drawn} svg=${told.picture} name="The side seam, from one size to the next: the numbers stand below" />`}
        <p class="row"><${Keep} words="A page of it, to print" made=${() => ({ name: "which size.html", page: told.page })} /></p>
        <${Told} said=${told.said.map((each) => ({ ...each, sentences: each.sentences?.filter((one) => one !== told.take) }))} id="size" />`}
    </div>
  </section>`;
}

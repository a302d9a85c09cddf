// Who it is for: her lengths beside a drawing of her, with the tape where each is taken.

import { html, useEffect, useState } from "./vendor/preact-htm.js";
import { capital, completed, read } from "./lengths.js";
import { Check, edit, focusOn, Offers, problemsAt, Refusal, Still, Typed, useRun } from "./parts.js";
import { Growth, OverTime } from "./growth.js";
import { Keep } from "./keep.js";
import { ask } from "./store.js";

const PLAIN = /^[-\d.,]+$/;
const RESTS = 1500; // milliseconds after which a hand rests

/** The question with all lengths. */
export class Who extends Still {
  render(given) {
    return html`<${Lengths} ...${given} />`;
  }
}

function Lengths({ part, figure, known, unit, bare, problems, garment, trying }) {
  const [now, setNow] = useState("bust_girth");
  const [right, setRight] = useState(() => keptRight(garment.file));
  const narrow = useNarrow();
  const isShown = (row) => row.needed || row.hers;
  const looked = part.rows.find((each) => each.key === now) ?? part.rows[0];
  const keep = (row) => {
    const all = { ...right, [row.key]: row.text };
    setRight(all);
    keepRight(garment.file, all);
  };
  const one = (row) => html`<${Length}
    key=${row.key}
    row=${row}
    now=${row.key === now}
    look=${setNow}
    unit=${unit}
    bare=${bare}
    problems=${problemsAt(problems, "person", ["measurements", row.word])}
    garment=${garment}
    fixed=${Boolean(part.chart)}
    right=${right[row.key] === row.text}
    keep=${keep}
    worth=${worth.key === row.key ? worth.said : ""}
    figure=${narrow ? figure : null}
  />`;
  const worth = useWorth(part, garment, trying);
  const sheet = () => ask("sheet", { person: garment.parts.head.files[1], unit, garment: garment.file });
  const others = part.rows.filter((row) => !isShown(row));
  return html`<section id="who" aria-labelledby="q1">
    <h2 id="q1">Who is it for?</h2>
    <${Wearer} part=${part} known=${known} garment=${garment} />
    ${part.child && html`<${Growth} part=${part} problems=${problems} garment=${garment} />`}
    <div class="measuring">
      ${!narrow && html`<${Taken} row=${looked} figure=${figure} />`}
      <div>
        <p class="small">
          ${part.chart
            ? "These are the lengths that the chart gives for the sizes."
            : "What you measured is blue. What had to be guessed is grey, with how far off it may be."}
        </p>
        <${Refusal} problems=${problems.filter((each) => each.in === "person" && !each.at)} garment=${garment} />
        ${part.out.map((sentence) => html`<p class="note">${read(sentence)}</p>`)}
        <div class="lengths">${part.rows.filter(isShown).map(one)}</div>
        ${others.length > 0 && html`<details>
          <summary>The other lengths</summary>
          <p class="small">This garment is not drawn from these.</p>
          <div class="lengths">${others.map(one)}</div>
        </details>`}
        ${part.anew && html`<p><button type="button" onClick=${() => garment.change(part.anew.edits, "measured anew")}>${part.anew.words}</button></p>`}
        ${!part.chart && html`<p class="row"><${Keep} words="A sheet to measure by, to print" made=${sheet} /></p>`}
        ${!part.chart && html`<${OverTime} garment=${garment} /><${Earlier} rows=${part.rows} garment=${garment} />`}
      </div>
    </div>
  </section>`;
}

/** Which guessed length is worth measuring next. It takes several drafts, so it waits until her hand rests. */
function useWorth(part, garment, trying) {
  const [worth, setWorth] = useState({ key: "", said: "" });
  const lengths = [part.guessed, ...part.rows.map((row) => (row.hers ? row.text : ""))].join();
  useEffect(() => {
    if (part.chart || trying) return;
    let isNewest = true;
    const found = (answer) => isNewest && setWorth(answer);
    const soon = setTimeout(() => ask("worth", { file: garment.file }).then(found, () => {}), RESTS);
    return () => {
      isNewest = false;
      clearTimeout(soon);
    };
  }, [lengths, garment.file, trying]);
  return worth;
}

/** How a length is taken: her body with the tape laid on, and in words. */
function Taken({ row, figure }) {
  return html`<figure class="figure">
    ${figure && html`<${Figure} figure=${figure} at=${row.key} />`}
    <figcaption class="small"><b>${capital(row.name)}</b>. ${row.how} ${row.again}</figcaption>
  </figure>`;
}

/** Whether the sheet is as narrow as a phone: then the drawing stands below the length that is looked at. */
function useNarrow() {
  const [asked] = useState(() => matchMedia("(max-width: 30rem)"));
  const [narrow, setNarrow] = useState(asked.matches);
  useEffect(() => {
    const look = () => setNarrow(asked.matches);
    asked.addEventListener("change", look);
    return () => asked.removeEventListener("change", look);
  }, []);
  return narrow;
}

function Wearer({ part, known, garment }) {
  const file = garment.parts.head?.files[1] ?? "";
  const people = known.people.filter((each) => !each.problem);
  if (part.chart) return html`<${Sizes} part=${part} garment=${garment} people=${people} />`;
  const change = (event) => {
    const person = people.find((each) => each.file === event.target.value);
    const chart = part.charts[Number(event.target.value.replace("chart ", ""))];
    if (person) garment.change([edit("garment", ["wearer"], pathFrom(garment.file, person.file))], `for ${person.name}`);
    else if (chart) garment.change(chart.edits, chart.words);
  };
  const dated = (event) => {
    const day = event.target.value;
    garment.change([edit("person", ["measured"], day)], day ? `measured on ${day}` : "no date");
  };
  const who = html`<select class="fill" aria-label="For whom" value=${file} onChange=${change}>
      ${people.map((each) => html`<option value=${each.file} selected=${each.file === file}>${each.name}</option>`)}
      ${!people.some((each) => each.file === file) && html`<option value=${file} selected>${part.name}</option>`}
      ${part.charts.length > 0 && html`<optgroup label="nobody: a size of a chart">
        ${part.charts.map((each, place) => html`<option value=${`chart ${place}`}>${each.words}</option>`)}
      </optgroup>`}
    </select>`;
  const day = html`<input class="fill" type="date" aria-label="Measured on" value=${part.measured} onChange=${dated} />`;
  const guessed = html`; <span class="guess">${part.guessed} more were guessed from them</span>`;
  return html`<p class="answer">
    For ${who}, measured on ${day}.${" "}
    <b class="hers">${part.taken} lengths</b> were measured${part.guessed > 0 && guessed}.${" "}
    <a href="#people">Somebody else</a>
  </p>`;
}

/** A garment that is made in the sizes of a chart: one size, or another at the waist and the hip. */
function Sizes({ part, garment, people }) {
  const put = (size) => (event) => {
    const value = event.target.value === "" ? "" : Number(event.target.value);
    garment.change([edit("garment", size.at, value)], `${size.name} ${value === "" ? "as drafted" : `size ${value}`}`);
  };
  const hers = (event) => {
    const person = people.find((each) => each.file === event.target.value);
    const wearer = edit("garment", ["wearer"], pathFrom(garment.file, person.file));
    garment.change([{ in: "garment", do: "remove", at: ["sizes"] }, wearer], `for ${person.name}`);
  };
  const one = (size, place) => html`${place > 0 && ", "}${size.name}${" "}
    <select class="fill" aria-label=${`Size at the ${size.name}`} value=${size.value ?? ""} onChange=${put(size)}>
      <option value="" selected=${size.value === null}>as drafted</option>
      ${size.choices.map((each) => html`<option value=${each} selected=${each === size.value}>${each}</option>`)}
    </select>`;
  const measured = html`${" "}Or for${" "}
    <select class="fill" aria-label="For somebody who was measured" value="" onChange=${hers}>
      <option value="" selected>nobody in particular</option>
      ${people.map((each) => html`<option value=${each.file}>${each.name}</option>`)}
    </select>.`;
  if (part.nest.length) return html`<p class="answer">
      Made in several sizes of a chart, drawn over each other: <b class="hers">${part.nest.join(", ")}</b>.${people.length > 0 && measured}
    </p>
    <${Nest} part=${part} garment=${garment} />`;
  return html`<p class="answer">
      Made in the sizes of a chart: ${part.sizes.map(one)}.${people.length > 0 && measured}
    </p>
    <${Nest} part=${part} garment=${garment} />`;
}

/** Which sizes are drawn over each other; one alone is no nest any more. */
function Nest({ part, garment }) {
  const one = part.sizes.find((each) => each.value !== null);
  const drawn = part.nest.length ? part.nest : [one?.value].filter((each) => each !== undefined);
  const put = (size) => (on) => {
    const now = part.choices.filter((each) => (each === size ? on : drawn.includes(each)));
    if (!now.length) return;
    const alone = part.sizes.map((each) => ({ in: "garment", do: "remove", at: each.at })).filter((each) =>
      part.sizes.some((size) => size.at === each.at && size.value !== null));
    const edits = now.length > 1
      ? [...alone, edit("garment", ["sizes", "nest"], now)]
      : [{ in: "garment", do: "remove", at: ["sizes", "nest"] }, edit("garment", part.sizes[0].at, now[0])];
    garment.change(edits, `sizes ${now.join(", ")}`);
  };
  const size = (each) => html`<${Check}
    on=${drawn.includes(each)}
    off=${!drawn.includes(each) && drawn.length >= part.most}
    label=${String(each)}
    send=${put(each)}
  />`;
  return html`<details class="others" open=${part.nest.length > 0}>
    <summary>Several sizes over each other</summary>
    <p class="small">Up to ${part.most} at once. Every change is done to each of them, and all are printed together.</p>
    <div class="row" role="group" aria-label="Sizes over each other">${part.choices.map(size)}</div>
  </details>`;
}

/** One length: what she wrote or what stands for it, how sure it is, and what looks wrong with it. */
function Length({ row, now, look, unit, bare, problems, garment, fixed, right, keep, worth, figure }) {
  const run = useRun(row.key);
  const id = `length-${row.key}`;
  const given = (text) => (text.trim() === "" ? "" : completed(text, "length", unit, bare));
  const edits = (text) => [edit("person", ["measurements", row.word], given(text))];
  const send = (text) => garment.change(edits(text), `${row.name} ${text.trim() || "left out"}`, run());
  const attempt = (text, how) => (text === null ? garment.look() : garment.try(edits(text), how));
  const doubt = row.doubt && !right ? row.doubt : null;
  const sure = { estimated: `guessed, give or take ${read(row.off)}`, "worked out": "worked out from two others" };
  const below = row.hers ? "" : (sure[row.from] ?? "");
  const said = below || worth;
  const field = html`<span class="filled">
    <${Typed}
      id=${id}
      text=${row.asked ?? (row.hers ? row.text : "")}
      label=${row.name}
      hers=${row.hers}
      below=${said ? `${id}-off` : undefined}
      bad=${problems.length > 0}
      refused=${problems.length > 0}
      placeholder=${row.text ? `about ${row.text}` : "not measured"}
      send=${send}
      attempt=${attempt}
    />
    ${row.hers && html`<span class="unit small">${PLAIN.test(row.text) ? bare : ""}</span>
      <span class="other small">${read(row.other)}</span>`}
  </span>`;
  const how = ["length", row.from === "estimated" && "guessed", now && "now"].filter(Boolean).join(" ");
  return html`<div class=${how} onfocusin=${() => look(row.key)}>
    <label for=${id} onMouseEnter=${() => look(row.key)}>${row.name}</label>
    ${fixed ? html`<span class="from-chart">${read(row.text)}</span>` : field}
    ${said && html`<p class="off" id=${`${id}-off`}>
      ${below}${worth && html`${below && ". "}<b class="worth">${worth}</b>`}
    </p>`}
    <${Refusal} problems=${problems} garment=${garment} pending=${row.asked !== null} then=${() => focusOn(id)} />
    ${doubt && html`<${Doubt} row=${row} doubt=${doubt} garment=${garment} keep=${keep} />`}
    ${figure && now && html`<${Taken} row=${row} figure=${figure} />`}
  </div>`;
}

/** A length that looks like a slip of the tape. */
function Doubt({ row, doubt, garment, keep }) {
  const take = (offer) =>
    garment.change(offer.edits, `${row.name}: ${offer.words}`).then(() => focusOn(`length-${row.key}`));
  return html`<div class="note" role="group" aria-label=${`${row.name}: look at it again`}>
    <p><b>This looks like a slip of the tape.</b> ${capital(read(doubt.sentence))}</p>
    <div class="row">
      <${Offers} offers=${doubt.offers} take=${take} />
      <button type="button" onClick=${() => keep(row)}>It is right, keep it</button>
    </div>
  </div>`;
}

/** What her lengths were before they were changed, asked for when she wants to see it. */
function Earlier({ rows, garment }) {
  const [told, setTold] = useState(null);
  const look = async (event) => {
    if (!event.target.open) return;
    const { earlier } = await ask("lengths", { file: garment.file }).catch(() => ({ earlier: {} }));
    setTold(earlier);
  };
  const changed = rows.filter((row) => told?.[row.word]);
  const one = (row) => told[row.word].map((each) => {
    const edits = [edit("person", ["measurements", row.word], each.value)];
    const back = () => garment.change(edits, `${row.name} ${each.text}`).then(() => focusOn(`length-${row.key}`));
    const day = new Date(`${each.day}T12:00`).toLocaleDateString(undefined, { dateStyle: "long" });
    return html`<div class="length">
      <span>${row.name} <span class="small">${each.was} ${each.was === "measured" && "on "}${day}</span></span>
      <button type="button" class="plain" onClick=${back}>${read(each.text)} again</button>
    </div>`;
  });
  return html`<details onToggle=${look}>
    <summary>What they were before</summary>
    ${told && (changed.length ? html`<div class="lengths">${changed.map(one)}</div>` : html`<p class="small">Nothing was changed here yet.</p>`)}
  </details>`;
}

/** Her body, with the tape for one length. */
export class Figure extends Still {
  render({ figure, at }) {
    const tape = figure.tapes[at];
    const side = tape?.side ?? "front";
    const drawn = figure[side];
    const seen = side === "back" ? "from behind" : "from the front";
    const name = `Your body ${seen}, drawn from your numbers${tape ? ", with the tape laid on" : ""}`;
    const band = ["tape-edge", "tape-band", "tape-ticks"].map((kind) => [kind, tape?.near]);
    const lines = tape && [["fine", tape.level], ...band, ["pin", tape.pins]];
    return html`<svg class="body" viewBox=${drawn.box} role="img" aria-label=${name}>
      ${tape && html`<path class="tape-far" d=${tape.far} />`}
      ${drawn.paths.map((each, place) => html`<path key=${place} class=${each.kind} d=${each.d} />`)}
      ${tape && lines.map(([kind, d]) => html`<path key=${kind} class=${kind} d=${d} />`)}
    </svg>`;
  }
}

/** The path of one file of the folder as another names it: "../people/oda.toml". */
export function pathFrom(file, to) {
  const from = file.split("/").slice(0, -1);
  const way = to.split("/");
  while (from.length && way.length > 1 && from[0] === way[0]) {
    from.shift();
    way.shift();
  }
  return [...from.map(() => ".."), ...way].join("/");
}

/** The lengths that she said are right though they look like slips, by their text: they are not doubted again. */
function keptRight(file) {
  try {
    return JSON.parse(localStorage.getItem(`right ${file}`)) ?? {};
  } catch {
    return {};
  }
}

function keepRight(file, right) {
  try {
    localStorage.setItem(`right ${file}`, JSON.stringify(right));
  } catch {
    // she will be asked again after a restart
  }
}

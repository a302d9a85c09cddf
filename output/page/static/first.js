// What lies in the folder: people and garments, and how the first ones are begun.

import { html, useEffect, useState } from "./vendor/preact-htm.js";
import { capital, completed, read } from "./lengths.js";
import { Bought } from "./bought.js";
import { Brought, Patterns } from "./brought.js";
import { Keep } from "./keep.js";
import { Picture } from "./picture.js";
import { ask, begin } from "./store.js";
import { Told } from "./told.js";

const BASICS = [
  ["height", "from the floor to the top of the head, barefoot"],
  ["bust", "level round the body over the fullest part"], // the chest of a child
  ["waist", "round the natural waist, where the body bends to the side"],
  ["hip", "level round the fullest part of the seat"],
];

/** The folder, or the form for what it lacks. again(): looks at the folder again */
export function First({ known, again }) {
  const people = known.people.filter((each) => !each.problem);
  const [adding, setAdding] = useState("");
  const [wearer, setWearer] = useState(""); // whose garment is begun
  if (adding.startsWith("pattern ")) return html`<${Brought} file=${adding.slice("pattern ".length)} leave=${() => { setAdding(""); again(); }} />`;
  if (adding === "size") return html`<${Bought} known=${{ ...known, people }} leave=${() => setAdding("")} />`;
  const lacks = adding || { people: "person", garments: "garment" }[known.lacks] || "";
  const begin = (file) => {
    setWearer(file);
    setAdding("garment");
  };
  const done = (person) => {
    if (person) begin(person); // whoever was measured is to be sewn for
    else setAdding("");
    again();
  };
  const leave = known.garments.length || (people.length && lacks === "person" && adding) ? () => setAdding("") : null;
  const title = lacks === "person" ? "Who will wear it?" : lacks ? "What shall we make?" : "Your wardrobe";
  return html`<header class="head">
      <p class="small house">trueseam</p>
      <h1>${title}</h1>
      ${known.folder && html`<p class="for">
        Everything here lies in <code>${known.folder}</code>, on this machine and nowhere else.
      </p>`}
    </header>
    <${Notes} notes=${known.notes} />
    ${known.trouble && html`<p class="refusal" role="alert">${known.trouble}</p>`}
    ${!known.trouble && lacks === "person" && html`<${NewPerson} first=${people[0]} done=${done} leave=${leave} chart=${adding ? null : () => setAdding("garment")} />`}
    ${!known.trouble && lacks === "garment" && html`<${NewGarment} people=${people} whose=${wearer} done=${() => done()} leave=${leave} />`}
    ${!known.trouble && !lacks && html`<${Wardrobe} known=${known} people=${people} add=${setAdding} begin=${begin} />`}`;
}

/** What has to be told of the folder itself. */
export const Notes = ({ notes = [] }) => notes.map((each) => html`<p class="note" role="alert">${each}</p>`);

function Wardrobe({ known, people, add, begin }) {
  const person = (each) => html`<li key=${each.file}>
    <b>${each.name}</b> <span class="small">${each.file}</span>
    <span class="row">
      ${known.garments.filter((one) => one.for === each.file).map((one) => html`<a href=${addressOf(one)}>${one.title}</a>`)}
      <button type="button" class="plain" onClick=${() => begin(each.file)}>Begin a garment for ${each.name}</button>
    </span>
    ${each.problem && html`<p class="note">${read(each.problem)}</p>`}
  </li>`;
  return html`<section class="plain" aria-labelledby="garments">
      <h2 id="garments">Garments</h2>
      <ul class="garments">
        ${known.garments.map((each) => html`<${Garment} key=${each.file} garment=${each} people=${people} />`)}
      </ul>
      <button type="button" class="main" onClick=${() => add("garment")}>Begin another garment</button>
    </section>
    <section aria-labelledby="people">
      <h2 id="people">People</h2>
      <ul class="people">${known.people.map(person)}</ul>
      <button type="button" onClick=${() => add("person")}>Somebody else</button>
      <${Measuring} people=${people} />
    </section>
    <section aria-labelledby="patterns">
      <h2 id="patterns">Bought patterns</h2>
      <p class="small">Which size to take, where to blend, and what to lengthen: from the chart on the packet and her lengths.</p>
      <button type="button" onClick=${() => add("size")}>Which size of a bought pattern?</button>
      <${Charts} unit=${people[0]?.unit ?? "cm"} />
    </section>
    <${Patterns} patterns=${known.patterns ?? []} open=${(file) => add(`pattern ${file}`)} />`;
}

/** A sheet to print and to measure by, for one of them or for anybody. */
function Measuring({ people }) {
  const [asked, setAsked] = useState({ person: people[0]?.file ?? "", body: "woman", unit: people[0]?.unit ?? "cm", every: false });
  const put = (key) => (value) => setAsked((now) => ({ ...now, [key]: value }));
  const whose = (value) => {
    const person = people.find((each) => each.file === value);
    setAsked((now) => ({ ...now, person: person ? value : "", body: person ? now.body : value, unit: person?.unit ?? now.unit }));
  };
  const anybody = [["woman", "any woman"], ["girl", "any girl"], ["boy", "any boy"]];
  return html`<details class="others">
    <summary>A sheet to measure by, to print</summary>
    <p class="answer">
      For <${Pick} label="Whose sheet" value=${asked.person || asked.body} choices=${[...people.map((each) => [each.file, each.name]), ...anybody]} put=${whose} />,
      in <${Pick} label="Written in" value=${asked.unit} choices=${UNITS} put=${put("unit")} />.
    </p>
    <label class="check"><input type="checkbox" checked=${asked.every} onChange=${(event) => put("every")(event.target.checked)} />
      <span>every length there is, not those alone that most is drawn from</span></label>
    <p class="row"><${Keep} words="Make the sheet" made=${() => ask("sheet", asked)} /></p>
  </details>`;
}

const UNITS = [["cm", "cm"], ["in", "inches"], ["mm", "mm"]];

/** The charts of sizes that are built in, their lengths in a unit; none until they are told. */
function useCharts(unit) {
  const [charts, setCharts] = useState([]);
  useEffect(() => void ask("charts", { unit }).then((told) => setCharts(told.charts), () => {}), [unit]);
  return charts;
}

/** What the sizes of each chart measure, asked for when it is opened. */
function Charts({ unit: first }) {
  const [open, setOpen] = useState(false);
  return html`<details class="others" onToggle=${(event) => setOpen(event.target.open)}>
    <summary>The charts of sizes, to look at</summary>
    ${open && html`<${OneChart} first=${first} />`}
  </details>`;
}

function OneChart({ first }) {
  const [unit, setUnit] = useState(first);
  const [name, setName] = useState("women");
  const charts = useCharts(unit);
  const chart = charts.find((each) => each.name === name);
  return html`<p class="answer">
      For <${Pick} label="Whose sizes" value=${name} choices=${charts.map((each) => [each.name, each.name])} put=${setName} />,
      in <${Pick} label="Lengths in" value=${unit} choices=${UNITS} put=${setUnit} />.
    </p>
    ${chart && html`<${Told} said=${[chart.table]} id="chart" />`}`;
}

const addressOf = (garment) => `#${encodeURIComponent(garment.file).replaceAll("%2F", "/")}`;

function Garment({ garment, people }) {
  const wearer = people.find((each) => each.file === garment.for);
  const whose = wearer ? `for ${wearer.name}` : garment.chart ? "in the sizes of a chart" : "";
  const drawn = garment.picture && `data:image/svg+xml,${encodeURIComponent(garment.picture)}`;
  return html`<li>
    <a href=${addressOf(garment)}>
      <span class="picture">${drawn && html`<img src=${drawn} alt="" />`}</span>
      <b>${garment.title}</b>
      ${whose && html`<span class="small">${whose}</span>`}
      <span class="small">${garment.file}</span>
      ${garment.problem && html`<span class="note">${read(garment.problem)}</span>`}
    </a>
  </li>`;
}

/** A line of a form: a name, a field, and what it is. */
function Line({ id, name, about, children }) {
  return html`<div class="row-of">
    <label for=${id}>${name}</label>${children}
    ${about && html`<p class="small below" id=${`${id}-about`}>${about}</p>`}
  </div>`;
}

/** One of several words. choices: [value, name] */
function Pick({ id, value, choices, put, label }) {
  const one = ([each, name]) => html`<option value=${each} selected=${each === value}>${name}</option>`;
  return html`<select class="fill" id=${id} aria-label=${label} value=${value} onChange=${(event) => put(event.target.value)}>
    ${choices.map(one)}
  </select>`;
}

/** The end of a form: what is wrong, and its buttons. */
function Ending({ wrong, name, ready, leave }) {
  return html`${wrong && html`<p class="refusal" role="alert">${read(wrong)}</p>`}
    <div class="row">
      <button type="submit" class="main" disabled=${!ready}>${name}</button>
      ${leave && html`<button type="button" onClick=${leave}>Not now</button>`}
    </div>`;
}

function NewPerson({ first, done, leave, chart }) {
  const [told, setTold] = useState({ name: "", unit: first?.unit ?? "cm", body: "woman" });
  const [wrong, setWrong] = useState("");
  const put = (key) => (value) => setTold((now) => ({ ...now, [key]: value }));
  const isTold = (key) => (told[key] ?? "").trim() !== "";
  const ready = isTold("name") && BASICS.every(([key]) => isTold(key)) && (told.body === "woman" || isTold("born"));
  const write = async (event) => {
    event.preventDefault();
    const { name, unit, body, born = "" } = told;
    const lengths = Object.fromEntries(BASICS.map(([key]) => [key, completed(told[key], "length", unit, unit)]));
    try {
      done((await begin({ kind: "person", name: name.trim(), unit, body, born, lengths })).file);
    } catch (refusal) {
      setWrong(refusal.message);
    }
  };
  const text = (key, about) => html`<input
    class="fill"
    id=${`new-${key}`}
    type="text"
    required
    autocomplete="off"
    aria-describedby=${about}
    value=${told[key] ?? ""}
    onInput=${(event) => put(key)(event.target.value)}
  />`;
  const length = ([key, about]) => html`<${Line} key=${key} id=${`new-${key}`} name=${isChild && key === "bust" ? "chest" : key} about=${about}>
    <span class="filled">${text(key, `new-${key}-about`)}<span class="unit small">${told.unit}</span></span>
  <//>`;
  const bodies = [["woman", "a woman's"], ["girl", "a girl's"], ["boy", "a boy's"]];
  const isChild = told.body !== "woman";
  return html`<section class="plain" aria-labelledby="new-person">
    <h2 id="new-person">Four lengths to begin with</h2>
    <p class="answer">
      A tape, a string round the waist, bare feet. All other lengths are guessed from these, until you measure them too.
    </p>
    <form onSubmit=${write}>
      <div class="rows">
        <${Line} id="new-name" name="name">${text("name")}<//>
        <${Line} id="new-unit" name="measured in">
          <${Pick} id="new-unit" value=${told.unit} choices=${UNITS} put=${put("unit")} />
        <//>
        <${Line} id="new-body" name="whose body it is">
          <${Pick} id="new-body" value=${told.body} choices=${bodies} put=${put("body")} />
        <//>
        ${isChild && html`<${Line} id="new-born" name="born on" about="from this it is told how the child grows">
          <input class="fill" id="new-born" type="date" required value=${told.born ?? ""}
            onInput=${(event) => put("born")(event.target.value)} />
        <//>`}
        ${BASICS.map(length)}
      </div>
      <${Ending} wrong=${wrong} name="Begin with these" ready=${ready} leave=${leave} />
      ${chart && html`<p><button type="button" class="plain" onClick=${chart}>Nobody is measured yet: begin in a size of a chart</button></p>`}
    </form>
  </section>`;
}

/** What a garment is made to that is for nobody: a size of a chart. */
const CHART = "chart ";

function NewGarment({ people, whose: asked, done, leave }) {
  const [title, setTitle] = useState("");
  const [kinds, setKinds] = useState([]); // what it may begin as, the first being the usual
  const [kind, setKind] = useState("");
  const charts = useCharts(people[0]?.unit ?? "cm");
  const [wearer, setWearer] = useState(asked || people[0]?.file || `${CHART}women`);
  const [sized, setSized] = useState({ size: 0, height: "regular", unit: people[0]?.unit ?? "cm" });
  const [wrong, setWrong] = useState("");
  const chart = charts.find(({ name }) => `${CHART}${name}` === wearer);
  const size = chart?.sizes.includes(sized.size) ? sized.size : chart?.middle;
  const body = chart?.body ?? people.find(({ file }) => file === wearer)?.body ?? "woman";
  useEffect(() => {
    let here = true;
    ask("kinds", { body }).then((told) => here && setKinds(told.kinds), () => {});
    return () => {
      here = false;
    };
  }, [body]);
  const chosen = kinds.some(({ name }) => name === kind) ? kind : kinds[0]?.name;
  const write = async (event) => {
    event.preventDefault();
    try {
      const whom = chart ? { sizes: { chart: chart.name, size, height: sized.height }, unit: sized.unit } : { wearer };
      const { file } = await begin({ kind: "garment", title: title.trim(), ...whom, as: chosen });
      location.hash = file;
      done();
    } catch (refusal) {
      setWrong(refusal.message);
    }
  };
  const called = html`<input
    class="fill"
    type="text"
    aria-label="What it is called"
    required
    autocomplete="off"
    placeholder="Harbour dress"
    value=${title}
    onInput=${(event) => setTitle(event.target.value)}
  />`;
  const whose = [...people.map((each) => [each.file, each.name]), ...charts.map(({ name }) => [`${CHART}${name}`, `a size of the chart for ${name}`])];
  const say = (key) => (value) => setSized((now) => ({ ...now, [key]: value }));
  const plain = (all) => all.map((each) => [each, String(each)]);
  const one = ({ name, about, also }) => html`<label class="block" key=${`${body} ${name}`}>
    <${Picture} of="kind" name=${name} body=${body} />
    <b><input type="radio" name="kind" checked=${name === chosen} onChange=${() => setKind(name)} /> ${capital(name)}</b>
    <span class="small">${capital(read(about))}${also.length > 0 && `. Also called ${also.join(", ")}`}</span>
  </label>`;
  return html`<section class="plain" aria-labelledby="new-garment">
    <h2 id="new-garment">A first sketch of it</h2>
    <form onSubmit=${write}>
      <p class="answer">
        It is called ${called}, for${" "}
        <${Pick} label="For whom" value=${wearer} choices=${whose} put=${setWearer} />${chart && html`,${" "}
        size <${Pick} label="Which size" value=${size} choices=${plain(chart.sizes)} put=${(value) => say("size")(Number(value))} />${" "}
        ${chart.heights.length > 0 && html`<${Pick} label="How tall" value=${sized.height} choices=${plain(chart.heights)} put=${say("height")} />${" "}`}
        in <${Pick} label="Lengths in" value=${sized.unit} choices=${UNITS} put=${say("unit")} />`}.
      </p>
      ${chart && html`<details class="others"><summary>What the sizes measure</summary>
        <${Told} said=${[chart.table]} id="chart" /></details>`}
      <fieldset class="kinds"><legend class="quiet">What it is</legend>${kinds.map(one)}</fieldset>
      <p class="small">Everything about it can be changed afterwards.</p>
      <${Ending} wrong=${wrong} name="Begin it" ready=${title.trim() && (chart || !wearer.startsWith(CHART))} leave=${leave} />
    </form>
  </section>`;
}

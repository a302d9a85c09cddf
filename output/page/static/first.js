// What lies in the folder: people and garments, and how the first ones are begun.

import { html, useState } from "./vendor/preact-htm.js";
import { begin } from "./store.js";
import { completed, read } from "./lengths.js";

const BASICS = [
  ["height", "height", "from the floor to the top of the head, barefoot"],
  ["bust", "bust", "level round the body over the fullest part"],
  ["waist", "waist", "round the natural waist, where the body bends to the side"],
  ["hip", "hip", "level round the fullest part of the seat"],
];

const KINDS = [
  ["dress", "A dress", "bodice, sleeve and skirt", ["bodice", "sleeve", "skirt"]],
  ["bodice", "A bodice with sleeves", "to the waist", ["bodice", "sleeve"]],
  ["skirt", "A skirt", "straight, from the waist", ["skirt"]],
];

export function First({ known, again }) {
  const people = known.people.filter((each) => !each.problem);
  const [adding, setAdding] = useState("");
  const lacks = adding || (known.lacks === "people" ? "person" : known.lacks === "garments" ? "garment" : "");
  const done = () => {
    setAdding("");
    again();
  };
  return html`<header class="head"><p class="small house">trueseam</p>
      <h1>${lacks === "person" && !people.length ? "Who will wear it?" : lacks ? "What shall we make?" : "Your wardrobe"}</h1>
      ${known.folder && html`<p class="for">Everything here lies in <code>${known.folder}</code>, on this machine and nowhere else.</p>`}</header>
    ${known.trouble ? html`<p class="refusal" role="alert">${known.trouble}</p>` : lacks === "person" ? html`<${NewPerson} done=${done} leave=${people.length ? () => setAdding("") : null} />` : lacks === "garment" ? html`<${NewGarment} people=${people} done=${done} leave=${known.garments.length ? () => setAdding("") : null} />` : html`
      <section class="plain" aria-labelledby="garments"><h2 id="garments">Garments</h2>
        <ul class="garments">${known.garments.map((each) => html`<${Garment} key=${each.file} garment=${each} people=${people} />`)}</ul>
        <button type="button" class="main" onClick=${() => setAdding("garment")}>Begin another garment</button></section>
      <section aria-labelledby="people"><h2 id="people">People</h2>
        <ul class="people">${known.people.map((each) => html`<li key=${each.file}><b>${each.name}</b> <span class="small">${each.file}</span>${each.problem && html`<p class="note">${read(each.problem)}</p>`}</li>`)}</ul>
        <button type="button" onClick=${() => setAdding("person")}>Somebody else</button></section>`}`;
}

function Garment({ garment, people }) {
  const wearer = people.find((each) => garment.for && each.file.split("/").pop() === garment.for.split("/").pop());
  return html`<li><a href=${`#${encodeURIComponent(garment.file).replaceAll("%2F", "/")}`}>
    <span class="picture">${garment.picture && html`<img src=${`data:image/svg+xml,${encodeURIComponent(garment.picture)}`} alt="" />`}</span>
    <b>${garment.title}</b>${wearer && html`<span class="small">for ${wearer.name}</span>`}<span class="small">${garment.file}</span>
    ${garment.problem && html`<span class="note">${read(garment.problem)}</span>`}</a></li>`;
}

/** A line of a form: a name, a field, and what it is. */
function Line({ id, name, about, children }) {
  return html`<div class="row-of"><label for=${id}>${name}</label>${children}${about && html`<p class="small below" id=${`${id}-about`}>${about}</p>`}</div>`;
}

function NewPerson({ done, leave }) {
  const [told, setTold] = useState({ name: "", unit: "cm", body: "woman" });
  const [wrong, setWrong] = useState("");
  const put = (key) => (event) => setTold((now) => ({ ...now, [key]: event.target.value }));
  const ready = told.name.trim() && BASICS.every(([key]) => (told[key] ?? "").trim());
  const write = async (event) => {
    event.preventDefault();
    const lengths = Object.fromEntries(BASICS.map(([key]) => [key, completed(told[key] ?? "", "length", told.unit, told.unit)]));
    try {
      await begin({ kind: "person", name: told.name.trim(), unit: told.unit, body: told.body, lengths });
      done();
    } catch (refusal) {
      setWrong(refusal.message);
    }
  };
  return html`<section class="plain" aria-labelledby="new-person"><h2 id="new-person">Four lengths to begin with</h2>
    <p class="answer">A tape, a string round the waist, bare feet. All other lengths are guessed from these, until you measure them too.</p>
    <form onSubmit=${write}><div class="rows">
      <${Line} id="new-name" name="name"><input class="fill" id="new-name" type="text" required autocomplete="off" value=${told.name} onInput=${put("name")} /><//>
      <${Line} id="new-unit" name="measured in"><select class="fill" id="new-unit" value=${told.unit} onChange=${put("unit")}><option value="cm" selected=${told.unit === "cm"}>cm</option><option value="in" selected=${told.unit === "in"}>inches</option><option value="mm" selected=${told.unit === "mm"}>mm</option></select><//>
      <${Line} id="new-body" name="whose body it is" about="Patterns are drawn for women so far; a child's lengths can be kept."><select class="fill" id="new-body" value=${told.body} onChange=${put("body")}>${[["woman", "a woman's"], ["girl", "a girl's"], ["boy", "a boy's"]].map(([body, name]) => html`<option value=${body} selected=${told.body === body}>${name}</option>`)}</select><//>
      ${BASICS.map(([key, name, about]) => html`<${Line} key=${key} id=${`new-${key}`} name=${name} about=${about}><span class="filled"><input class="fill" id=${`new-${key}`} type="text" required autocomplete="off" aria-describedby=${`new-${key}-about`} value=${told[key] ?? ""} onInput=${put(key)} /><span class="unit small">${told.unit}</span></span><//>`)}
    </div>
    ${wrong && html`<p class="refusal" role="alert">${read(wrong)}</p>`}
    <div class="row"><button type="submit" class="main" disabled=${!ready}>Begin with these</button>${leave && html`<button type="button" onClick=${leave}>Not now</button>`}</div></form></section>`;
}

function NewGarment({ people, done, leave }) {
  const [title, setTitle] = useState("");
  const [kind, setKind] = useState("dress");
  const [wearer, setWearer] = useState(people[0]?.file ?? "");
  const [wrong, setWrong] = useState("");
  const write = async (event) => {
    event.preventDefault();
    const blocks = KINDS.find(([name]) => name === kind)[3];
    try {
      const { file } = await begin({ kind: "garment", title: title.trim(), wearer, blocks });
      done();
      location.hash = file;
    } catch (refusal) {
      setWrong(refusal.message);
    }
  };
  return html`<section class="plain" aria-labelledby="new-garment"><h2 id="new-garment">A first sketch of it</h2>
    <form onSubmit=${write}>
      <p class="answer">It is called <input class="fill" type="text" aria-label="What it is called" required autocomplete="off" value=${title} placeholder="Harbour dress" onInput=${(event) => setTitle(event.target.value)} />, for
        ${" "}${people.length ? html`<select class="fill" aria-label="For whom" value=${wearer} onChange=${(event) => setWearer(event.target.value)}>${people.map((each) => html`<option value=${each.file} selected=${each.file === wearer}>${each.name}</option>`)}</select>` : "nobody yet"}.</p>
      <fieldset class="kinds"><legend class="quiet">What it is</legend>${KINDS.map(([name, said, about]) => html`<label class="block"><b><input type="radio" name="kind" checked=${kind === name} onChange=${() => setKind(name)} /> ${said}</b><span class="small">${about}</span></label>`)}</fieldset>
      <p class="small">Everything about it can be changed afterwards.</p>
      ${wrong && html`<p class="refusal" role="alert">${read(wrong)}</p>`}
      <div class="row"><button type="submit" class="main" disabled=${!title.trim() || !wearer}>Begin it</button>${leave && html`<button type="button" onClick=${leave}>Not now</button>`}</div>
    </form></section>`;
}

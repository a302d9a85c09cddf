// What is changed, and how: a card for each step, what lies between them, and what else there is to change.

import { html, useState } from "./vendor/preact-htm.js";
import { capital, read } from "./lengths.js";
import { edit, Field, focusOn, problemsAt, Refusal, Slider, Still, useRun } from "./parts.js";

/** The question with its cards. */
export class Changed extends Still {
  render({ part, order, more, unit, bare, problems, garment }) {
    const between = order?.between ?? [];
    const cards = part.cards;
    return html`<section id="changed" aria-labelledby="q4">
      <h2 id="q4">What is changed, and how?</h2>
      <p class="small">Thin line: as it was. Strong line: as it is. Hatched: what the last change added or took away.
        ${part.elsewhere > 0 && ` ${part.elsewhere} more stand in the file that this one follows.`}</p>
      <ol class="cards">${cards.map((card, place) => html`
        ${place > 0 && html`<${Between} key=${`between ${place}`} before=${cards[place - 1]} card=${card} between=${between} written=${order?.as_written} />`}
        <${Card} key=${`${card.alter} ${place}`} card=${card} last=${place === cards.length - 1} neighbours=${[cards[place - 1], cards[place + 1]]} written=${order?.as_written === true}
          unit=${unit} bare=${bare} problems=${problemsAt(problems, "garment", card.at)} garment=${garment} />`)}
      </ol>
      ${more && html`<${More} more=${more.more} count=${cards.length} unit=${unit} bare=${bare} garment=${garment} />`}
    </section>`;
  }
}

function Between({ before, card, between, written }) {
  const pair = [before.at[1], card.at[1]];
  const found = between.find((each) => pair.includes(each.first) && pair.includes(each.second));
  if (!found) return html`<li class="order" aria-hidden="true"></li>`;
  const turned = found.first === card.at[1];
  return html`<li class=${`order${found.matters ? " matters" : ""}`}>${read(found.sentence)}${turned && found.matters && !written && ` “${card.title}” is taken first, wherever it stands.`}</li>`;
}

/** The field that a card is about: the first number that she wrote or has to write. */
const mainField = (fields) => fields.find((each) => each.scale && (each.hers || each.required)) ?? fields.find((each) => each.scale);

function Card({ card, neighbours, written, unit, bare, problems, garment }) {
  const run = useRun(`step ${card.at[1]}`);
  const main = mainField(card.fields);
  const id = `step-${card.at[1]}`;
  const words = (field, value) => `${card.called}, ${field.name} ${value === "" ? "left out" : value === true ? "yes" : value === false ? "no" : value}`;
  const edits = (field, value) => [edit("garment", [...card.at, field.key], value)];
  const send = (field) => (value) => garment.change(edits(field, value), words(field, value), run());
  const attempt = (field) => (value) => (value === null ? garment.look() : garment.try(edits(field, value)));
  const bad = (field) => problems.some((each) => each.at[2] === field.key);
  const refused = problems.length > 0;
  const cannot = (field) => problems.flatMap((each) => (each.cannot?.[field.key] ? [each.cannot[field.key]] : []));
  const rest = card.fields.filter((each) => each !== main);
  const shown = rest.filter((each) => each.hers || each.required);
  const others = rest.filter((each) => !shown.includes(each));
  const take = (offer) => garment.change(offer.edits, offer.words).then(() => focusOn(`${id}-${main?.key}-slider`));
  const takeOut = () => garment.change([{ in: "garment", do: "remove", at: card.at }], `${card.called} taken out`).then(() => focusOn("q4"));
  const row = (field) => html`<${Row} key=${field.key} field=${field} id=${`${id}-${field.key}`} card=${card} unit=${unit} bare=${bare}
    send=${send(field)} attempt=${attempt(field)} bad=${bad(field)} refused=${refused} />`;
  const move = (to) => garment.change([{ in: "garment", do: "move", at: card.at, to }], `${card.called} moved`);
  const mayMove = (other) => other && (written || other.alter === card.alter);
  const label = main && `${card.title} ${card.piece}, ${main.name}`;
  return html`<li class=${`card${card.in_use ? "" : " off"}`} id=${id} aria-labelledby=${`${id}-name`}>
    <div class="card-top">
      <h3 id=${`${id}-name`}>${card.title}${card.piece && html` <span class="of">${card.piece}</span>`}</h3>
      ${main && html`<span class="value"><label class="small" for=${`${id}-${main.key}`}>${main.name}</label>
        <${Field} field=${main} unit=${unit} bare=${bare} id=${`${id}-${main.key}`} label=${label} send=${send(main)} attempt=${attempt(main)} bad=${bad(main)} refused=${refused} /></span>`}
    </div>
    ${main && html`<${Slider} field=${main} unit=${unit} id=${`${id}-${main.key}-slider`} label=${label} attempt=${attempt(main)} send=${send(main)} cannot=${cannot(main)} />`}
    ${shown.length > 0 && html`<div class="rows">${shown.map(row)}</div>`}
    <${Refusal} problems=${problems} take=${take} />
    <${Told} card=${card} />
    ${others.length > 0 && html`<details class="others"><summary>What else can be said of it</summary><p class="small">${read(card.about)}</p><div class="rows">${others.map(row)}</div></details>`}
    <div class="card-foot">
      <label class="check"><input type="checkbox" checked=${card.in_use} onChange=${(event) => garment.change([edit("garment", [...card.at, "in_use"], event.target.checked ? "" : false)], `${card.called} ${event.target.checked ? "in use" : "switched off"}`)} /> <span>in use</span></label>
      ${mayMove(neighbours[0]) && html`<button type="button" class="plain" onClick=${() => move(card.at[1] - 1)}>Move up</button>`}
      ${mayMove(neighbours[1]) && html`<button type="button" class="plain" onClick=${() => move(card.at[1] + 1)}>Move down</button>`}
      <button type="button" class="plain" onClick=${takeOut}>Take out</button>
    </div>
  </li>`;
}

function Row({ field, id, unit, bare, send, attempt, bad, refused }) {
  const slides = field.scale && field.hers;
  if (field.kind === "flag") return html`<div class="row-of"><${Field} field=${field} unit=${unit} id=${id} label=${field.name} send=${send} /><p class="small">${read(field.about)}</p></div>`;
  return html`<div class="row-of"><label for=${id}>${field.name}</label>
    <${Field} field=${field} unit=${unit} bare=${bare} id=${id} label=${field.name} send=${send} attempt=${attempt} bad=${bad} refused=${refused} />
    ${slides ? html`<div class="below"><${Slider} field=${field} unit=${unit} id=${`${id}-slider`} label=${field.name} attempt=${attempt} send=${send} /></div>` : !field.hers && html`<p class="small below">${read(field.about)}</p>`}
  </div>`;
}

function Told({ card }) {
  if (!card.in_use) return html`<p class="told">Switched off. The pieces are drawn without it.</p>`;
  const moved = card.moved;
  return html`<div class="moves">
    ${moved.length === 0 ? html`<p class="told">No length moves.</p>` : html`<p class="told">${moved.map((each, place) => html`${place > 0 && "; "}${place ? each.name : capital(each.name)}${each.kind === "ease" && " eased in"} ${each.after ? html`<b>${read(each.after)}</b>` : "gone"}${each.before && each.after && html` (${read(each.by)} ${each.way})`}`)}${card.more > 0 && `; and ${card.more} more`}.</p>`}
    <p class="small stays">Untouched: ${card.untouched}.</p>
  </div>`;
}

function More({ more, count, unit, bare, garment }) {
  const [asked, setAsked] = useState("");
  const [chosen, setChosen] = useState(null);
  const words = asked.toLowerCase().split(/\s+/).filter(Boolean);
  const text = (each) => `${each.title} ${each.about} ${each.words.map(({ word }) => word).join(" ")} ${each.layer}`.toLowerCase();
  const found = [...called(more, words), ...more.filter((each) => words.every((word) => text(each).includes(word)))];
  const choose = (each) => {
    setChosen(each);
    requestAnimationFrame(() => document.getElementById("new-step")?.querySelector("input,select")?.focus());
  };
  return html`<details class="more"><summary>Change something else</summary>
    ${chosen ? html`<${NewCard} key=${chosen.called ?? chosen.alter} entry=${chosen} count=${count} unit=${unit} bare=${bare} garment=${garment} end=${() => setChosen(null)} />` : html`
      <label for="find">What should be different?</label>
      <input type="text" id="find" autocomplete="off" placeholder="bust, V neck, flare, shoulder …" value=${asked} onInput=${(event) => setAsked(event.target.value)} />
      <p class="small" role="status">${found.length === 0 ? "Nothing is called so. Try another word." : `${found.length} to choose from`}</p>
      <ul class="choices">${found.map((each) => html`<li key=${each.called ?? each.alter}><button type="button" onClick=${() => choose(each)}><b>${each.title}</b><span>${read(each.about)}</span></button></li>`)}</ul>`}
  </details>`;
}

/** What she asked for by another word, "V neck", "crop": the change as that word means it. The words come first. */
function called(more, words) {
  if (!words.length) return [];
  return more.flatMap((each) => each.words
    .filter(({ word }) => words.every((one) => word.toLowerCase().includes(one)))
    .slice(0, 2)
    .map(({ word, turned, told, by }) => ({
      ...each,
      called: word,
      title: capital(word),
      by: by || turned[0],
      fields: each.fields.filter((field) => !told.includes(field.option)).map((field) => (turned.includes(field.option) ? { ...field, low: 0, high: -field.low, about: "how much" } : field)),
    })));
}

/** A card that is not in the file yet: it goes in when all that it needs is said. */
function NewCard({ entry, count, unit, bare, garment, end }) {
  const [said, setSaid] = useState({});
  const main = entry.fields.find((each) => each.option === entry.by) ?? mainField(entry.fields);
  const asked = entry.fields.filter((each) => each.required || each === main);
  const missing = asked.filter((each) => each.required && (said[each.key] ?? "") === "");
  const nothing = !main?.required && main && (said[main.key] ?? "") === "";
  const value = { alter: entry.called ?? entry.alter, ...Object.fromEntries(Object.entries(said).filter(([, each]) => each !== "")) };
  const put = async () => {
    await garment.change([{ in: "garment", do: "insert", at: ["step", count], value }], `${entry.alter} put in`);
    if (garment.state.problems.length) return;
    end();
    focusOn(main ? `step-${count}-${main.key}-slider` : `step-${count}-name`);
  };
  const as = (field) => ({ ...field, hers: said[field.key] !== undefined, text: String(said[field.key] ?? ""), value: said[field.key] ?? null, other: "" });
  const tell = (field) => (given) => {
    setSaid((now) => ({ ...now, [field.key]: given }));
    return Promise.resolve();
  };
  const problems = problemsAt(garment.state.problems, "garment", ["step", count]);
  return html`<div class="card" id="new-step"><div class="card-top"><h3>${entry.title}</h3></div><p>${read(entry.about)}</p>
    <div class="rows">${asked.map((field) => html`<div class="row-of" key=${field.key}><label for=${`new-${field.key}`}>${field.name}</label>
      <${Field} field=${as(field)} unit=${unit} bare=${bare} id=${`new-${field.key}`} label=${field.name} send=${tell(field)} attempt=${tell(field)} />
      <p class="small below">${read(field.about)}</p></div>`)}</div>
    <${Refusal} problems=${problems} take=${(offer) => garment.change(offer.edits, offer.words)} />
    <div class="row"><button type="button" class="main" disabled=${missing.length > 0 || nothing} onClick=${put}>Put it in</button>
      <button type="button" onClick=${end}>Choose something else</button></div>
    ${(missing.length > 0 || nothing) && html`<p class="small">It goes in when you have said: ${(missing.length ? missing : [main]).map((each) => each.name).join(", ")}.</p>`}
  </div>`;
}

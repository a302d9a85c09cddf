// What is changed, and how: a card for each step, what lies between them, and what else there is to change.

import { html, useState } from "./vendor/preact-htm.js";
import { capital, read } from "./lengths.js";
import { Check, edit, Field, focusOn, problemsAt, Refusal, Slider, slides, Still, useRun } from "./parts.js";
import { find } from "./find.js";

/** The question with its cards. */
export class Changed extends Still {
  render({ part, order, more, what, unit, bare, problems, garment }) {
    const { cards, elsewhere } = part;
    const written = order?.as_written === true;
    const one = (card, place) => html`
      ${place > 0 && html`<${Between} key=${`between ${place}`} pair=${[cards[place - 1], card]} order=${order} />`}
      <${Card}
        key=${`${card.alter} ${place}`}
        card=${card}
        neighbours=${[cards[place - 1], cards[place + 1]]}
        written=${written}
        unit=${unit}
        bare=${bare}
        problems=${problemsAt(problems, "garment", card.at)}
        garment=${garment}
      />`;
    return html`<section id="changed" aria-labelledby="q4">
      <h2 id="q4">What is changed, and how?</h2>
      <p class="small">
        Thin line: as it was. Strong line: as it is. Hatched: what the last change added or took away.
        ${elsewhere && ` ${elsewhere}`}
      </p>
      <ol class="cards">${cards.map(one)}</ol>
      ${more && html`<${More} more=${more} what=${what} count=${cards.length} unit=${unit} bare=${bare} garment=${garment} />`}
    </section>`;
  }
}

/** What is known of the order of two cards that stand one after the other. */
function Between({ pair, order }) {
  const places = pair.map((card) => card.at[1]);
  const found = order?.between.find((each) => places.includes(each.first) && places.includes(each.second));
  if (!found) return html`<li class="order" aria-hidden="true"></li>`;
  const turned = found.matters && !order.as_written && found.first === places[1];
  return html`<li class=${found.matters ? "order matters" : "order"}>
    ${read(found.sentence)}${turned && ` “${pair[1].title}” is taken first, wherever it stands.`}
  </li>`;
}

/** The field that a card is about: the first number that she wrote or has to write. */
const mainField = (fields) =>
  fields.find((each) => each.scale && (each.hers || each.required)) ?? fields.find((each) => each.scale && each.first);

const inWords = (value) => (value === "" ? "left out" : value === true ? "yes" : value === false ? "no" : value);

function Card({ card, neighbours, written, unit, bare, problems, garment }) {
  const run = useRun(`step ${card.at[1]}`);
  const id = `step-${card.at[1]}`;
  const main = mainField(card.fields);
  const rest = card.fields.filter((each) => each !== main);
  const shown = rest.filter((each) => each.first);
  const others = rest.filter((each) => !each.first);
  const title = `${card.title} ${card.piece}`.trim();
  const edits = (field, value) => [edit("garment", [...card.at, field.key], value)];
  const given = (field) => ({
    field,
    unit,
    bare,
    id: `${id}-${field.key}`,
    label: `${title}, ${field.name}`,
    bad: problems.some((each) => each.at[2] === field.key),
    refused: problems.length > 0,
    send: (value) => garment.change(edits(field, value), `${card.called}, ${field.name} ${inWords(value)}`, run()),
    attempt: (value, how) => (value === null ? garment.look() : garment.try(edits(field, value), how)),
  });
  const cannot = problems.flatMap((each) => (main && each.cannot?.[main.key] ? [each.cannot[main.key]] : []));
  const slider = main && { ...given(main), id: `${id}-${main.key}-slider`, cannot };
  return html`<li class=${card.in_use ? "card" : "card off"} id=${id} aria-labelledby=${`${id}-name`}>
    <div class="card-top">
      <h3 id=${`${id}-name`}>${card.title}${card.piece && html` <span class="of">${card.piece}</span>`}</h3>
      ${main && html`<span class="value">
        <label class="small" for=${`${id}-${main.key}`}>${main.name}</label><${Field} ...${given(main)} />
      </span>`}
    </div>
    ${main && slides(main) && html`<${Slider} ...${slider} />`}
    ${shown.length > 0 && html`<div class="rows">${shown.map((each) => html`<${Row} key=${each.key} ...${given(each)} />`)}</div>`}
    <${Refusal}
      problems=${problems}
      garment=${garment}
      pending=${card.fields.some((each) => each.asked !== null)}
      then=${() => main && focusOn(slider.id)}
    />
    <${Told} card=${card} />
    ${others.length > 0 && html`<details class="others">
      <summary>What else can be said of it</summary>
      <p class="small">${read(card.about)}</p>
      <div class="rows">${others.map((each) => html`<${Row} key=${each.key} ...${given(each)} />`)}</div>
    </details>`}
    <${Foot} card=${card} neighbours=${neighbours} written=${written} garment=${garment} />
  </li>`;
}

/** Whether a card is in use, where it stands, and how it is taken out. */
function Foot({ card, neighbours, written, garment }) {
  const use = (on) =>
    garment.change(
      [edit("garment", [...card.at, "in_use"], on ? "" : false)],
      `${card.called} ${on ? "in use" : "switched off"}`,
    );
  const move = (by) =>
    garment.change([{ in: "garment", do: "move", at: card.at, to: card.at[1] + by }], `${card.called} moved`);
  const takeOut = () =>
    garment
      .change([{ in: "garment", do: "remove", at: card.at }], `${card.called} taken out`)
      .then(() => focusOn("q4"));
  const mayMove = (other) => other && (written || other.alter === card.alter); // else the order counts for nothing
  return html`<div class="card-foot">
    <${Check} on=${card.in_use} label="in use" send=${use} />
    ${mayMove(neighbours[0]) && html`<button type="button" class="plain" onClick=${() => move(-1)}>Move up</button>`}
    ${mayMove(neighbours[1]) && html`<button type="button" class="plain" onClick=${() => move(1)}>Move down</button>`}
    <button type="button" class="plain" onClick=${takeOut}>Take out</button>
  </div>`;
}

/** A field as a line of its own: its name, its value, and a slider or what it is. */
function Row({ field, id, ...given }) {
  const about = html`<p class="small below">${read(field.about)}</p>`;
  if (field.kind === "flag") {
    return html`<div class="row-of"><${Field} ...${given} field=${field} id=${id} label=${field.name} />${about}</div>`;
  }
  return html`<div class="row-of">
    <label for=${id}>${field.name}</label>
    <${Field} ...${given} field=${field} id=${id} />
    ${slides(field) && html`<div class="below"><${Slider} ...${given} field=${field} id=${`${id}-slider`} /></div>`}
    ${!field.hers && about}
  </div>`;
}

/** What a card moved, and what it left alone. */
function Told({ card }) {
  if (!card.in_use) return html`<p class="told">Switched off. The pieces are drawn without it.</p>`;
  const one = (each, place) => html`${place > 0 && "; "}${place ? each.name : capital(each.name)}
    ${each.kind === "ease" && " eased in"} ${each.after ? html`<b>${read(each.after)}</b>` : "gone"}
    ${each.before && each.after && html` (${read(each.by)} ${each.way})`}`;
  return html`<div class="moves">
    <p class="told">
      ${card.moved.length ? card.moved.map(one) : "No length moves"}${card.more > 0 && `; and ${card.more} more`}.
    </p>
    <p class="small stays">Untouched: ${card.untouched}.</p>
  </div>`;
}

function More({ more, what, count, unit, bare, garment }) {
  const [asked, setAsked] = useState("");
  const [chosen, setChosen] = useState(null);
  const found = find(asked, more, what);
  const choose = (each) => {
    setChosen(each);
    requestAnimationFrame(() => document.getElementById("new-step")?.querySelector("input, select")?.focus());
  };
  const go = (each) => {
    const card = document.getElementById(each.id);
    card?.scrollIntoView({ block: "center" });
    const tick = card?.querySelector("input");
    tick?.focus({ preventScroll: true });
    card?.classList.add("found");
    tick?.addEventListener("blur", () => card.classList.remove("found"), { once: true });
  };
  const entryOf = (alter) => more.more.find((each) => each.alter === alter);
  const one = (each) => html`<li key=${each.id ?? each.called ?? each.alter}>
    <button type="button" disabled=${each.not_here !== ""} onClick=${() => (each.id ? go(each) : choose(each))}>
      <b>${each.title}</b>${" "}<span>${read(each.about)}</span>${" "}
      ${each.id && html`<span class="small">${each.there ? "It is there." : "It is put in further up"}: under “What is it?”</span>`}
      ${each.not_here && html`<span class="why-not">Not for this garment: ${read(each.not_here)}.</span>`}
    </button>
    ${each.not_here && each.instead && html`<button type="button" onClick=${() => choose(entryOf(each.instead))}>
      ${entryOf(each.instead).title}
    </button>`}
  </li>`;
  const given = { entry: chosen, count, unit, bare, garment, end: () => setChosen(null) };
  return html`<details class="more">
    <summary>Change something else</summary>
    ${chosen
      ? html`<${NewCard} key=${chosen.called ?? chosen.alter} ...${given} />`
      : html`<label for="find">What should be different?</label>
          <input
            type="text"
            id="find"
            autocomplete="off"
            placeholder="bust, V neck, flare, shoulder …"
            value=${asked}
            onInput=${(event) => setAsked(event.target.value)}
          />
          <p class="small" role="status">
            ${found.said ? read(found.said) : found.length ? `${found.length} to choose from` : "Nothing is called so. Try another word."}
          </p>
          <ul class="choices">${found.map(one)}</ul>`}
  </details>`;
}

const keyOf = (entry, option) => entry.fields.find((each) => each.option === option)?.key;

/** A card that is not in the file yet: it goes in when all that it needs is said. */
function NewCard({ entry, count, unit, bare, garment, end }) {
  const [said, setSaid] = useState({});
  const main = entry.fields.find((each) => each.option === entry.by) ?? mainField(entry.fields);
  const needed = entry.fields.filter((each) => each.required);
  const now = (option) => entry.told?.[option] ?? said[keyOf(entry, option)] ?? entry.fields.find((each) => each.option === option)?.value;
  const meant = ({ goes_with: [other, values] }) => !other || values.includes(now(other));
  const asked = entry.fields.filter((each) => (each.first || each === main) && meant(each));
  const isOpen = (field) => (said[field.key] ?? "") === "";
  const missing = needed.filter(isOpen);
  const filled = Object.entries(said).filter(([, value]) => value !== "");
  const value = { alter: entry.called ?? entry.alter, ...Object.fromEntries(filled) };
  const put = async () => {
    const edits = [{ in: "garment", do: "insert", at: ["step", count], value }];
    await garment.change(edits, `${value.alter} put in`);
    if (garment.state.problems.length) return;
    end();
    focusOn(main ? `step-${count}-${main.key}-slider` : `step-${count}-name`);
  };
  const tell = (field) => (given) => {
    if (given !== null) setSaid((now) => ({ ...now, [field.key]: given }));
    return Promise.resolve();
  };
  const line = (field) => {
    const told = said[field.key];
    const stands = { ...field, hers: told !== undefined, text: String(told ?? field.text), value: told ?? field.value, other: "" };
    const given = { field: stands, unit, bare, id: `new-${field.key}`, label: field.name };
    return html`<div class="row-of" key=${field.key}>
      <label for=${given.id}>${field.name}</label>
      <${Field} ...${given} send=${tell(field)} attempt=${tell(field)} />
      <p class="small below">${read(field.about)}</p>
    </div>`;
  };
  return html`<div class="card" id="new-step">
    <div class="card-top"><h3>${entry.title}</h3></div>
    <p>${read(entry.about)}</p>
    <div class="rows">${asked.map(line)}</div>
    <${Refusal} problems=${problemsAt(garment.state.problems, "garment", ["step", count])} garment=${garment} pending />
    <div class="row">
      <button type="button" class="main" disabled=${missing.length > 0} onClick=${put}>Put it in</button>
      <button type="button" onClick=${end}>Choose something else</button>
    </div>
    ${missing.length > 0 && html`<p class="small">It goes in when you have said: ${missing.map((each) => each.name).join(", ")}.</p>`}
  </div>`;
}

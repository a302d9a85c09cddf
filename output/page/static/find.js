// What she asks for by a word: a change, a block or a part, wherever it stands; what cannot be had here comes last.

import { capital } from "./lengths.js";

/** Whether each of the words begins a word of the text. */
const begins = (text, words) => words.every((word) => text.split(/[^\p{L}\p{N}]+/u).some((one) => one.startsWith(word)));

/** A word of one and not of several: "cuffs" is "cuff". */
const single = (word) => (word.length > 3 ? word.replace(/s$/, "") : word);

/**
 * What there is by these words, the nearest first: entries of `more`, and blocks and parts of `what`, which have the
 * `id` of their card. said: a sentence of the engine about the word, "" for none.
 */
export function find(asked, { more, blocks_and_parts: others, asked: told }, what) {
  const words = asked.toLowerCase().split(/[^\p{L}\p{N}]+/u).filter(Boolean).map(single);
  const places = places_of(what, others);
  if (!words.length) return ordered(more);
  const text = (each) => [each.title, each.about, ...(each.words ?? []).map(({ word }) => word), each.more].join(" ").toLowerCase();
  const also = (each) => [each.title, ...(each.also ?? [])].join(" ").toLowerCase();
  const named = (each) => begins(also(each), words);
  const byWord = called(more, words);
  const twice = new Set(byWord.filter(({ plain }) => plain).map(({ alter }) => alter)); // listed under her word already
  const rest = [...more.filter(({ alter }) => !twice.has(alter)), ...places];
  const whole = (each) => words.every((word) => also(each).split(/[^\p{L}\p{N}]+/u).some((one) => single(one) === word));
  const all = [
    ...byWord,
    ...rest.filter((each) => named(each) && whole(each)),
    ...rest.filter((each) => named(each) && !whole(each)),
    ...rest.filter((each) => !named(each) && begins(text(each), words)),
  ];
  const found = ordered(all);
  found.said = Object.entries(told).find(([word]) => single(word) === words.join(" "))?.[1] ?? "";
  return found;
}

const ordered = (all) => [...all.filter((each) => !each.not_here), ...all.filter((each) => each.not_here)];

/** Blocks and parts, those with a card on the page and those that have no place on this garment. */
function places_of(what, others) {
  const here = [...(what?.blocks ?? []), ...(what?.parts ?? [])];
  return others.map((each) => {
    const card = here.find(({ name }) => name === each.name);
    return { ...each, title: capital(each.name), id: card ? idOf(card) : `none ${each.name}`, there: card?.there, not_here: card ? "" : each.not_here };
  });
}

/** The id of the card of a block or a part. */
export const idOf = ({ name, called }) => `made-${(called ?? name).replace(/[^\p{L}\p{N}]+/gu, "-")}`;

/** What she asked for by another word, "V neck", "crop": the change as that word means it. */
function called(more, words) {
  const meant = (each, { word, turned, told, by }) => ({
    ...each,
    called: word,
    title: capital(word),
    by: by || turned[0],
    told,
    plain: isPlain({ turned, told, by }),
    not_here: each.not_here || lacks(each, told.piece),
    fields: each.fields
      .filter((field) => !(field.option in told))
      .map((field) => (turned.includes(field.option) ? { ...field, low: 0, high: -field.low, about: "how much" } : field)),
  });
  const isPlain = ({ turned, told, by }) => !turned.length && !by && !Object.keys(told).length;
  const plain = (word) => word.toLowerCase().split(" ").map(single).join(" ");
  const how = ({ turned, told, by }) => JSON.stringify([turned, told, by]);
  const fitting = (each) => each.words.filter((one) => begins(one.word.toLowerCase(), words))
    .filter((one) => !isPlain(one) || !begins(each.title.toLowerCase(), words)) // the change itself is listed then
    .sort((one, other) => (plain(other.word) === words.join(" ")) - (plain(one.word) === words.join(" ")))
    .filter((one, place, all) => all.findIndex((other) => how(other) === how(one)) === place);
  return more.flatMap((each) => fitting(each).slice(0, 2).map((word) => meant(each, word)));
}

/** Why a word that names a piece can do nothing where no piece is called so; "" where one is. */
function lacks(each, piece) {
  const there = each.fields.find(({ option }) => option === "piece")?.choices ?? [];
  return !piece || there.some((name) => name === piece || name.startsWith(`${piece} `)) ? "" : `it has no ${piece}`;
}

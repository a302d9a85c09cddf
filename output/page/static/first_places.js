// Which arrangement the pieces lie in at first: the one in which they are drawn largest, with room for their names.

import { layOut, placed } from "./places.js";

const WORTH = 1.15; // how much larger the pieces have to be for their names to have one line
const TURNS = 6; // after so many the scale and the room of the writing agree
const SMALLER = 2; // times smaller than without names the pieces may be for the sake of them
const AGREES = 0.05; // how far they may be from it
const EDGE = 24; // pixels of the room that stay free

/** The boxes of the pieces, each with the room for so many lines of writing under it where a pixel is so many mm. */
export function writtenBoxes(pieces, labels, { pixel, lines }) {
  const { size } = labels;
  return Object.fromEntries([...pieces].map(([name, { box: [left, top, width, height] }]) => {
    const more = lines ? Math.max(0, labels.narrowest(name, lines) * pixel - width) : 0;
    return [name, [left - more / 2, top, width + more, height + (1.25 * lines + 0.4) * size * pixel]];
  }));
}

/** First places as `layOut` gives them, with {writing, room}: names stand in one line or in two. room: in pixels */
export function firstPlaces(pieces, labels, room, arrangements) {
  const named = { k: 0, first: null };
  const bare = { k: 0, first: null };
  for (const arrangement of arrangements) {
    for (const lines of [2, 1, 0]) {
      // the writing takes so many millimetres as the letters need at the scale that comes of it
      let k = 0.3;
      let first = null;
      for (let turn = 0; turn < TURNS; turn++) {
        const writing = { pixel: 1 / k, lines };
        const boxes = writtenBoxes(pieces, labels, writing);
        first = { ...layOut(arrangement, boxes), writing, room };
        const { box } = placed(first, boxes);
        k = Math.min((room.width - EDGE) / (box[2] - box[0]), (room.height - EDGE) / (box[3] - box[1]));
      }
      // in a room too small for all the names the pieces have it to themselves
      if (lines && Math.abs(k * first.writing.pixel - 1) > AGREES) continue;
      const best = lines ? named : bare;
      // two lines tell how a piece is cut, which is worth a little
      if (k > best.k * (lines === 1 ? WORTH : 1)) Object.assign(best, { k, first });
    }
  }
  return named.k * SMALLER > bare.k ? named.first : bare.first;
}

// What is to be written on the table: the name of each piece under it, of each size on its line, and the numbers of
// notches when they are near.

import { nameChoices } from "./labels.js";

const NUMBERS_FROM = 0.9; // pixels to a millimetre from which notches show their numbers

/** What `Labels.write` is to write: pieces, seen by a camera in a room {width, height}, in letters of so many pixels. */
export function wanted(pieces, camera, { width, height }, letters) {
  const names = [];
  const numbers = [];
  const boxes = new Map(pieces.map((piece) => [piece, seen(piece, camera)]));
  for (const [piece, [x0, y0, x1, y1]] of boxes) {
    if (x1 < 0 || x0 > width || y1 < 0 || y0 > height || piece.group.classList.contains("aside")) continue;
    // under the piece; where that is out of sight, at the lower edge of what is seen of it
    const x = (Math.max(0, x0) + Math.min(width, x1)) / 2;
    const y = y1 + 4 + 1.5 * letters <= height ? y1 + 4 : height - 2.8 * letters;
    const beside = [...boxes].filter(([other]) => other !== piece).map(([, box]) => box);
    const choices = nameChoices(piece.name, piece.data.cut, piece.data.cut_short, x, y);
    // where many lie close: above the piece, or aslant under it
    const elsewhere = [[x, y0 - 1.5 * letters], [x0, y], [x1, y]];
    for (const place of elsewhere) choices.push(...nameChoices(piece.name, "", "", ...place).filter(({ more }) => !more));
    // where there is no room for it, a number on the piece, which is told below the table
    const number = [String([...boxes.keys()].indexOf(piece) + 1)];
    for (const share of [0.5, 0.3, 0.7, 0.15, 0.85]) {
      choices.push({ x: (x0 + x1) / 2, y: y0 + share * (y1 - y0) - 0.6 * letters, lines: number, short: true });
    }
    names.push({ key: piece.name, kind: y < y1 ? "name on" : "name", choices, beside });
    numbers.push(...sizeNames(piece, camera, letters));
    if (camera.k >= NUMBERS_FROM && !piece.folded) numbers.push(...notchNumbers(piece, camera, letters));
  }
  return [...names, ...numbers];
}

/** The names of sizes that lie over each other, each on its own line. */
function sizeNames({ name, at, sizeNames: sizes }, camera, letters) {
  return sizes.map(({ size, spots }) => {
    const choices = spots.map(([x, y]) => camera.screen(at[0] + x, at[1] + y))
      .map(([x, y]) => ({ x, y: y - 0.6 * letters, lines: [size] }));
    return { key: `${name} size ${size}`, kind: "number size", choices };
  });
}

/** The box of a piece on the screen: left, top, right, bottom. */
function seen({ at, box: [left, top, width, height] }, camera) {
  const low = camera.screen(at[0] + left, at[1] + top);
  return [...low, low[0] + camera.k * width, low[1] + camera.k * height];
}

function notchNumbers({ name, at, data }, camera, letters) {
  const around = [[-1, -0.6], [1, -0.6], [0, -1.9], [0, 0.6]];
  return data.notches.flatMap(({ x, y, number }, place) => {
    const [left, top] = camera.screen(at[0] + x, at[1] + y);
    const choices = around.map(([dx, dy]) => ({ x: left + dx * letters, y: top + dy * letters, lines: [String(number)] }));
    return number ? [{ key: `${name} ${place}`, kind: "number", choices }] : [];
  });
}

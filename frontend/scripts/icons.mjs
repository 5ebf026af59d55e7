// Draws the app's icon as PNG at build time, so that no picture is kept that nobody can change:
// a slug resting between two limit posts, the app's own picture of a reading that is in.
import { writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { deflateSync } from "node:zlib";

const PAPER = [0xf4, 0xf1, 0xe8];
const INK = [0x16, 0x1a, 0x1d];
const BLUE = [0x12, 0x3f, 0x73];
// Left, top, right, bottom in hundredths of the icon; all within the middle that a round mask keeps.
const SHAPES = [
  { box: [24, 26, 30, 74], colour: INK },
  { box: [70, 26, 76, 74], colour: INK },
  { box: [34, 40, 66, 60], colour: BLUE },
];

function colourAt(x, y) {
  const shape = SHAPES.find(({ box: [left, top, right, bottom] }) => x >= left && x < right && y >= top && y < bottom);
  return shape ? shape.colour : PAPER;
}

function pixels(size) {
  const rows = Buffer.alloc(size * (1 + size * 3));          // each row starts with a 0: no filter
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) rows.set(colourAt((x * 100) / size, (y * 100) / size), y * (1 + size * 3) + 1 + x * 3);
  }
  return rows;
}

function chunk(name, data) {
  const body = Buffer.concat([Buffer.from(name, "ascii"), data]);
  const length = Buffer.alloc(4);
  const sum = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(sumOf(body));
  return Buffer.concat([length, body, sum]);
}

/** CRC-32 as PNG wants it; older versions of Node have none to offer. */
function sumOf(body) {
  let sum = ~0;
  for (const byte of body) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = (sum >>> 1) ^ (sum & 1 ? 0xedb88320 : 0);
  }
  return ~sum >>> 0;
}

export function icon(size) {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(size, 0);
  head.writeUInt32BE(size, 4);
  head.set([8, 2, 0, 0, 0], 8);                              // 8 bits a channel, red green blue
  const mark = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([mark, chunk("IHDR", head), chunk("IDAT", deflateSync(pixels(size), { level: 9 })), chunk("IEND", Buffer.alloc(0))]);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const dist = resolve(fileURLToPath(import.meta.url), "../../dist");
  for (const size of [192, 512]) writeFileSync(resolve(dist, `icon-${size}.png`), icon(size));
}

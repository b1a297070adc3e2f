// Reads QR codes with jsQR: one line in for each picture, its width and its
// modules as 0 and 1, and one line of JSON out.
import { createRequire } from "node:module";
import { createInterface } from "node:readline";
import { resolve } from "node:path";

const jsQR = createRequire(resolve(process.argv[2], "package.json"))("jsqr");
const scale = 4;
for await (const line of createInterface({ input: process.stdin })) {
  const [n, dots] = line.split(" ");
  const w = Number(n) * scale;
  const rgba = new Uint8ClampedArray(w * w * 4);
  for (let y = 0; y < w; y++)
    for (let x = 0; x < w; x++) {
      const dark = dots[Math.floor(y / scale) * Number(n) + Math.floor(x / scale)] === "1";
      rgba.set(dark ? [0, 0, 0, 255] : [255, 255, 255, 255], (y * w + x) * 4);
    }
  const read = jsQR.default ? jsQR.default(rgba, w, w) : jsQR(rgba, w, w);
  console.log(JSON.stringify(read && { text: read.data, version: read.version }));
}

// Compresses a file beside itself: .br at the greatest quality, .gz for those
// who take no brotli. Node's own zlib does it, so no dependency is needed.
import { readFileSync, writeFileSync } from "node:fs";
import { brotliCompressSync, gzipSync, constants as c } from "node:zlib";

for (const file of process.argv.slice(2)) {
  const raw = readFileSync(file);
  const quality = Number(process.env.BROTLI_QUALITY ?? 11);
  const br = brotliCompressSync(raw, { params: { [c.BROTLI_PARAM_QUALITY]: quality, [c.BROTLI_PARAM_LGWIN]: 24, [c.BROTLI_PARAM_SIZE_HINT]: raw.length } });
  const gz = gzipSync(raw, { level: 9 });
  writeFileSync(file + ".gz", gz);
  writeFileSync(file + ".br", br);
  console.log(`${file}: ${raw.length} B, gzip ${gz.length} B, brotli ${br.length} B`);
}

// Scores a first visit on a phone, as Lighthouse simulates it (slow 4G, CPU
// 4 times slower): the page, its last view, and a plain page of a builder's
// with and without the line that puts the check into it. Median of RUNS, 3
// unless set. Usage: node .ci/lighthouse.mjs PATH-OF-THE-BINARY
import { spawn, execFileSync } from "node:child_process";
import { createServer } from "node:http";
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

const version = "12.2.3"; // the last for the Node of this project
const room = resolve(".build/lighthouse");
if (!existsSync(join(room, "node_modules/lighthouse"))) {
  mkdirSync(room, { recursive: true });
  writeFileSync(join(room, "package.json"), `{"private":true}`);
  execFileSync("npm", ["install", "--no-audit", "--no-fund", "--silent", "lighthouse@" + version], { cwd: room, stdio: "inherit" });
}
const lighthouse = (await import(join(room, "node_modules/lighthouse/core/index.js"))).default;
const { launch } = await import(join(room, "node_modules/chrome-launcher/dist/index.js"));

const runs = Number(process.env.RUNS ?? 3);
let check = "";
const words = "<p>We build ponds that people swim in, with stone, gravel and plants that keep the water clear.</p>".repeat(12);
const host = createServer((ask, reply) => {
  const line = ask.url === "/with" ? `<script src="${check}/embed.js" async></script><tarnwright-check style="display:block;min-height:100vh"><a href="${check}/">Open the pond check</a></tarnwright-check>` : "";
  reply.setHeader("Content-Type", "text/html; charset=utf-8");
  reply.end(`<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Ponds</title><meta name="description" content="Ponds to swim in"><link rel="icon" href="data:,"></head><body><main><h1>Ponds to swim in</h1>${words}${line}</main></body></html>`);
});
await new Promise((done) => host.listen(0, "127.0.0.1", done));
const hostURL = "http://127.0.0.1:" + host.address().port;

const data = mkdtempSync(join(tmpdir(), "tarnwright-score"));
const server = spawn(process.argv[2], ["serve", "-addr", "127.0.0.1:0", "-data", data, "-frame-ancestors", hostURL]);
check = await new Promise((done, failed) => {
  server.stdout.on("data", (text) => {
    const at = /http:\/\/127\.0\.0\.1:\d+/.exec(text);
    if (at) done(at[0]);
  });
  server.on("exit", () => failed(new Error("the server stopped")));
});
check = check.replace("127.0.0.1", "localhost"); // another site than the host's

const middle = (all) => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)];
const chrome = await launch({ chromePath: "/usr/bin/chromium", chromeFlags: ["--headless=new", "--no-sandbox", "--disable-gpu"] });
console.log(["page", "performance", "accessibility", "best practices", "SEO", "FCP ms", "LCP ms", "TBT ms", "CLS", "kB in all"].join("\t"));
try {
  for (const [name, url] of [["the page", check + "/"], ["the last view", check + "/?view=send"], ["a host without", hostURL + "/"], ["a host with", hostURL + "/with"]]) {
    const rows = [];
    for (let i = 0; i < runs; i++) {
      const { lhr } = await lighthouse(url, { port: chrome.port, output: "json", logLevel: "error" });
      writeFileSync(join(room, name.replaceAll(" ", "-") + ".json"), JSON.stringify(lhr));
      const score = (c) => Math.round(100 * (lhr.categories[c]?.score ?? NaN)), value = (a) => lhr.audits[a]?.numericValue ?? NaN;
      rows.push([score("performance"), score("accessibility"), score("best-practices"), score("seo"), value("first-contentful-paint"), value("largest-contentful-paint"),
        value("total-blocking-time"), value("cumulative-layout-shift"), value("total-byte-weight") / 1000]);
    }
    const mid = rows[0].map((_, k) => middle(rows.map((r) => r[k])));
    console.log([name, ...mid.slice(0, 6).map(Math.round), Math.round(mid[6]), mid[7].toFixed(4), mid[8].toFixed(1)].join("\t"));
  }
} finally {
  await chrome.kill();
  server.kill("SIGINT");
  host.close();
  rmSync(data, { recursive: true, force: true });
}

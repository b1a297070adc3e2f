// Runs one part of the benchmarks and prints its table; see bench.sh, which
// builds the programs it runs. It ends with a fault when two solvers of the same
// network disagree, and never because of a time.
import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import { join, resolve } from "node:path";

const { OUT: out, WASM_EXEC: wasmExec } = process.env;

// bench runs benchmarks of a package and returns name → {ns/op, other units}.
// It takes many short looks of so many runs each in one process and keeps the
// best: some fall between what else the machine does, and a WASM engine compiles
// a function well only once it has run for a while.
// It is run natively, as WASM under Node, or as WASM in Chromium, whose clock
// shows tenths of a millisecond only, so that its looks have to be longer.
const looks = 150;
function bench(how, pkg, pattern, runs, count = looks) {
  const file = resolve(out, pkg.replaceAll("/", "_") + (how === "native" ? ".test" : ".wasm"));
  const flags = ["-test.run", "^$", "-test.bench", pattern, "-test.benchtime", `${runs}x`, "-test.count", String(count)];
  const browser = "internal/browsertest";
  const [cmd, args, env, cwd] = {
    native: [file, flags, process.env, pkg],
    wasm: ["node", ["--stack-size=8192", wasmExec, file, ...flags], { PATH: process.env.PATH, HOME: process.env.HOME }, pkg],
    chromium: [resolve(out, "browser.test"), ["-test.run", "^$", "-test.bench", "^BenchmarkProgram$", "-test.benchtime", "1x",
      "-program", file, "-these", pattern, "-runs", String(runs), "-looks", String(count)], process.env, browser],
  }[how];
  const r = spawnSync(cmd, args, { env, cwd, encoding: "utf8" });
  if (r.status !== 0) throw new Error(`${file} ${pattern}: ${r.stdout}${r.stderr}`);
  const found = new Map();
  for (const line of r.stdout.split("\n")) {
    const m = /^Benchmark(\S+?)(?:-\d+)?\s+\d+\s+(.*)$/.exec(line);
    if (!m) continue;
    const units = {};
    const words = m[2].trim().split(/\s+/);
    for (let i = 0; i + 1 < words.length; i += 2) units[words[i + 1]] = Number(words[i]);
    if (!found.has(m[1]) || units["ns/op"] < found.get(m[1])["ns/op"]) found.set(m[1], units);
  }
  return found;
}

// rounds takes turns between the runners and keeps the best time of each.
function rounds(count, runners) {
  const best = {};
  for (let k = 0; k < count; k++) {
    for (const [name, run] of Object.entries(runners)) {
      for (const [id, u] of run()) {
        const key = `${name} ${id}`;
        if (!best[key] || u["ns/op"] < best[key]["ns/op"]) best[key] = u;
      }
    }
  }
  return best;
}

const time = (ns) => (ns < 1e3 ? `${ns.toFixed(0)} ns` : ns < 1e6 ? `${(ns / 1e3).toPrecision(3)} µs` : `${(ns / 1e6).toPrecision(3)} ms`);
const times = (x) => `${x.toPrecision(2)} ×`;

function table(title, head, rows) {
  const all = [head, ...rows].map((r) => r.map(String));
  const wide = head.map((_, i) => Math.max(...all.map((r) => [...(r[i] ?? "")].length)));
  console.log(`\n${title}`);
  for (const r of all) console.log("  " + r.map((c, i) => (i === 0 ? c.padEnd(wide[i]) : c.padStart(wide[i]))).join("  ").trimEnd());
}

// grows says how time goes with size: the exponent between the first and last.
const grows = (sizes, ns) => (Math.log(ns.at(-1) / ns[0]) / Math.log(sizes.at(-1) / sizes[0])).toFixed(2);

// engine is the EPANET engine on one loop with one pump: its project is kept
// open and each solve begins from first flows, at accuracy 1e-8.
async function engine() {
  const { Project, Workspace, Option, LinkProperty } = createRequire(join(process.cwd(), ".tools/package.json"))("epanet-js");
  const ws = new Workspace();
  await ws.loadModule();
  const m = new Project(ws);
  ws.writeFile("loop.inp", `[JUNCTIONS]
a 0 0
b 0 0
[RESERVOIRS]
pond 0
lip 1.5
[PIPES]
suction pond a 3 77.9272 0.0015 2.5 OPEN
discharge b lip 12 52.5018 0.0015 6 OPEN
[PUMPS]
pump a b HEAD c SPEED 1
[CURVES]
c 0 8
c 15 6
c 27 2
[OPTIONS]
UNITS CMH
HEADLOSS D-W
VISCOSITY 1.02193344e-6
TRIALS 500
[TIMES]
DURATION 0
[REPORT]
STATUS NO
SUMMARY NO
MESSAGES NO
[END]
`);
  m.open("loop.inp", "loop.rpt", "loop.out");
  m.setOption(Option.Accuracy, 1e-8);
  m.openH();
  const pump = m.getLinkIndex("pump");
  const solve = (n) => {
    for (let i = 0; i < n; i++) {
      m.initH(10);
      m.runH();
    }
  };
  solve(20000);
  return () => {
    const n = 100;
    let best = Infinity;
    for (let k = 0; k < 4 * looks; k++) {
      const start = process.hrtime.bigint();
      solve(n);
      best = Math.min(best, Number(process.hrtime.bigint() - start) / n);
    }
    return new Map([["loop", { "ns/op": best, "mL/h": m.getLinkValue(pump, LinkProperty.Flow) * 1e6 }]]);
  };
}

async function circulation() {
  const pump = "internal/core/pump", pipes = "internal/core/hydraulics";
  const b = rounds(3, {
    engine: await engine(),
    native: () => bench("native", pump, "^BenchmarkDuty_", 500),
    wasm: () => bench("wasm", pump, "^BenchmarkDuty_", 500),
  });
  const net = rounds(2, {
    native: () => bench("native", pipes, "^BenchmarkNetwork_(OneLoop|Branches)$", 30),
    wasm: () => bench("wasm", pipes, "^BenchmarkNetwork_(OneLoop|Branches)$", 30),
  });
  const ref = b["engine loop"];
  const row = (what, u, target) => [what, time(u["ns/op"]), times(ref["ns/op"] / u["ns/op"]), target, u["mL/h"] ? (u["mL/h"] / 1e6).toFixed(6) : ""];
  table("One loop, one pump, cold: times faster than the EPANET engine", ["", "a solve", "faster", "wanted", "flow, m³/h"], [
    row("EPANET 2.3.5 in WASM, its own friction law", ref, ""),
    row("duty point, exact Colebrook–White, native", b["native Duty_Cold"], "8 ×"),
    row("the same in WASM under Node", b["wasm Duty_Cold"], "3 ×"),
    row("the same with curve and lines made ready, native", b["native Duty_Ready"], ""),
    row("the same in WASM", b["wasm Duty_Ready"], ""),
    row("solver of any network, the engine's law, native", net["native Network_OneLoop"], ""),
    row("the same in WASM", net["wasm Network_OneLoop"], ""),
  ]);
  const apart = Math.abs(net["native Network_OneLoop"]["mL/h"] / ref["mL/h"] - 1);
  console.log(`  With the same law the two solvers are ${apart.toExponential(1)} apart.`);

  const choice = rounds(1, {
    native: () => bench("native", pump, "^BenchmarkChoose$", 1),
    wasm: () => bench("wasm", pump, "^BenchmarkChoose$", 1),
  });
  const sizes = [40, 400];
  const chosen = (how) => sizes.map((n) => choice[`${how} Choose/${n}_pumps`]["ns/op"]);
  table("The whole choice: pumps × 3 counts × 6 sizes of pipe", ["pumps", "native", "WASM", "wanted"],
    sizes.map((n, i) => [n, time(chosen("native")[i]), time(chosen("wasm")[i]), n === 40 ? "10 ms in WASM" : ""]));
  console.log(`  It goes with the number of pumps to the power ${grows(sizes, chosen("wasm"))}.`);

  const branches = [1, 2, 4, 8];
  const solved = (how) => branches.map((n) => net[`${how} Network_Branches/${n}`]["ns/op"]);
  table("A network of so many branches", ["branches", "native", "WASM"], branches.map((n, i) => [n, time(solved("native")[i]), time(solved("wasm")[i])]));
  console.log(`  It goes with the number of branches to the power ${grows(branches, solved("wasm"))}.`);
  if (!(apart < 1e-5)) throw new Error("the solvers disagree");
}

async function shape() {
  const geom = "internal/core/geom";
  const both = "^Benchmark(Measure|Contours)_Bean$";
  const b = rounds(3, {
    native: () => bench("native", geom, both, 60, 40),
    chromium: () => bench("chromium", geom, both, 60, 40),
    wasm: () => bench("wasm", geom, both, 60, 40),
  });
  const row = (what, id, wanted) => {
    const [n, c, w] = ["native", "chromium", "wasm"].map((how) => b[`${how} ${id}`]["ns/op"]);
    return [what, time(n), time(c), times(c / n), wanted, times(w / n)];
  };
  table("The demo pond's shape", ["", "native", "WASM in Chromium", "beside native", "wanted", "under Node"], [
    row("outline, field and every figure", "Measure_Bean", "4 ms, 2.6 ×"),
    row("six contours", "Contours_Bean", ""),
  ]);
  const r = rounds(1, { native: () => bench("native", geom, "^BenchmarkMeasure_(Resolutions|Vertices)$", 1) });
  table("Time against accuracy", ["rays a side", "native", "error of volume, ppm"],
    [40, 80, 160, 640].map((n) => [n, time(r[`native Measure_Resolutions/${n}`]["ns/op"]), r[`native Measure_Resolutions/${n}`].ppm]));
  const corners = [8, 25, 80, 250, 800];
  const ns = corners.map((n) => r[`native Measure_Vertices/${n}`]["ns/op"]);
  table("Time against corners", ["corners", "native"], corners.map((n, i) => [n, time(ns[i])]));
  console.log(`  It goes with the number of corners to the power ${grows(corners, ns)}.`);
}

async function page() {
  const b = rounds(1, {
    native: () => new Map([...bench("native", "internal/form", ".", 20), ...bench("native", "internal/drawing", ".", 1)]),
    wasm: () => new Map([...bench("wasm", "internal/form", ".", 20), ...bench("wasm", "internal/drawing", ".", 1)]),
    server: () => bench("native", "app/tarnwright", "^BenchmarkPage$", 1),
  });
  const names = Object.keys(b).filter((k) => k.startsWith("native ")).map((k) => k.slice(7));
  table("The page", ["", "native", "WASM", "WASM / native"], names.map((id) => {
    const n = b[`native ${id}`]["ns/op"], w = b[`wasm ${id}`]["ns/op"];
    return [id.toLowerCase().replaceAll("_", ", "), time(n), time(w), times(w / n)];
  }));
  const p = b["server Page"];
  table("The server", ["", "an answer", "a second", "bytes"], [["a whole page, worked out and drawn", time(p["ns/op"]), (1e9 / p["ns/op"]).toFixed(0), p.bytes]]);
}

const parts = { shape, circulation, page };
await parts[process.argv[2]]();

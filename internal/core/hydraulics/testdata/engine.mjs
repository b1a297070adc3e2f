// Solves networks with the open EPANET engine (OWA-EPANET 2.3.5 through
// epanet-js), so that a test can hold the house's solver against it.
//
// Reads from standard input {"networks":[{"viscosity_m2_per_s", "nodes",
// "pipes", "pumps"}, …]} with the field names of hydraulics.Network; head curves
// are three points, which the engine joins by H0 − a Qⁿ as the house does. Writes
// to standard output {"networks":[{"flows_m3_per_s":{link id: flow},
// "trials", "error_ratio"}]}.
//
// The first argument is the folder whose node_modules holds epanet-js, the
// second how many m³/h the engine counts as one m³/s.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const [tools, m3PerH] = process.argv.slice(2);
const need = createRequire(pathToFileURL(tools + "/package.json"));
const { Project, Workspace, Option, LinkProperty, AnalysisStatistic } = need("epanet-js");

const perHour = Number(m3PerH);
const rows = (title, list) => `[${title}]\n${list.join("\n")}\n`;

// The engine's input file in cubic metres an hour, metres and millimetres.
function input(n) {
  const surface = n.nodes.filter((v) => v.surface);
  const junctions = n.nodes.filter((v) => !v.surface);
  return [
    rows("JUNCTIONS", junctions.map((v) => `${v.id} 0 0`)),
    rows("RESERVOIRS", surface.map((v) => `${v.id} ${v.head_m ?? 0}`)),
    rows("PIPES", n.pipes.map((p) => [p.id, p.from, p.to, p.length_m, p.inside_diameter_m * 1000,
      (p.roughness_m ?? 0) * 1000, p.loss_coef ?? 0, p.check_valve ? "CV" : "OPEN"].join(" "))),
    rows("PUMPS", (n.pumps ?? []).map((p) => `${p.id} ${p.from} ${p.to} HEAD c_${p.id} SPEED ${p.speed_ratio}`)),
    rows("CURVES", (n.pumps ?? []).flatMap((p) => p.curve.points.map((c) => `c_${p.id} ${c.flow_m3_per_s * perHour} ${c.head_m}`))),
    rows("OPTIONS", ["UNITS CMH", "HEADLOSS D-W", `VISCOSITY ${n.viscosity_m2_per_s}`, "TRIALS 500", "UNBALANCED STOP"]),
    rows("TIMES", ["DURATION 0"]),
    rows("REPORT", ["STATUS NO", "SUMMARY NO", "MESSAGES NO"]),
    "[END]\n",
  ].join("\n");
}

function solve(ws, n, k) {
  const m = new Project(ws);
  ws.writeFile(`${k}.inp`, input(n));
  m.open(`${k}.inp`, `${k}.rpt`, `${k}.out`);
  m.setOption(Option.Accuracy, 1e-8);
  m.setOption(Option.HeadError, 1e-9);
  m.setOption(Option.FlowChange, 1e-9);
  m.openH();
  m.initH(10); // begin from first flows, keep no results
  m.runH();
  const flows = {};
  for (const l of [...n.pipes, ...(n.pumps ?? [])]) {
    flows[l.id] = m.getLinkValue(m.getLinkIndex(l.id), LinkProperty.Flow) / perHour;
  }
  const answer = {
    flows_m3_per_s: flows,
    trials: m.getStatistic(AnalysisStatistic.Iterations),
    error_ratio: m.getStatistic(AnalysisStatistic.RelativeError),
  };
  m.closeH();
  m.close();
  return answer;
}

const ws = new Workspace();
await ws.loadModule();
const asked = JSON.parse(readFileSync(0, "utf8"));
const networks = asked.networks.map((n, k) => {
  try {
    return solve(ws, n, k);
  } catch (e) {
    return { error: String(e.message ?? e) };
  }
});
process.stdout.write(JSON.stringify({ networks }));

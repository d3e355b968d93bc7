// Compares conversions, one JSON object a line on standard input, with those of
// UCUM, the Unified Code for Units of Measure, through its own library.
//
//   go run ./.ci/outside/units | node compare.mjs
import { createInterface } from "node:readline";
import ucum from "@lhncbc/ucum-lhc";

const within = 1e-12; // relative; a few rounding steps of a double
const least = 20; // figures; fewer means that the list was cut short

// apart is how far our figure is from theirs, relative to theirs.
const apart = (ours, theirs) => Math.abs(ours - theirs) / Math.abs(theirs);

const units = ucum.UcumLhcUtils.getInstance();

// A pound cut off after seven decimals must be seen, or nothing would be.
if (apart(0.4535923, units.convertUnitTo("[lb_av]", 1, "kg").toVal) <= within) {
  throw new Error("a wrong pound passes for UCUM's");
}

let compared = 0;
let wrong = 0;
let furthest = 0;

for await (const line of createInterface({ input: process.stdin })) {
  const { written, value, from, to, ours } = JSON.parse(line);
  const { status, toVal: theirs, msg } = units.convertUnitTo(from, value, to);
  if (status !== "succeeded") {
    throw new Error(`UCUM on ${from} to ${to}: ${status} ${msg}`);
  }
  const off = apart(ours, theirs);
  compared++;
  if (off <= within) {
    furthest = Math.max(furthest, off);
    continue;
  }
  wrong++;
  console.log(`   ${written}: ${ours} ${to} here, ${theirs} by UCUM`);
}
console.log(`   ${compared} figures compared with UCUM, ${wrong} apart, the others within ${furthest.toExponential(1)}`);
if (wrong > 0 || compared < least) {
  process.exitCode = 1;
}

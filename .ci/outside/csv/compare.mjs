// Compares the CSV files of an export, as csv-parse reads them, with the rows of the
// store that they were written from; both are one JSON object on standard input.
//
//   go run ./.ci/outside/csv | node compare.mjs
import { readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";

const least = { people: 30, attempts: 200 }; // rows; fewer means that the export was cut short

// reckoned reports whether a spreadsheet would reckon with a cell.
const reckoned = (cell) => /^[=+\-@\t\r]/.test(cell) && Number.isNaN(Number(cell));

// shown is a cell as a spreadsheet shows it: an apostrophe before what would be reckoned
// with is not part of it.
const shown = (cell) => (/^'+[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell);

// differences lists where rows that were read are not those that were written.
function differences(rows, want) {
  const out = rows.length === want.length ? [] : [`${rows.length} rows of ${want.length}`];
  want.forEach((row, i) => {
    for (const [column, value] of Object.entries(row)) {
      const cell = rows[i]?.[column];
      if (cell !== undefined && reckoned(cell)) {
        out.push(`row ${i + 1}, ${column}: a spreadsheet reckons with ${JSON.stringify(cell)}`);
      }
      if (cell === undefined || shown(cell) !== value) {
        out.push(`row ${i + 1}, ${column}: ${JSON.stringify(cell)} for ${JSON.stringify(value)}`);
      }
    }
  });
  return out;
}

// What is cut off, swapped or left open to be reckoned with must be seen, or nothing would be.
for (const planted of [[], [{ name: "Bo" }], [{ name: "=1" }]]) {
  if (differences(planted, [{ name: "Mo" }]).length === 0) {
    throw new Error(`${JSON.stringify(planted)} passes for Mo`);
  }
}

const { files, ...kept } = JSON.parse(readFileSync(0, "utf8"));
let wrong = 0;
let compared = 0;
for (const [name, want] of Object.entries(kept)) {
  const found = differences(parse(files[name], { columns: true }), want);
  if (want.length < least[name]) {
    found.push(`only ${want.length} rows`);
  }
  for (const difference of found) {
    console.log(`   ${name}: ${difference}`);
  }
  wrong += found.length;
  compared += want.length;
}
console.log(`   ${compared} rows compared with csv-parse, ${wrong} differences`);
if (wrong > 0) {
  process.exitCode = 1;
}

// Solves programmes with HiGHS: node highs.cjs MODULE OPTIONS FILE... One line of JSON for each: what it says, the optimum and
// the milliseconds it took. The list of files may come by standard input, a line each.
const fs = require("fs");
const [module_, given] = process.argv.slice(2);
const options = { output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0.5, ...JSON.parse(given) };

(async () => {
  let files = process.argv.slice(4);
  if (files.length === 0) files = fs.readFileSync(0, "utf8").split("\n").filter((line) => line);
  let highs;
  for (const [i, file] of files.entries()) {
    if (i % 100 === 0) highs = await require(module_)(); // its memory only grows
    const text = fs.readFileSync(file, "utf8");
    const start = performance.now();
    let answer;
    try {
      answer = highs.solve(text, options);
    } catch (e) {
      answer = { Status: `aborted: ${e}` };
      highs = await require(module_)();
    }
    console.log(JSON.stringify({ Status: answer.Status, Objective: answer.ObjectiveValue, Took: performance.now() - start }));
  }
})().catch((e) => {
  console.error(e);
  process.exit(1);
});

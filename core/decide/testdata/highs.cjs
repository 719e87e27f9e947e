// Solves the programmes 0.lp ... (n-1).lp of a folder with HiGHS: node highs.cjs MODULE FOLDER N. One line of JSON for each.
const fs = require("fs");
const path = require("path");
const [module_, folder, n] = process.argv.slice(2);

(async () => {
  let highs = await require(module_)();
  for (let i = 0; i < Number(n); i++) {
    const text = fs.readFileSync(path.join(folder, `${i}.lp`), "utf8");
    const answer = highs.solve(text, { output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0.5 });
    console.log(JSON.stringify({ Status: answer.Status, Objective: answer.ObjectiveValue }));
    if (i % 100 === 99) highs = await require(module_)(); // its memory only grows
  }
})().catch((e) => {
  console.error(e);
  process.exit(1);
});

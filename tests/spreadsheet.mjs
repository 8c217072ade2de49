// The user's book through a spreadsheet and back: exported, opened in LibreOffice with its default settings, edited, saved as CSV, loaded.
// Nothing may be lost and nothing may change but what was edited. Needs the built core (scripts/build) and LibreOffice Calc.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Bench, initSync } from "../www/stand_in.js";

initSync({ module: readFileSync(new URL("../www/stand_in_bg.wasm", import.meta.url)) });

// LibreOffice drops tabs inside cells, whoever wrote them; no other character is lost.
// Types and remarks that a spreadsheet would take for something else, each in a tube of the user's own.
const types = ["6E5X", "1E7", "2E9", "01AQ", "0Z4Q", "1E7GTQ", "007", "12/5", "9-4", "1.50", "5E+3", "99999999999", "7:30", "=1+1", "+5", "-7", "@x", "TRUE1"];
const remarks = ["=1+1", "=HYPERLINK(\"x\")", "+5", "-5.50", "-", "@sum", "'quoted", "''=twice", "'=1+1", "1/2", "1-2", "1.10", "007", "6E5", "3:30", "50%", "two\nlines", "a \"word\"", "ä µF Ω, 0,1; 2"];
const quoted = (cell) => `"${cell.replaceAll('"', '""')}"`;
const rows = types.map((type, at) => [type, "1-2", "triode", "-12.5", "0.4321", remarks[at % remarks.length]]);
remarks.forEach((remark, at) => rows.push([`Q${at}`, "1", "triode", "-0.5", "0.3", remark]));
rows.push(["QQQ", "1", "triode", "-3", "0.15", "to be edited"]);
const own = {
  tubes: `type,unit,function,typ_grid_v,heater_a,my own\n${rows.map((row) => row.map(quoted).join(",")).join("\n")}\n`,
  names: `name,type,note\n12E1,12SK7,to be edited\n${quoted("-=x")},6SK7,${quoted("=2*3")}\n9-1,6SN7GT,1E9\n`,
  stock: `marking,count,place,tested,note,paid\n${[...types, ...remarks].map((marking, at) => [marking, at, remarks.at(-1 - (at % remarks.length)), "85 %", marking, "1.50"].map((cell) => quoted(String(cell))).join(",")).join("\n")}\n6SK7,3,drawer,to be edited,,\n`,
};
const bench = () => {
  const made = new Bench();
  for (const [table, csv] of Object.entries(own)) {
    const report = JSON.parse(made.load(table, csv));
    assert.deepEqual(report.faults, [], `${table} as written`);
  }
  return made;
};

const folder = mkdtempSync(join(tmpdir(), "stand-in-spreadsheet-"));
const convert = (to, file) =>
  execFileSync("soffice", [`-env:UserInstallation=file://${folder}/profile`, "--headless", "--convert-to", to, "--outdir", folder, join(folder, file)], { stdio: "pipe" });
try {
  for (const table of ["tubes", "names", "stock"]) {
    const exported = bench().export(table);
    assert.equal(new Bench().export(table) === exported, false);
    writeFileSync(join(folder, `${table}.csv`), exported);
    convert("fods", `${table}.csv`);
    const sheet = readFileSync(join(folder, `${table}.fods`), "utf8");
    // The edits a person makes: a remark, and a figure where there is one.
    const edited = sheet.replace("<text:p>to be edited</text:p>", "<text:p>edited</text:p>").replaceAll("0.4321", "0.5432");
    assert.notEqual(edited, sheet);
    writeFileSync(join(folder, `${table}.fods`), edited);
    convert("csv", `${table}.fods`);
    const back = readFileSync(join(folder, `${table}.csv`), "utf8");
    assert.notEqual(back, exported, "the spreadsheet has written the file anew");

    // Over the book it came from: only the edits change.
    const report = JSON.parse(bench().load(table, back));
    assert.deepEqual(report.faults, []);
    const changes = report.changes.map(({ column, old, new: now }) => `${column}: ${old} -> ${now}`);
    const edits = table === "tubes" ? [...types.map(() => "heater_a: 0.4321 -> 0.5432"), "my own: to be edited -> edited"] : [table === "names" ? "note: to be edited -> edited" : "tested: to be edited -> edited"];
    assert.deepEqual(changes, edits);
    assert.equal(report.new, 0);

    // Over the shipped book alone: the user's rows come back whole, and no shipped row becomes his.
    const anew = new Bench();
    anew.load("tubes", own.tubes.split("\n")[0]);
    anew.load(table, back);
    const wanted = bench();
    wanted.load(table, back);
    assert.equal(anew.export(`own_${table}`), wanted.export(`own_${table}`));
    console.log(`${table}: ${report.rows} rows through the spreadsheet, ${changes.length} edits and nothing else changed`);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

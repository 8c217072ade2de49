// Compares two independent recollections of the same tubes, cell by cell, and writes the rows on which both agree.
//
//   node scripts/compare_recollections.mjs A_DIR B_DIR OUT_DIR [THIRD_CSV]
//
// A_DIR and B_DIR each hold tubes.csv and names.csv as described in DEVELOPERS.md ("adding tubes from memory"). What differs is left
// empty and named in the column `unsure`; a value only one of the two gives stays empty too. THIRD_CSV (type,unit,column,value) holds a
// third recollection of such cells, made without sight of the other two: a value that it shares with one of them stands. The rate of
// disagreement per column goes to standard output.
import { mkdirSync, readFileSync, writeFileSync, existsSync } from "node:fs";
import { join } from "node:path";

const [aDir, bDir, outDir, thirdFile] = process.argv.slice(2);
if (!aDir || !bDir || !outDir) {
  console.error("usage: compare_recollections.mjs A_DIR B_DIR OUT_DIR [SETTLED_CSV]");
  process.exit(2);
}

/** Parses CSV text into rows of cells. */
export function parse(text) {
  const rows = [];
  let row = [], cell = "", quoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (quoted) {
      if (c === '"' && text[i + 1] === '"') { cell += '"'; i++; }
      else if (c === '"') quoted = false;
      else cell += c;
    } else if (c === '"') quoted = true;
    else if (c === ",") { row.push(cell); cell = ""; }
    else if (c === "\n") { row.push(cell); rows.push(row); row = []; cell = ""; }
    else if (c !== "\r") cell += c;
  }
  if (cell || row.length) { row.push(cell); rows.push(row); }
  return rows.filter((r) => r.some((c) => c.trim()));
}
const quote = (cell) => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
const read = (file) => {
  const [header, ...rows] = parse(readFileSync(file, "utf8"));
  return rows.map((r) => Object.fromEntries(header.map((h, i) => [h, (r[i] ?? "").trim()])));
};

const ENVELOPE = ["base", "basing", "pins", "envelope", "heater_kind", "heater_v", "heater_a", "heater_parallel_v", "heater_parallel_a",
  "lamp_tap_v", "warm_up", "heater_cathode_max_v", "found_today"];
const UNIT = ["function", "cut_off", "plate_max_v", "screen_max_v", "plate_max_w", "screen_max_w", "cathode_max_ma", "peak_inverse_max_v",
  "plate_peak_max_ma", "dc_out_max_ma", "first_filter_max_uf", "supply_min_ohm", "drop_v", "drop_ma", "typ_plate_v", "typ_screen_v",
  "typ_grid_v", "typ_plate_ma", "typ_screen_ma", "gm_ms", "mu", "rp_kohm", "load_kohm", "output_w", "input_pf", "output_pf", "grid_plate_pf"];
// A typical point is one fact: when its plate volts differ, the figures taken there cannot be compared.
const POINT = ["typ_plate_v", "typ_screen_v", "typ_grid_v", "typ_plate_ma", "typ_screen_ma"];
const DROP = ["drop_v", "drop_ma"];
const TEXT = new Set(["base", "basing", "pins", "envelope", "heater_kind", "warm_up", "found_today", "function", "cut_off"]);

/** Tubes by type, each with its units expanded. */
function tubes(dir) {
  const all = new Map();
  for (const row of read(join(dir, "tubes.csv"))) {
    const type = row.type.toUpperCase();
    if (!all.has(type)) all.set(type, { type: row.type, envelope: null, units: [] });
    const tube = all.get(type);
    const [from, to = from] = (row.unit || "1").split("-").map(Number);
    if (from === 1) tube.envelope = row;
    for (let u = from; u <= to; u++) tube.units[u - 1] = row;
  }
  return all;
}

/** The electrode words of one pin, `f+` and `f-` kept whole. */
const words = (text) => text.replaceAll("f+", "f>").replaceAll("f-", "f<").split("+").map((w) => w.replace("f>", "f+").replace("f<", "f-"));

/** Pins as [pin, what is on it]. */
const pinsOf = (text) => text.split(/\s+/).filter(Boolean).map((word) => [word.slice(0, word.indexOf("=")), word.slice(word.indexOf("=") + 1)]);

/**
 * A pin map in one way of writing: units of like function renumbered in the order of their lowest pin; an internal shield or beam
 * plates joined to another electrode left out, since a socket sees no difference.
 */
function canonicalPins(text, functions) {
  const own = new Set();
  const pins = pinsOf(text).map(([pin, on]) => {
    const names = words(on).map((name) => {
      let [what, unit] = name.split("@");
      if (what === "g") what = "g1";
      if (unit) own.add(`${what}@${unit}`);
      return { what, unit: unit ? Number(unit) : 0 };
    });
    return { pin, names };
  });
  // Without @ an electrode belongs to every unit that has one and whose own is not named elsewhere.
  const has = (what, f) => {
    if (what === "d") return f === "diode";
    if (what === "p") return f !== "diode";
    if (what === "k") return true;
    if (what === "g1") return !["diode", "rectifier", "damper", "regulator"].includes(f);
    return ["pentode", "power_pentode", "heptode", "tetrode"].includes(f);
  };
  for (const pin of pins) {
    if (pin.names.length > 1) pin.names = pin.names.filter(({ what }) => what !== "s" && what !== "bp" && !(what === "g3" && pin.names.some((n) => n.what === "k")));
    pin.names = pin.names.flatMap(({ what, unit }) => {
      const label = what === "d" ? "p" : what;
      if (!/^(k|g\d|p|d|t|rc)$/.test(what)) return [{ what, unit: 0 }];
      if (unit) return [{ what: label, unit }];
      return functions.map((f, i) => [f, i + 1]).filter(([f, i]) => has(what, f) && !own.has(`${what}@${i}`)).map(([, i]) => ({ what: label, unit: i }));
    });
  }
  const seen = {}, number = {};
  for (const { names } of pins) for (const { unit, what } of names) {
    if (!unit || what === "k" || number[unit]) continue;
    const f = functions[unit - 1] ?? "?";
    number[unit] = `${f}${(seen[f] = (seen[f] ?? 0) + 1)}`;
  }
  return new Map(pins.map(({ pin, names }) => [pin, names.map(({ what, unit }) => (unit ? `${what}@${number[unit] ?? unit}` : what)).sort().join("+")]));
}

/** Pins on which nothing of the circuit comes out. */
const BARE = new Set(["-", "ic", "shell", "s", "?"]);

/**
 * The pin map both agree on, or "" when they do not. Where one has an empty pin and the other an internal connection or shell, the
 * pin is written `?`: not sure, to be treated as both.
 */
function agreedPins(a, functionsA, b, functionsB) {
  const [ca, cb] = [canonicalPins(a, functionsA), canonicalPins(b, functionsB)];
  if ([...ca.keys()].sort().join() !== [...cb.keys()].sort().join()) return "";
  const out = [];
  for (const [pin, on] of pinsOf(a)) {
    const [x, y] = [ca.get(pin), cb.get(pin)];
    if (x === y) out.push(`${pin}=${words(on).length > 1 ? words(on).filter((w) => w !== "s").join("+") : on}`);
    else if (BARE.has(x) && BARE.has(y)) out.push(`${pin}=?`);
    else return "";
  }
  return out.join(" ");
}

const same = (column, a, b) => {
  if (a === b) return true;
  if (TEXT.has(column)) return a.toLowerCase() === b.toLowerCase();
  const [x, y] = [Number(a), Number(b)];
  return a !== "" && b !== "" && Math.abs(x - y) <= 1e-9 * Math.max(Math.abs(x), Math.abs(y));
};

const third = new Map();
if (thirdFile && existsSync(thirdFile)) for (const row of read(thirdFile)) third.set(`${row.type.toUpperCase()}|${row.unit}|${row.column}`, row.value);

const [a, b] = [tubes(aDir), tubes(bDir)];
const stats = {};
const differences = [];
const only = [];
const out = [];
const header = ["type", "unit", "function", ...ENVELOPE, ...UNIT.slice(1), "source", "unsure", "note"];
for (const [type, ta] of a) {
  const tb = b.get(type);
  if (!tb) { only.push(`${ta.type} (first alone)`); continue; }
  const fa = ta.units.map((u) => u.function), fb = tb.units.map((u) => u.function);
  const look = (unit, column) => third.get(`${type}|${unit}|${column}`) ?? "";
  if (fa.join() !== fb.join()) {
    differences.push({ type: ta.type, unit: 1, column: "function", a: fa.join(" "), b: fb.join(" ") });
    (stats.function ??= { both: 0, differ: 0, one: 0 }).differ++;
    continue;
  }
  ta.units.forEach((ua, i) => {
    const ub = tb.units[i] ?? ua;
    const row = { type: ta.type, unit: String(i + 1), function: ua.function };
    const unsure = [];
    const agree = (column, va, vb) => {
      if (!va || !vb) return "";
      if (column === "pins") return agreedPins(va, ta.units.map((u) => u.function), vb, tb.units.map((u) => u.function));
      // How easily found is a judgement: of two neighbouring ones the more careful stands.
      if (column === "found_today") return [va, vb].sort().join() === "common,scarce" ? "" : [va, vb].sort().at(-1);
      return same(column, va, vb) ? va : "";
    };
    const take = (column, va, vb) => {
      const s = (stats[column] ??= { both: 0, differ: 0, one: 0 });
      if (!va && !vb) return;
      const agreed = agree(column, va, vb);
      if (va && vb) s.both++; else s.one++;
      if (agreed) { row[column] = agreed; return; }
      if (va && vb) s.differ++;
      // Like units share a row of the third recollection.
      const vc = look(ta.units.indexOf(ua) + 1, column);
      const settled = agree(column, va, vc) || agree(column, vc, vb);
      if (settled) { row[column] = settled; return; }
      if (va && vb) differences.push({ type: ta.type, unit: i + 1, column, a: va, b: vb });
      unsure.push(column);
    };
    if (i === 0) for (const column of ENVELOPE) take(column, ta.envelope?.[column] ?? "", tb.envelope?.[column] ?? "");
    for (const column of UNIT.slice(1)) take(column, ua[column] ?? "", ub[column] ?? "");
    // Facts that belong together stand or fall together.
    if (!row.typ_plate_v) for (const column of [...POINT, "output_w", "load_kohm"]) if (row[column]) { delete row[column]; if (!unsure.includes(column)) unsure.push(column); }
    if (DROP.some((column) => !row[column])) for (const column of DROP) delete row[column];
    for (const pair of [["heater_v", "heater_a"], ["heater_parallel_v", "heater_parallel_a"]]) if (pair.some((c) => !row[c])) for (const c of pair) if (row[c]) delete row[c];
    row.unsure = unsure.filter((c) => !row[c]).join(" ");
    row.note = [ua.note, ub.note].filter((n) => n && n.length < 90)[0] ?? "";
    if (i > 0) row.note = "";
    row.source = "memory";
    out.push(row);
  });
}
for (const type of b.keys()) if (!a.has(type)) only.push(`${b.get(type).type} (second alone)`);

// Like units fold into one row again.
const folded = [];
for (const row of out) {
  const last = folded.at(-1);
  const alike = last && last.type === row.type && last.unit !== "1" | 0 ? UNIT.every((c) => (last[c] ?? "") === (row[c] ?? "")) && ENVELOPE.every((c) => !row[c]) : false;
  const firstAlike = last && last.type === row.type && UNIT.every((c) => (last[c] ?? "") === (row[c] ?? ""));
  if (alike || firstAlike) last.unit = `${last.unit.split("-")[0]}-${row.unit}`;
  else folded.push(row);
}

const nameRows = [];
const nameKey = (t) => t.toUpperCase().replace(/[\s.\-_]/g, "");
const bNames = new Map(read(join(bDir, "names.csv")).map((r) => [nameKey(r.name), r]));
const nameDiffer = [];
for (const row of read(join(aDir, "names.csv"))) {
  const other = bNames.get(nameKey(row.name));
  if (!other) continue;
  if (nameKey(other.type) !== nameKey(row.type)) { nameDiffer.push(`${row.name}: ${row.type} / ${other.type}`); continue; }
  nameRows.push({ name: row.name, type: row.type, relation: row.relation === "selection" || other.relation === "selection" ? "selection" : "same", note: "", source: "memory" });
}

mkdirSync(outDir, { recursive: true });
const write = (file, columns, rows) => writeFileSync(join(outDir, file), [columns.join(","), ...rows.map((r) => columns.map((c) => quote(r[c] ?? "")).join(","))].join("\n") + "\n");
write("tubes.csv", header, folded);
write("names.csv", ["name", "type", "relation", "note", "source"], nameRows);
write("differences.csv", ["type", "unit", "column", "a", "b"], differences);

console.log(`${new Set(folded.map((r) => r.type)).size} types, ${nameRows.length} names agreed`);
if (only.length) console.log(`recalled by one alone, left out: ${only.join(", ")}`);
if (nameDiffer.length) console.log(`names that differ, left out: ${nameDiffer.join("; ")}`);
console.log("column                    both  differ   rate  one alone");
for (const [column, s] of Object.entries(stats)) console.log(`${column.padEnd(24)} ${String(s.both).padStart(5)} ${String(s.differ).padStart(7)} ${(s.both ? (100 * s.differ / s.both).toFixed(1) : "-").padStart(5)}% ${String(s.one).padStart(8)}`);

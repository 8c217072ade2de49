// How the element looks. Colours come in two palettes, each with 7:1 between words and their ground; sizes are in rem, so that the text
// size of the device is respected; the width of the element, not of the window, decides the layout, so that it can be embedded. Nothing
// of the page around it comes in but the properties `--stand-in-...`, which are told in README.md.

import { SETS_STYLE } from "./style_sets.js";

/** Daylight: ink on the paper of an old parts envelope. */
const LIGHT = `
  color-scheme: light;
  --bar: var(--stand-in-bar, #1f1b14); --bar-ink: var(--stand-in-bar-ink, #f5f0e3); --paper: var(--stand-in-paper, #f5f0e3); --raised: var(--stand-in-raised, #fffcf4); --ink: var(--stand-in-ink, #1f1b14); --quiet: var(--stand-in-quiet, #4a4337); --rule: var(--stand-in-rule, #c9bda4); --strong: var(--stand-in-strong, #6b604e);
  --act: var(--stand-in-action, #0b4a46); --act-ink: var(--stand-in-action-ink, #ffffff); --act-ground: var(--stand-in-action-ground, #dfeae4); --heater: #8a2c0a; --moved: #14408a;
  --yes: #14522c; --yes-ground: #e0eedd; --care: #6f3a00; --care-ground: #fbe9c6;
  --no: #8b1414; --no-ground: #fae0da; --unknown: #3b3c66; --unknown-ground: #e7e6f2; --on-mark: #ffffff;
`;
/** Evening at the bench. */
const DARK = `
  color-scheme: dark;
  --bar: var(--stand-in-bar, #2c2820); --bar-ink: var(--stand-in-bar-ink, #f4ecdb); --paper: var(--stand-in-paper, #15130f); --raised: var(--stand-in-raised, #211e18); --ink: var(--stand-in-ink, #f4ecdb); --quiet: var(--stand-in-quiet, #cdc3b1); --rule: var(--stand-in-rule, #4b4439); --strong: var(--stand-in-strong, #a2977f);
  --act: var(--stand-in-action, #8fdccb); --act-ink: var(--stand-in-action-ink, #0c1f1c); --act-ground: var(--stand-in-action-ground, #1f3330); --heater: #ffb38f; --moved: #a9c8ff;
  --yes: #a2e3ab; --yes-ground: #17301c; --care: #ffca74; --care-ground: #3a2a0a;
  --no: #ffb9b0; --no-ground: #45160f; --unknown: #cbcdff; --unknown-ground: #282a47; --on-mark: #15130f;
`;

const CSS = `
/* What the page around the element gives its text, and what it does to the element itself, ends here. */
.frame { all: initial; direction: ltr; display: block; position: relative; z-index: 0; container-type: inline-size; min-height: var(--tall); background: var(--paper); color: var(--ink);
  --tall: var(--stand-in-min-height, 0px); --sans: var(--stand-in-font, system-ui, -apple-system, "Segoe UI", Roboto, sans-serif);
  --serif: var(--stand-in-heading-font, "Iowan Old Style", "Palatino Linotype", Palatino, "Book Antiqua", Georgia, serif);
  font: 1.0625rem/1.45 var(--sans); font-variant-numeric: tabular-nums; text-align: start; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
:host, .frame { ${LIGHT} --tone: initial; --ground: initial; }
@media (prefers-color-scheme: dark) { :host, .frame { ${DARK} } }
:host([theme="light"]), :host([theme="light"]) .frame { ${LIGHT} }
:host([theme="dark"]), :host([theme="dark"]) .frame { ${DARK} }
:host { display: block; background: var(--paper); color: var(--ink); }
:host([hidden]) { display: none; }
*, *::before, *::after { box-sizing: border-box; }
h1, h2, h3, h4, p, ul, ol, dl, dd, figure, fieldset { margin: 0; padding: 0; border: 0; }
ul, ol { list-style: none; }
button, input, select { font: inherit; color: inherit; letter-spacing: inherit; }
button { cursor: pointer; background: none; border: 0; padding: 0; text-align: start; min-height: 3rem; }
button:disabled { visibility: hidden; }
:focus-visible { outline: 3px solid var(--act); outline-offset: 2px; }
[data-answer]:focus { outline: none; }
p, li, dd { max-width: 70ch; }
.heard { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }

/* Shell: the bar at the thumb, at the side where there is room. */
.shell { min-height: var(--tall); display: grid; grid-template: "head" auto "main" 1fr "low" auto "bar" auto / minmax(0, 1fr); }
.head { grid-area: head; position: relative; display: flex; align-items: center; justify-content: space-between; gap: 1rem; padding: .25rem 1rem; border-bottom: 2px solid var(--ink); }
.head h1 { font: 600 1.25rem/1.2 var(--serif); display: flex; align-items: center; gap: .5rem; letter-spacing: .01em; }
.head svg { width: 1.75rem; height: 1.75rem; fill: none; stroke: currentColor; stroke-width: 2; flex: none; }
.head h1 .pin { fill: currentColor; stroke: none; } .head h1 .other { fill: var(--heater); stroke: none; }
.menu-button { display: flex; align-items: center; gap: .5rem; padding: 0 .5rem; }
.menu { position: absolute; z-index: 3; inset: calc(100% + 2px) 0 auto auto; width: min(100%, 24rem); max-height: calc(100vh - 8rem); overflow: auto;
  background: var(--raised); border: 2px solid var(--ink); border-top: 0; padding: 1rem; display: grid; gap: .25rem; }
.menu > button { border-bottom: 1px solid var(--rule); padding: .5rem 0; }
.menu h2 { font: 600 1.0625rem/1.3 var(--serif); margin-top: 1rem; }
.bar { grid-area: bar; position: sticky; bottom: 0; z-index: 2; display: grid; grid-auto-flow: column; grid-auto-columns: 1fr;
  background: var(--bar); color: var(--bar-ink); padding-bottom: env(safe-area-inset-bottom); }
.bar button { display: grid; justify-items: center; align-content: center; padding: .3rem .25rem; min-height: 3.75rem; }
.bar button:focus-visible { outline-color: currentColor; outline-offset: -5px; }
.bar svg { width: 1.75rem; height: 1.75rem; fill: none; stroke: currentColor; stroke-width: 2.2; stroke-linejoin: round; stroke-linecap: round; }
.bar [aria-current="page"] { background: var(--paper); color: var(--ink); font-weight: 700; box-shadow: inset 0 4px var(--ink); }
.skip { position: absolute; z-index: 4; left: 1rem; top: 0; clip-path: inset(50%); background: var(--act); color: var(--act-ink); padding: 0 1rem; }
.skip:focus { clip-path: none; }
.notice { position: sticky; bottom: calc(3.75rem + env(safe-area-inset-bottom)); z-index: 1; grid-area: low; display: flex; flex-wrap: wrap; align-items: center; gap: .25rem 1rem;
  padding: .25rem 1rem; background: var(--raised); border-top: 2px solid var(--ink); }
.notice p { flex: 1 1 12rem; }

/* Question: a sentence with blanks. */
.desk, .page { grid-area: main; min-width: 0; padding: 0 1rem 2rem; }
.page h2 { font: 700 1.75rem/1.2 var(--serif); } .page { max-width: 44rem; padding-top: 1rem; display: grid; gap: .75rem; align-content: start; }
.desk { display: grid; align-content: start; gap: 1rem; }
.question { display: grid; gap: .5rem; padding-top: .75rem; }
.question legend, .menu legend { padding-inline: 0; }
.question label, .question legend { font: 1.125rem/1.3 var(--serif); }
.blank { display: grid; grid-template-columns: minmax(6.75rem, auto) minmax(0, 1fr); align-items: baseline; column-gap: .75rem; }
.blank > label { padding-block: .25rem; }
.blank .line { display: flex; align-items: stretch; background: var(--raised); border-bottom: 3px solid var(--ink); min-width: 0; min-height: 3rem; }
.blank .line:focus-within { outline: 3px solid var(--act); outline-offset: 1px; }
.blank input, .blank select, .blank textarea { flex: 1; width: 100%; min-width: 0; border: 0; background: none; padding: .35rem .5rem; outline: none; border-radius: 0; }
.blank input, .blank textarea { font: 650 1.25rem/1.35 var(--sans); letter-spacing: .02em; } .blank textarea { resize: none; field-sizing: content; min-height: 4.25rem; color: inherit; }
.blank ::placeholder { color: var(--quiet); opacity: 1; font-weight: 400; font-size: 1.0625rem; letter-spacing: 0; }
.blank select { font-weight: 600; text-overflow: ellipsis; } .blank option { background: var(--raised); color: var(--ink); }
.blank .unit { align-self: center; padding-right: .75rem; color: var(--quiet); }
.blank.wrong .line { border-bottom: 3px dashed var(--no); }
.wipe { flex: none; width: 3rem; display: grid; place-items: center; color: var(--quiet); }
.wipe svg { width: 1.25rem; height: 1.25rem; stroke: currentColor; stroke-width: 2.5; fill: none; }
.blank.wide, .blank.pick, .question > .blank:has(#marking), .question > .blank:has(#colours) { grid-template-columns: minmax(0, 1fr); }
.pair { display: grid; grid-template-columns: 1fr 1fr; gap: .75rem; align-items: end; } .pair .blank { grid-template-columns: minmax(0, 1fr); }
.quick { display: flex; flex-wrap: wrap; gap: .25rem; }
.quick button { flex: 1 0 3rem; min-width: 3rem; text-align: center; border-bottom: 1px solid var(--strong); }
.quick [aria-pressed="true"] { background: var(--ink); color: var(--paper); font-weight: 650; }
.fault, .help { grid-column: 1 / -1; margin-top: .25rem; }
.help { color: var(--quiet); }
.fault { color: var(--no); font-weight: 600; }
.choice legend { padding-block: .25rem; }
.ways { display: grid; grid-template-columns: repeat(auto-fit, minmax(4.75rem, 1fr)); border: 2px solid var(--ink); background: var(--raised); }
.ways.long { grid-template-columns: repeat(auto-fit, minmax(9rem, 1fr)); }
.ways label { display: grid; position: relative; font: inherit; margin: 0 -1px -1px 0; border-right: 1px solid var(--strong); border-bottom: 1px solid var(--strong); }
.ways input { position: absolute; inset: 0; width: 100%; height: 100%; margin: 0; opacity: 0; cursor: pointer; }
.ways span { min-height: 3rem; padding: .25rem .3rem; display: grid; place-items: center; text-align: center; font: 1.0625rem/1.2 var(--sans); }
.ways input:checked + span { background: var(--ink); color: var(--paper); font-weight: 650; }
.ways input:focus-visible + span { outline: 3px solid var(--act); outline-offset: 2px; z-index: 1; }
.further > summary, .fold > summary { cursor: pointer; min-height: 3rem; display: flex; align-items: center; gap: .6rem; list-style: none; color: var(--act); font-weight: 600; }
summary::-webkit-details-marker { display: none; }
summary::before { content: ""; flex: none; width: .6rem; height: .6rem; border: solid currentColor; border-width: 0 3px 3px 0; transform: rotate(-45deg); margin-inline: .1rem .2rem; }
[open] > summary::before { transform: rotate(45deg); }
.grid { display: grid; grid-template-columns: repeat(auto-fit, minmax(8.5rem, 1fr)); gap: .5rem .75rem; padding-block: .5rem; align-items: end; } .grid > .blank { grid-template-columns: minmax(0, 1fr); } .grid > .choice, .grid > .wide { grid-column: 1 / -1; } .further .fold { padding: 0; } .further > .grid { gap: .25rem .75rem; } .grid:has(> .wrong) { align-items: start; }
.foot { display: grid; grid-template-columns: minmax(0, 1fr) auto; } .foot > * { grid-row: 1; } .further { grid-column: 1 / -1; } .clear { grid-column: 2; align-self: start; position: relative; }
button.plain { color: var(--act); font-weight: 600; padding: 0 .5rem; text-decoration: underline; text-underline-offset: .2em; }
.act { display: inline-grid; align-items: center; min-height: 3rem; padding: .25rem 1rem; border: 2px solid var(--act); color: var(--act); font-weight: 650; background: var(--raised); }
.act:hover, .examples button:hover, .chips button:hover, .candidate:hover { background: var(--act-ground); }
.switch { display: grid; grid-auto-flow: column; grid-auto-columns: 1fr; line-height: 1.2; border-bottom: 2px solid var(--rule); }
.switch button { text-align: center; padding: .25rem .1rem; color: var(--quiet); font-weight: 600; margin-bottom: -2px; }
.switch [aria-current="true"] { color: var(--ink); border-bottom: 5px solid var(--ink); }

/* Answer. */
.answer { display: grid; gap: 1.25rem; align-content: start; min-width: 0; min-height: 24rem; overflow-wrap: break-word; }
.answer section, .answer article { min-width: 0; }
.verdict { display: grid; grid-template-columns: 3.5rem minmax(0, 1fr); align-items: stretch; min-height: 7rem; background: var(--ground); color: var(--tone); }
.verdict > .sign { width: 100%; height: 100%; padding: 0 .5rem; background: var(--tone); }
.verdict > div { padding: .75rem 1rem; align-self: center; }
.verdict h2 { font: 700 1.75rem/1.15 var(--serif); text-wrap: balance; }
.verdict p { margin-top: .35rem; font-size: 1.125rem; color: var(--ink); }
.verdict.waiting { grid-template-columns: minmax(0, 1fr); align-items: center; border: 2px dashed var(--strong); color: var(--quiet); }
.verdict.plain { grid-template-columns: minmax(0, 1fr); min-height: 0; border: 2px solid var(--ink); color: var(--ink); } .verdict .named { margin: 0; } .verdict .named b { font-size: 1.375rem; margin-right: .3rem; } .verdict .named + h2 { margin-top: .4rem; }
.verdict.waiting p { margin: 0; padding: 1rem; color: var(--quiet); font: 1.25rem/1.3 var(--serif); }
.yes { --tone: var(--yes); --ground: var(--yes-ground); } .care { --tone: var(--care); --ground: var(--care-ground); }
.no { --tone: var(--no); --ground: var(--no-ground); } .unknown { --tone: var(--unknown); --ground: var(--unknown-ground); }
.sign { width: 1.5rem; height: 1.5rem; flex: none; overflow: visible; }
.sign .ground { fill: var(--tone); }
.sign .line { fill: none; stroke: var(--on-mark); stroke-width: 5.5; stroke-linecap: square; } .sign .dot { fill: var(--on-mark); }
.sign .ring { fill: none; stroke: var(--tone); stroke-width: 5; stroke-dasharray: 9 5; } .sign .query { fill: none; stroke: var(--tone); stroke-width: 5; } .sign .query-dot { fill: var(--tone); }
.verdict > .sign .ground { fill: var(--on-mark); } .verdict > .sign .line { stroke: var(--tone); } .verdict > .sign .dot { fill: var(--tone); }
.verdict > .sign .ring, .verdict > .sign .query { stroke: var(--on-mark); } .verdict > .sign .query-dot { fill: var(--on-mark); }
h3 { font: 600 1.25rem/1.3 var(--serif); border-bottom: 1px solid var(--strong); padding-bottom: .2rem; margin-bottom: .6rem; }
h4 { font-size: 1.0625rem; line-height: 1.3; font-weight: 650; }
.aside { color: var(--quiet); }
.findings { display: grid; gap: .9rem; }
.finding { display: grid; grid-template-columns: 1.5rem minmax(0, 1fr); gap: .75rem; }
.why > summary, .checks summary { font-weight: inherit; } .finding .why { border: 0; padding: 0; } .checks > li { max-width: none; } .checks .fold { display: block; } .checks summary > span { flex: 1; } .checks .sign { flex: none; } .checks .against { font-size: inherit; } .checks summary .aside { margin-left: .75rem; font-weight: 400; } .checks b { text-transform: none; color: var(--ink); } .checks summary b::first-letter { text-transform: uppercase; }
.counts { display: flex; gap: .3rem .9rem; flex-wrap: wrap; color: var(--ink); } .counts > span { display: inline-flex; gap: .3rem; align-items: center; } .counts .sign { width: 1.25rem; height: 1.25rem; }
.advice { border-left: 4px solid var(--act); padding-left: .75rem; font-weight: 650; } .work { margin-bottom: .6rem; font-weight: 650; } .work i { font-style: normal; font-weight: 400; color: var(--quiet); }
.set { display: grid; gap: 1.5rem; } .set > li { border-top: 4px solid var(--tone); max-width: none; display: grid; gap: .4rem; padding-top: .5rem; } .set h3 { display: flex; gap: .6rem; align-items: center; border: 0; margin: 0; padding: 0; font-size: 1.375rem; } .set .aside b { font-weight: inherit; color: var(--ink); }
.foot .further > summary { padding-right: 4rem; } .further summary i { font-style: normal; font-weight: 400; color: var(--quiet); white-space: nowrap; }
.cautions .lines b { display: inline-block; } .finding h4::first-letter, .cautions .lines b::first-letter { text-transform: uppercase; }
.against { display: flex; flex-wrap: wrap; gap: 0 1.25rem; font-size: 1.1875rem; }
.against b { font-weight: 700; } .against i { font-style: normal; color: var(--quiet); font-size: 1.0625rem; }
.changes { counter-reset: step; display: grid; gap: .9rem; }
.changes > li { counter-increment: step; display: grid; grid-template-columns: 2rem minmax(0, 1fr); gap: .4rem .5rem; max-width: none; }
.changes > li::before { content: counter(step); font: 700 1.25rem/1.2 var(--serif); grid-row: span 3; }
.changes > li > * { grid-column: 2; }
.part, .facts, .figures { display: grid; gap: .25rem 1rem; }
.part { background: var(--raised); border: 1px solid var(--strong); padding: .5rem .75rem; }
.part div, .facts div, .figures div { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 0 1rem; }
.facts div, .figures div { border-bottom: 1px solid var(--rule); padding-block: .25rem; }
dt { color: var(--quiet); } .part dd, .facts dd, .figures dd { font-weight: 650; }
.figures { margin: .25rem 0 1rem; }
.lines { display: grid; gap: .5rem; } .lines > li { padding-left: 1.1rem; position: relative; }
.lines > li::before { content: ""; position: absolute; left: 0; top: .62em; width: .45rem; height: .13rem; background: currentColor; }
.cautions { border: 2px solid var(--care); padding: .75rem 1rem; } .cautions h3 { color: var(--care); border-color: var(--care); }
.cautions .fold { border: 0; margin: .25rem 0 -.5rem; padding: 0; }
.fold { border-top: 1px solid var(--rule); padding-bottom: .25rem; } .fold > :not(summary) { margin-block: .25rem .75rem; }
.answer > .fold { margin-block: -.65rem; }
table { border-collapse: collapse; width: 100%; max-width: 44rem; }
th, td { text-align: start; padding: .35rem .5rem .35rem 0; border-bottom: 1px solid var(--rule); vertical-align: baseline; font-weight: 400; }
thead th { color: var(--quiet); } td { font-weight: 650; }
.lines-table td { white-space: nowrap; } .lines-table td, .lines-table thead th { text-align: end; padding-right: 0; padding-left: .5rem; } .lines-table thead th { line-height: 1.25; }
.chosen th, .chosen td { font-weight: 750; border-bottom: 3px solid var(--ink); }
.fit { display: grid; gap: .75rem; } .fit > * { background: var(--raised); border: 2px solid var(--ink); padding: .6rem .9rem; display: grid; align-content: start; max-width: none; }
.fit dd { display: grid; } .fit b { font-size: 1.5rem; line-height: 1.25; font-weight: 700; } .fit code { font: inherit; font-weight: 700; border: 1px solid currentColor; padding: 0 .35em; }
.ratings li { display: grid; grid-template-columns: 1.5rem 4rem minmax(0, 1fr); gap: .5rem; align-items: baseline; padding-block: .25rem; } .ratings .sign { align-self: center; }

/* Stand-ins to tap. */
.group { margin-bottom: 1rem; } .group h4 { display: flex; gap: .6rem; align-items: center; padding-block: .35rem; }
.candidates > li { border-top: 1px solid var(--rule); max-width: none; } .candidates > li:last-child { border-bottom: 1px solid var(--rule); }
.candidate { width: 100%; padding: .5rem 1.75rem .5rem .25rem; display: grid; grid-template-columns: 1fr auto; gap: 0 .75rem; position: relative; }
.candidate::after { content: ""; position: absolute; right: .5rem; top: 1.15rem; width: .55rem; height: .55rem; border: solid var(--act); border-width: 3px 3px 0 0; transform: rotate(45deg); }
.candidate b { font-size: 1.25rem; } .candidate i { font-style: normal; color: var(--quiet); align-self: center; }
.candidate span { grid-column: 1 / -1; } .candidate .also { color: var(--quiet); }
.per-way { display: flex; flex-wrap: wrap; gap: 0 1.25rem; } .per-way > span { display: inline-flex; gap: .4rem; align-items: center; } .per-way .sign { width: 1.1rem; height: 1.1rem; }
.chips { display: flex; flex-wrap: wrap; gap: .5rem; max-width: none; } .chips button { padding: 0 1rem; border: 2px solid var(--act); color: var(--act); font-weight: 650; background: var(--raised); }
.onward, .actions { display: flex; flex-wrap: wrap; gap: .5rem; max-width: none; }
.both { display: grid; gap: 1.5rem; } .way { border-top: 4px solid var(--ink); display: grid; gap: 1rem; align-content: start; padding-top: .5rem; }
.way > header { display: grid; grid-template-columns: 2.5rem minmax(0, 1fr); gap: .75rem; align-items: center; } .way > header .sign { width: 2.5rem; height: 2.5rem; } .way > header h3 { border: 0; margin: 0; padding: 0; }
.way > header p { font: 700 1.5rem/1.2 var(--serif); color: var(--tone); } .way > header h3 { font: inherit; color: var(--quiet); } .way section h3 { font-size: 1.125rem; }

/* Welcome. */
.welcome { display: grid; gap: .75rem; } .lead { font: 1.25rem/1.4 var(--serif); } .welcome h2 { font: 600 1.125rem/1.3 var(--serif); }
.examples { display: grid; gap: .5rem; } .examples li { max-width: none; } .examples button { width: 100%; padding: .6rem .9rem; border: 2px solid var(--act); background: var(--raised); color: var(--act); font-weight: 600; }

/* Drawings. */
.sockets { display: grid; gap: 1rem; justify-items: center; }
.socket { width: 100%; max-width: 21.25rem; justify-self: center; margin-inline: auto; } .socket figcaption { text-align: center; font-weight: 650; }
.socket svg, .ripple svg { display: block; width: 100%; overflow: visible; } .socket text, .ripple text { fill: var(--ink); font-size: 18px; font-weight: 600; }
.socket .body { fill: var(--raised); stroke: var(--ink); stroke-width: 3; } .socket .spigot { fill: none; stroke: var(--strong); stroke-width: 2; }
.socket .title { font-weight: 650; } .socket.pair-of { max-width: 42.5rem; } .socket .edge { fill: none; stroke: var(--raised); stroke-width: 7; }
.pair-of .label { paint-order: stroke; stroke: var(--paper); stroke-width: 4px; stroke-linejoin: round; }
.pair-of .broad { display: none; } .pair-of .tall { max-width: 21.25rem; margin-inline: auto; }
.socket .faint { fill: var(--quiet); font-weight: 400; }
.pin circle, .pin rect { fill: var(--ink); stroke: var(--ink); stroke-width: 2.5; } .pin text { fill: var(--raised); }
.pin.heater rect { fill: var(--heater); stroke: var(--heater); }
.pin.empty circle { fill: var(--raised); stroke-dasharray: 4 4; } .pin.internal circle, .pin.shell circle { fill: var(--raised); }
.pin.empty text, .pin.internal text, .pin.shell text { fill: var(--ink); }
.socket .moved tspan:last-child { fill: var(--moved); font-weight: 750; } .socket .move { fill: none; stroke: var(--moved); stroke-width: 3; }
.warn path { fill: var(--no); stroke: var(--raised); stroke-width: 2; } .warn .bang { stroke: var(--on-mark); stroke-width: 3.5; }
.legend { text-align: center; color: var(--quiet); max-width: none; }
.danger { margin-bottom: 1rem; display: flex; gap: .75rem; align-items: start; color: var(--no); font-weight: 650; }
.danger .sign { --tone: var(--no); }
.ripple { max-width: 24rem; } .ripple .axis { stroke: var(--rule); stroke-width: 1.5; } .ripple .volts, .ripple .amps { fill: none; stroke: var(--ink); stroke-width: 3; stroke-linejoin: round; } .ripple .amps { stroke: var(--heater); }
.ripple .band { fill: var(--rule); } .ripple .level { fill: none; stroke: var(--strong); stroke-width: 1.5; stroke-dasharray: 2 4; } .ripple .level.rated { stroke: var(--ink); stroke-width: 2.5; stroke-dasharray: none; } .ripple .level.low { stroke: var(--no); stroke-dasharray: 9 4; } .ripple text.low { fill: var(--no); }
.ripple .other { fill: none; stroke: var(--ink); stroke-width: 1.5; stroke-linejoin: round; } .ripple figcaption { margin-top: .25rem; } caption { text-align: start; color: var(--quiet); padding-bottom: .25rem; }
.way-out { display: grid; gap: 1.25rem; }
.items button { width: 100%; padding: .35rem .25rem; border-bottom: 1px solid var(--rule); display: grid; } .items button:hover { background: var(--act-ground); } .items b { color: var(--act); } .items span { color: var(--quiet); }
.ladder { --rail: 1.25rem; max-width: 36rem; } .ladder li { max-width: none; display: grid; grid-template-columns: 2.5rem minmax(4rem, 1fr) auto 1.5rem; gap: 0 .75rem; align-items: center; min-height: 3.5rem; }
.ladder .filament { width: 2.5rem; height: 100%; min-height: 3.5rem; fill: none; stroke: var(--heater); } .filament path { stroke-width: 3; vector-effect: non-scaling-stroke; } .ladder .volts { font-weight: 650; } .ladder i { font-style: normal; font-weight: 400; color: var(--quiet); }
.ladder .filament { grid-row: 1 / span 4; } .ladder li > b { padding-top: .25rem; } .ladder .gauge { grid-column: 2; width: 100%; height: 1.25rem; } .ladder .volts, .ladder .percent { text-align: end; } .ladder .percent { font-weight: 650; grid-column: 3; } .ladder li > .sign { grid-column: 4; grid-row: 1 / span 2; } .ladder .volts { grid-column: 3; }
.ladder .between { grid-column: 2 / -1; grid-row: 3; color: var(--quiet); } .ladder li:not(.end)::after { content: ""; grid-column: 2 / -1; grid-row: 4; border-bottom: 1px solid var(--rule); margin-top: .25rem; }
.ladder button { justify-self: start; padding: 0; min-width: 3rem; } .ladder .asked { outline: 3px solid var(--ink); }
.ladder .end { border-block: 3px solid var(--ink); min-height: 3rem; padding-inline: .75rem; grid-template-columns: 1fr auto; }
.gauge .track { fill: var(--rule); } .gauge .level { fill: var(--heater); } .gauge .rated { stroke: var(--ink); stroke-width: 3; }

/* An old part with its colours. */
.drawn { position: relative; margin-inline: .75rem; padding-bottom: .25rem; } .drawn::before, .drawn::after { content: ""; position: absolute; top: 2.1rem; width: .75rem; height: .3rem; background: var(--strong); } .drawn::before { right: 100%; } .drawn::after { left: 100%; }
.marks { display: grid; grid-auto-flow: column; grid-auto-columns: minmax(48px, 1fr); } .mark { display: grid; grid-template-rows: 4.5rem 1fr; min-width: 48px; justify-items: stretch; border-bottom: 5px solid transparent; }
.mark svg { width: 100%; height: 4.5rem; display: block; } .drawn:not(.mica_dots) .marks > .mark:first-child svg { border-left: 3px solid var(--ink); } .drawn:not(.mica_dots) .marks > .mark:last-child svg { border-right: 3px solid var(--ink); } .drawn:not(.mica_dots) .mark svg { border-block: 3px solid var(--ink); }
.mark .name { display: flex; gap: 0 .3rem; justify-content: start; line-height: 1.25; justify-self: center; writing-mode: vertical-rl; padding-block: .35rem; } .mark i { font-style: normal; color: var(--quiet); }
.mark[aria-pressed="true"] { border-bottom-color: var(--act); background: var(--act-ground); } .mark:focus-visible { outline-offset: -3px; }
.mark .plate { fill: var(--ink); } .mark .bare { stroke: var(--strong); } .blank-mark { fill: var(--raised); stroke: var(--ink); stroke-width: 2; stroke-dasharray: 4 3; }
.mica_dots { border: 3px solid var(--ink); background: var(--raised); } .mica_dots .marks { grid-auto-flow: row; grid-template-columns: repeat(3, minmax(48px, 1fr)); } .mica_dots .arrow { display: block; width: 100%; height: 1.5rem; fill: none; stroke: var(--ink); stroke-width: 3; }
.now { font-size: 1.125rem; font-weight: 650; min-height: 1.8rem; }
.question:has(.drawn) .blank.pick { grid-template-columns: auto minmax(0, 1fr); } .choice:has([name="marks"]) legend { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
.choice:has([name="marks"]) .ways span { padding-inline: 0; } .shopping + p { margin-top: .75rem; }
.mica_dots .mark { grid-template-rows: 3.25rem 1fr; } .mica_dots .mark svg { height: 3.25rem; } section > p + .candidates { margin-top: .5rem; }
.mica_dots .mark rect { display: none; }
.palette legend { padding-block: .25rem; } .palette > div { display: grid; grid-template-columns: repeat(auto-fill, minmax(5rem, 1fr)); border: 2px solid var(--ink); background: var(--raised); }
.palette .swatch { width: .7rem; height: 1.75rem; } .palette button { display: grid; grid-template-columns: .7rem minmax(0, 1fr); gap: .25rem; align-items: center; padding: 0 0 0 .25rem; min-width: 48px; } .palette [aria-pressed="true"] { background: var(--ink); color: var(--paper); } .palette button:focus-visible { outline-offset: -3px; }
.swatch { width: 1.25rem; height: 1.25rem; flex: none; stroke: var(--ink); stroke-width: 1.5; } .palette [aria-pressed="true"] .swatch { stroke: var(--paper); }
.colour-readings, .colour-readings > li { grid-template-columns: minmax(0, 1fr); overflow-wrap: anywhere; } .colour-readings { display: grid; gap: .75rem; } .colour-readings > li { border: 2px solid var(--ink); background: var(--raised); padding: .6rem .9rem; display: grid; gap: .25rem; max-width: none; } .colour-readings > li > b { font-size: 1.5rem; line-height: 1.25; } 
.spelled { display: flex; flex-wrap: wrap; gap: .1rem 1rem; } .spelled li { display: flex; gap: .4rem; align-items: center; }
.fresh { display: grid; justify-items: start; } .fresh svg { height: 2.5rem; max-width: 100%; } .fresh rect { stroke: var(--ink); stroke-width: 1.5; } .fresh path { stroke: var(--strong); stroke-width: 4; }

/* A whole list. */
.blank textarea.many { max-height: 15rem; overflow: auto; font-size: 1.0625rem; font-weight: 500; white-space: pre; overflow-wrap: normal; }
.shopping { border-top: 2px solid var(--ink); } .shopping li { max-width: none; display: grid; grid-template-columns: 3rem minmax(0, 1fr); gap: .5rem; border-bottom: 1px solid var(--rule); padding-block: .4rem; } .shopping .count { font-size: 1.25rem; font-weight: 700; text-align: end; white-space: nowrap; }
.all-lines th[scope="row"] { font-weight: 650; overflow-wrap: anywhere; } .all-lines i { font-style: normal; font-weight: 400; color: var(--quiet); margin-right: .25rem; } .all-lines td { font-weight: 400; } .all-lines :is(th, td) { vertical-align: top; } .all-lines { table-layout: fixed; } .all-lines thead th:first-child { width: 32%; } .all-lines thead th:nth-child(2) { width: 9.5rem; }
.state { display: inline-flex; gap: .4rem; align-items: center; } .state .sign { width: 1.5rem; height: 1.5rem; flex: none; } .sign .handle { fill: none; stroke: var(--tone); stroke-width: 4; } .sign.buy { --tone: var(--act); } .sign.other { --tone: var(--quiet); }
tr.check > *, tr.unread > * { border-bottom-width: 2px; }

/* Parts book. */
.file { position: relative; cursor: pointer; } .file input { position: absolute; inset: 0; width: 100%; height: 100%; opacity: 0; cursor: pointer; } .file:focus-within { outline: 3px solid var(--act); outline-offset: 2px; }
.report { border: 2px solid var(--ink); background: var(--raised); padding: .75rem 1rem; display: grid; gap: .75rem; overflow-wrap: anywhere; } .report h4 { margin-bottom: .25rem; }
.page section, .page form { display: grid; gap: .5rem; align-content: start; } .page section { margin-top: .75rem; } .page .act { justify-self: start; } .page h3 { margin-bottom: 0; }
.do { background: var(--act); color: var(--act-ink); } .do:hover { background: var(--act); text-decoration: underline; }
.page > * { min-width: 0; } .own { overflow-wrap: anywhere; } .own > li { border-top: 1px solid var(--rule); max-width: none; padding-top: .4rem; } .own b { font-size: 1.25rem; margin-right: .3rem; } .own .fold { border: 0; padding: 0; } .own .plain:first-child { padding-left: 0; min-width: 3rem; }
.beside th, .beside td { overflow-wrap: anywhere; } .beside { table-layout: fixed; } .beside th:first-child { width: 42%; }
.progress { flex: 1; display: flex; flex-wrap: wrap; align-items: center; gap: .25rem 1rem; } .progress p { flex: 1 1 12rem; } progress { flex: 1 1 8rem; height: 1rem; accent-color: var(--act); }
.page .fold > summary { font-size: 1.125rem; } .page .blank { grid-template-columns: minmax(0, 1fr); } .page summary .aside { font-weight: 400; } .page summary b { color: var(--no); } .page .grid { align-items: start; grid-template-columns: repeat(auto-fit, minmax(min(100%, 9.75rem), 1fr)); } .page .grid .line { min-height: 3.4rem; } .page .grid label { display: grid; align-items: end; min-height: 3.2rem; } .page .cell.wide label { min-height: 0; } .page .grid > .cell.wide { grid-column: 1 / -1; }
.help .plain { padding: 0 .25rem; }
.settle { position: sticky; z-index: 1; bottom: calc(3.75rem + env(safe-area-inset-bottom)); background: var(--paper); border-top: 2px solid var(--ink); padding-block: .5rem; display: flex; flex-wrap: wrap; align-items: center; gap: .25rem 1rem; } .settle p { flex: 1 1 8rem; } .settle b { color: var(--no); }

/* Very large text on a small screen. */
@container (max-width: 17rem) {
  .desk, .page, .head { padding-inline: .5rem; } .menu-button svg, .changes > li::before { display: none; } .head { gap: .25rem; flex-wrap: wrap; }
  .blank, .pair, .verdict, .sockets, .changes > li, .finding, .ratings li, .way > header { grid-template-columns: minmax(0, 1fr); } .changes > li > * { grid-column: 1; }
  .verdict > .sign { height: 3rem; } .verdict > div { padding: .5rem; } .fit > *, .cautions, .part { padding: .4rem; }
  .lines-table td { white-space: normal; } th, td { overflow-wrap: anywhere; hyphens: auto; } .lines-table th[scope="row"] { overflow-wrap: normal; }
  .lines-table tr { display: grid; grid-template-columns: repeat(3, minmax(0, 1fr)); } .lines-table thead td { display: none; } .lines-table th[scope="row"] { grid-column: 1 / -1; border: 0; } .lines-table td, .lines-table thead th { padding-inline: 0 .1rem; }
  .ladder li { grid-template-columns: 1.25rem minmax(0, 1fr) 1.25rem; gap: 0 .25rem; } .ladder .filament { width: 1.25rem; grid-row: 1 / span 5; } .ladder .between { grid-row: auto; } .ladder li:not(.end)::after { content: none; } .ladder .volts, .ladder .percent, .ladder .gauge, .ladder .between { grid-column: 2; text-align: start; } .ladder li > .sign { grid-column: 3; }
  .settle { position: static; } .page .grid { grid-template-columns: minmax(0, 1fr); }
  .bar button { font-size: .75em; } .switch { grid-auto-flow: row; } h2, h3, h4, b, dd, dt, label, legend, summary, button { overflow-wrap: anywhere; }
  .foot { grid-template-columns: minmax(0, 1fr); } .foot > * { grid-row: auto; } .clear { grid-column: 1; } .candidate { padding-right: 1.25rem; grid-template-columns: minmax(0, 1fr); } .candidate i { grid-column: 1; } .lines > li { padding-left: .75rem; }
}
@container (max-width: 39.99rem) {
  .all-lines, .all-lines tbody { display: block; } .all-lines thead { display: none; } .all-lines tr { display: block; border-bottom: 1px solid var(--rule); padding-block: .4rem; } .all-lines th, .all-lines td { display: block; border: 0; padding-block: .1rem; }
}
@container (min-width: 19rem) {
  .marks.few .name { writing-mode: horizontal-tb; flex-direction: column; align-items: center; } .mica_dots .marks.few .name { flex-direction: row; }
}
@container (min-width: 34rem) {
  .sockets { grid-template-columns: 1fr 1fr; } .pair-of .broad { display: block; } .pair-of .tall { display: none; }
  .facts { grid-template-columns: 1fr 1fr; }
}
@container (min-width: 52rem) {
  .shell { grid-template: "bar head" auto "bar main" 1fr "bar low" auto / 6.5rem minmax(0, 1fr); }
  .bar { position: sticky; top: 0; height: var(--stand-in-min-height, auto); grid-auto-flow: row; grid-auto-rows: 5.5rem; align-content: start; padding-top: 4rem; }
  .bar [aria-current="page"] { box-shadow: inset 4px 0 var(--ink); }
  .head { padding-inline: 2rem; } .desk { grid-template-columns: minmax(19rem, 24rem) minmax(0, 46rem); gap: 2.5rem; padding: 1.25rem 2rem 3rem; } .page { padding-inline: 2rem; }
  .question { position: sticky; top: 1.25rem; align-self: start; align-content: start; max-height: calc(100vh - 2.5rem); overflow: auto; padding: 3px; margin: -3px; }
  .notice { bottom: 0; } .settle { bottom: 0; }
  .now { display: none; }
  .verdict { grid-template-columns: 5.5rem minmax(0, 1fr); } .verdict > .sign { padding: 0 1rem; } .verdict h2 { font-size: 2.125rem; }
  .both { grid-template-columns: 1fr 1fr; }
  .fit { grid-template-columns: repeat(auto-fit, minmax(13rem, 1fr)); }
}
@media (prefers-reduced-motion: no-preference) { .act, .candidate, .examples button { transition: background-color .12s; } }
@media (forced-colors: active) {
  .verdict { border: 3px solid CanvasText; } .ways input:checked + span, .bar [aria-current="page"], .quick [aria-pressed="true"] { forced-color-adjust: none; background: Highlight; color: HighlightText; }
  .sign, .socket svg, .ladder svg, .ripple svg { forced-color-adjust: none; background: white; --tone: black; --on-mark: white; --ink: black; --raised: white; --quiet: black; --moved: #14408a; --no: #8b1414; --heater: #8a2c0a; --rule: gray; --strong: gray; }
  .verdict > .sign { --tone: black; }
}
@media print {
  .bar, .head .menu-button, .notice, .clear, .wipe, .next, .onward, .skip, .quick, .why { display: none; }
  .desk:has(.shopping) .question, .cautions .fold { display: none; } .shopping .count::before { content: "\\25A1  "; } .answer > section:has(.all-lines) { break-inside: auto; } .all-lines tr, .shopping li { break-inside: avoid; }
  :host { background: white; } .frame, :host([theme="dark"]) .frame { ${LIGHT} background: white; color: black; } .desk, .answer { display: block; } .answer > * { margin-bottom: 1rem; } h3, h4 { break-after: avoid; } .finding, .changes > li, .candidate, .cautions li, .facts, .fit, figure, .verdict, tr { break-inside: avoid; }
  .switch button:not([aria-current="true"]), .question .help, .question summary, .items, .chips, .act { display: none; }
  .question .further:not(:has(.wipe, [type="radio"]:not([value=""]):checked)), .further .choice:has([value=""]:checked), .question .blank:not(.pick):not(:has(.wipe)), .ways label:not(:has(:checked)) { display: none; } .ways { display: inline-block; border: 0; } .ways input:checked + span { background: none; color: inherit; place-items: start; min-height: 0; }
  .question { position: static; max-height: none; } .blank .line:focus-within { outline: none; } .verdict, .sign, .gauge, .ripple { print-color-adjust: exact; }
}
`;

/**
 * Sizes in rem become multiples of one property, which is a rem unless the page around says otherwise, and no less than 16 px: pages that set
 * their root to 62.5 % would make the words too small. What asks how wide the element is cannot hold a property and takes the text of the frame.
 */
const sized = (CSS + SETS_STYLE).replace(/(@container.*?)?(-?[\d.]+)rem\b/g, (_, asks, size) => (asks ? `${asks}${size / 1.0625}em` : `calc(${size} * var(--rem))`));
const REM = ".frame { --rem: var(--stand-in-text-size, max(1rem, 16px)); }";

export const style = new CSSStyleSheet();
style.replaceSync(sized + REM);

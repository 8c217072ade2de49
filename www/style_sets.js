// How the place Sets looks. Part of the style of the element; see style.js.

export const SETS_STYLE = `
.printed { display: none; }
.settled { border-left: 4px solid var(--care); padding-left: .75rem; display: grid; gap: .5rem; justify-items: start; } .page .settled { margin: 0; }
.page .switch { margin: -.25rem 0 .25rem; }
.desk.job { grid-template-columns: minmax(0, 1fr); } .desk.job > * { min-width: 0; } .job-head { gap: .5rem; } .job-head .report { margin: 0; }
.job-head .blank input { font: 700 1.5rem/1.25 var(--serif); } .job-head .blank { grid-template-columns: minmax(0, 1fr); }
.steps { display: flex; flex-wrap: wrap; align-items: center; gap: 0 .5rem; } .steps .aside { flex: 1 1 7rem; } .steps .plain { min-width: 3rem; }
.desk.job .answer { min-height: 10rem; } .job-sheet { gap: 1.25rem; position: static; } .desk.job .question { position: static; max-height: none; overflow: visible; }
.job-sheet section, .job-head section { display: grid; gap: .5rem; min-width: 0; } .job-sheet h3 { margin-bottom: 0; } .job-sheet .fold { border-top: 1px solid var(--rule); } .job-sheet section > .fold > summary { font: 600 1.25rem/1.3 var(--serif); color: var(--act); } .job-sheet summary .aside { font: 1.0625rem/1.3 system-ui, -apple-system, "Segoe UI", Roboto, sans-serif; }
.job-sheet .fold[open] { padding-bottom: .75rem; } .job-sheet .fold[open] > :not(summary) { margin-top: .5rem; } .job-sheet .blank { grid-template-columns: minmax(0, 1fr); }
.job-lines > li { max-width: none; } .job-line > .fold > summary { color: var(--ink); font-weight: 400; align-items: start; padding-block: .6rem; } .job-line > .fold > summary::before { margin-top: .4rem; }
.job-title { flex: 1; min-width: 0; display: grid; gap: .1rem; overflow-wrap: anywhere; } .job-title .what { font-size: 1.1875rem; } .job-title i { font-style: normal; color: var(--quiet); font-size: 1.0625rem; } .job-title .word { display: flex; gap: .4rem; align-items: start; color: var(--ink); } .job-title .word .sign { width: 1.35rem; height: 1.35rem; margin-top: .1rem; }
.job-line .fold > :not(summary) { margin-left: 1.5rem; } .own-answer { border-left: 4px solid var(--strong); padding-left: .75rem; display: grid; gap: .5rem; } .own-answer h4 { margin-top: .25rem; } .own-answer .plain { padding-left: 0; } .own-answer p > .sign, .candidate .sign, .lines .sign { vertical-align: -.3rem; }
.actions { display: flex; flex-wrap: wrap; gap: .25rem .5rem; align-items: center; max-width: none; } .order .plain { min-width: 3rem; padding-left: 0; margin-right: .5rem; }
.troubles { display: grid; } .troubles > li { max-width: none; border-bottom: 1px solid var(--rule); } .troubles button { display: grid; grid-template-columns: 1.75rem minmax(0, 1fr); gap: .6rem; width: 100%; padding: .6rem .25rem; align-items: start; } .troubles button:hover { background: var(--act-ground); } .troubles b { color: var(--act); text-decoration: underline; text-underline-offset: .2em; } .troubles i { font-style: normal; color: var(--quiet); margin-left: .3rem; } .troubles .danger-person i { color: var(--no); font-weight: 650; } .troubles .danger-person { border-left: 5px solid var(--no); padding-left: .4rem; } .troubles .says { display: block; }
.totals dt { display: flex; gap: .4rem; align-items: center; } .totals dt .sign { width: 1.25rem; height: 1.25rem; }
.understood > li { border-top: 1px solid var(--rule); padding-block: .3rem; max-width: none; overflow-wrap: anywhere; } .understood i { font-style: normal; color: var(--quiet); }
.job-row { border-top: 1px solid var(--rule); max-width: none; padding-block: .25rem; } .job-row .candidate { width: 100%; } .job-row .candidate > b { font: 700 1.375rem/1.25 var(--serif); } .job-row .more > summary { font-size: 1.0625rem; } .job-row .actions .plain { padding-left: 0; margin-right: .5rem; }

/* Buying and switching on. */
.tick { display: grid; grid-template-columns: 2.25rem auto minmax(0, 1fr); gap: .25rem .6rem; align-items: start; min-height: 3rem; cursor: pointer; } .page .shopping > li { display: block; } .tick input { width: 1.75rem; height: 1.75rem; margin: .35rem 0 0; accent-color: var(--act); } .tick .count { min-width: 2.25rem; padding-top: .2rem; } .tick .what { display: grid; padding-top: .25rem; } .tick .what > b { font-size: 1.1875rem; } .tick .code { font-size: 1.1875rem; }
.tick:has(:checked) .what > b { text-decoration: line-through; } .step .tick { grid-template-columns: 2.25rem minmax(0, 1fr); } .step .tick > span { padding-top: .4rem; }
.buy-groups { display: grid; gap: 1.25rem; } .shopping .count::before { content: none; } .buy-groups .shopping { border-top: 0; }
.bring-up { display: grid; counter-reset: step; } .step { max-width: none; border-top: 1px solid var(--rule); padding-block: .6rem; display: grid; gap: .25rem; } .expect { font-size: 1.1875rem; } .expect i { font-style: normal; color: var(--quiet); } .box { max-width: 18rem; } .page .box .blank { grid-template-columns: auto minmax(0, 1fr); } .read { display: flex; gap: .5rem; align-items: start; }

/* At a swap meet. */
.want-list { display: grid; gap: 1.5rem; } .want { max-width: none; border-top: 3px solid var(--ink); padding-top: .5rem; display: grid; gap: .35rem; } .want h3 { border: 0; margin: 0; padding: 0; display: flex; flex-wrap: wrap; gap: 0 1rem; align-items: baseline; font-size: 2rem; } .want h3 .plain { font: inherit; padding: 0; min-width: 3rem; } .want h3 span { font-size: 1.375rem; } .take { display: grid; gap: .5rem; } .take h4 { display: flex; gap: .4rem; align-items: center; font-weight: 400; } .take .late .sign { vertical-align: -.3rem; } .take .fold { border: 0; padding: 0; } .markings { font-size: 1.5rem; line-height: 1.35; max-width: none; } .late .markings { font-size: 1.1875rem; } .markings b { display: inline-block; max-width: 100%; margin-right: .75rem; overflow-wrap: anywhere; }
.set.table h3 { font-size: 1.75rem; } .set.table h3 { flex-wrap: wrap; gap: 0 .6rem; } .set.table h3 i { font-style: normal; font: 1.0625rem/1.3 system-ui, sans-serif; color: var(--quiet); } .set.table .word { font: 700 1.375rem/1.25 var(--serif); } .set.table .plain { padding-left: 0; }
.page > form.question { padding-top: 0; } .page .answer { gap: 1.25rem; min-height: 8rem; }
.held { display: grid; grid-template-columns: auto minmax(0, 1fr); gap: 0 1rem; align-items: center; border-top: 1px solid var(--rule); padding-block: .35rem; max-width: none; } .held .marking { font-size: 1.375rem; margin-right: .4rem; overflow-wrap: anywhere; } .held > .actions { grid-column: 1 / -1; }
.counter { display: grid; grid-template-columns: 3rem minmax(2.25rem, auto) 3rem; align-items: center; text-align: center; } .counter b { font-size: 1.375rem; } .counter button { min-width: 3rem; text-align: center; font-size: 1.5rem; border: 2px solid var(--act); color: var(--act); background: var(--raised); } .held .plain { padding-left: 0; margin-right: .5rem; min-width: 3rem; }

@container (max-width: 17rem) {
  .job-line .fold > :not(summary) { margin-left: 0; } .tick, .step .tick, .held, .troubles button, .counter { grid-template-columns: minmax(0, 1fr); } .page .box .blank { grid-template-columns: minmax(0, 1fr); } .want h3, .markings, .set.table h3 { font-size: 1.375rem; overflow-wrap: anywhere; } .settled { padding-left: .4rem; }
  .counter { grid-template-columns: 3rem minmax(0, 1fr) 3rem; }
}
@container (min-width: 34rem) { .buy-groups { grid-template-columns: 1fr 1fr; } }
@container (min-width: 52rem) {
  .to-lines { display: none; }
  .desk.job { grid-template: "head answer" auto "lines answer" 1fr / minmax(22rem, 30rem) minmax(0, 40rem); gap: .75rem 2.5rem; } .job-head { grid-area: head; } .job-sheet { grid-area: lines; } .desk.job .answer { grid-area: answer; position: sticky; top: 1.25rem; max-height: calc(100vh - 2.5rem); overflow: auto; grid-auto-rows: max-content; padding: 3px; margin: -3px; }
}
@media print {
  .printed { display: inline; } .switch, .page:has(.buy-groups) .pick, .page > form.question { display: none; } .page, .page .answer { display: block; max-width: none; padding: 0; } .page h2 { font-size: 15pt; margin-bottom: 2pt; }
  .page:has(.buy-groups, .bring-up) { font-size: 9.5pt; line-height: 1.2; } .shell:has(.buy-groups, .bring-up) .head { display: none; } .page:has(.buy-groups, .bring-up) :is(h3, .what > b, .code, .count, .expect) { font-size: inherit; } .page:has(.buy-groups, .bring-up) h3 { margin: 0 0 2pt; padding: 0; }
  .page:has(.buy-groups) .verdict, .page:has(.bring-up) .verdict { display: none; }
  .buy-groups { display: block; columns: 2; column-gap: 18pt; } .buy-groups > section { margin: 0 0 8pt; break-inside: auto; } .buy-groups h3 { break-after: avoid; }
  .tick { min-height: 0; gap: 0 4pt; grid-template-columns: 12pt auto minmax(0, 1fr); } .step .tick { grid-template-columns: 12pt minmax(0, 1fr); } .tick input { appearance: none; width: 9pt; height: 9pt; margin: 2pt 0 0; border: 1pt solid black; } .tick input:checked { background: black; print-color-adjust: exact; } .tick :is(.count, .what, span) { padding-top: 0; } .tick .count { min-width: 0; } .tick .what { display: block; } .tick .what > b { font-weight: 650; } .tick .code::before { content: "\\2014  "; } .tick .what > .aside::before { content: "\\2014  "; } .shopping li { padding-block: 1.5pt; } .shopping { border-top-width: 1pt; }
  .page .cautions { font-size: 8pt; line-height: 1.15; padding: 3pt 6pt; columns: 2; column-gap: 12pt; } .page .cautions h3 { font-size: 10pt; column-span: all; } .page .cautions .lines { display: block; } .page .cautions li { break-inside: avoid; margin-bottom: 2pt; max-width: none; }
  .page section { margin-top: 4pt; display: block; } .page .lines > li { max-width: none; margin: 0; } .step { padding-block: 3pt; gap: 0; break-inside: avoid; grid-template-columns: minmax(0, 1fr) auto; column-gap: 10pt; } .step > * { grid-column: 1; } .step .box { grid-column: 2; grid-row: 1 / span 3; width: 92pt; align-self: start; } .box .blank:not(.pick):not(:has(.wipe)) { display: grid; } .box .blank .line { border: 1pt solid black; min-height: 18pt; background: none; } .page .box .blank { grid-template-columns: auto minmax(0, 1fr); } .box label { font-size: 9pt; }
  .held > .actions, .counter button, .page:has(.held-rows) form, .job-head .steps, .order, .own-answer .plain, .want .plain { display: none; } .want h3 .plain { display: inline; color: black; text-decoration: none; } .want { break-inside: avoid; } .want h3 { font-size: 16pt; } .markings { font-size: 12pt; } .late { display: none; } .page .want-list { display: block; }
  .desk.job .answer { position: static; max-height: none; overflow: visible; }
}
`;

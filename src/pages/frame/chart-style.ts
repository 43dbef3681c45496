/** Style of charts and of what stands around them. Colours are the palette's; each also has a word or a shape of its own. */
export const CHART_STYLE = `
.chart{display:block;width:100%;max-width:30rem}
.chart text{font-size:11px}
.chart .small{font-size:10px}
.chart .strong{font-weight:650}
.beside{display:flex;flex-wrap:wrap;gap:0 2rem;align-items:flex-start}
.beside figure{flex:1 1 18rem;max-width:30rem}
.beside .table{flex:1 1 20rem}
@media (max-width:75rem){.beside{display:block}}
.shape-1{fill:var(--shape1)}
.shape-2{fill:var(--shape2)}
.shape-3{fill:var(--shape3)}
.shape-4{fill:var(--shape4)}
.ribbon{opacity:.35}
.flow-middle{fill:var(--ink)}
.flow-unexplained{fill:var(--shape5);stroke:var(--bad);stroke-width:1;stroke-dasharray:3 2}
.flow-unknown{fill:none;stroke:var(--edge);stroke-width:1.2;stroke-dasharray:2 2}
figcaption.faint{font-weight:400}
.axis{stroke:var(--edge);stroke-width:2;fill:none}
.tick{stroke:var(--rule);stroke-width:1}
.step{stroke:var(--paper);stroke-width:.5}
.gap{stroke-dasharray:4 4}
.read{stroke:var(--paper);stroke-width:1;fill:var(--ink)}
.read-sound{fill:var(--good)}
.read-doubtful{fill:var(--warn)}
.read-read-again{fill:var(--bad)}
.read-set-aside{fill:var(--paper);stroke:var(--ink)}
.bar{display:block;margin:.2rem 0}
.bar-room{fill:var(--rule)}
.tray{margin:.6em 0}
.tray-name{font-weight:650;margin:0}
.tray ul{display:flex;flex-wrap:wrap;gap:.4rem;list-style:none;padding:0;margin:.2em 0}
.slot{flex:1 1 8rem;max-width:14rem;border:1px solid var(--edge);border-radius:.2rem;padding:.3rem .5rem;font-size:.92rem}
.slot .mark{white-space:normal}
@media (min-width:60rem){.tray-row ul{display:grid;grid-auto-flow:column;grid-auto-columns:minmax(0,1fr)}}
.traces{font-size:.92rem}
@media print{.slot{flex-basis:6rem;padding:.1rem .3rem;font-size:8pt}.chart{max-width:9cm}.ribbon{print-color-adjust:exact}}
`;

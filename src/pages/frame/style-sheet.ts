import { CHART_STYLE } from './chart-style.js';
import { DARK, LIGHT, type Palette } from './palette.js';

function variables(palette: Palette): string {
  return Object.entries(palette)
    .map(([name, colour]) => `--${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}:${colour}`)
    .join(';');
}

const COLOURS = `
:root{color-scheme:light dark;${variables(LIGHT)}}
@media screen and (prefers-color-scheme:dark){:root{${variables(DARK)}}}
`;

const TEXT = `
*{box-sizing:border-box}
html{font:100%/1.5 'Source Sans 3','Noto Sans','Segoe UI',Roboto,Helvetica,Arial,sans-serif;-webkit-text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);overflow-wrap:anywhere}
h1,h2,h3,h4{line-height:1.25;margin:1.6em 0 .5em;font-weight:650}
h1{font-size:1.6rem;margin-top:.6em}
h2{font-size:1.25rem;border-bottom:1px solid var(--rule);padding-bottom:.25em}
h3{font-size:1.05rem}
h4{font-size:1rem}
p,ul,ol,dl{margin:.5em 0}
a{color:var(--link);text-underline-offset:.15em}
a:hover{text-decoration-thickness:.15em}
:focus-visible{outline:3px solid var(--focus);outline-offset:2px}
code,.hash{font-family:ui-monospace,'DejaVu Sans Mono',Menlo,Consolas,monospace;font-size:.92em}
.faint{color:var(--faint)}
.out-of-sight{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
`;

const FRAME = `
.skip{position:absolute;left:-99rem}
.skip:focus{left:.5rem;top:.5rem;background:var(--paper);padding:.5rem 1rem;z-index:2}
.top,main,.made{max-width:76rem;margin:0 auto;padding:0 1rem}
.top{border-bottom:3px double var(--edge);padding-top:.5rem;padding-bottom:.5rem}
.top ul{display:flex;flex-wrap:wrap;gap:.25rem 1.25rem;list-style:none;margin:0;padding:0}
.top a{display:inline-block;padding:.4rem 0}
.top a[aria-current]{font-weight:650;color:var(--ink);text-decoration:none;border-bottom:3px solid var(--ink)}
.made{border-top:1px solid var(--rule);margin-top:3rem;padding-top:.75rem;padding-bottom:2rem;font-size:.9rem;color:var(--faint)}
.made dl{display:grid;grid-template-columns:max-content 1fr;gap:.1rem 1rem;margin:0}
.made dt,.made dd{margin:0}
.pages ul{display:flex;flex-wrap:wrap;gap:.25rem 1rem;list-style:none;padding:0}
`;

const TABLES = `
.table{overflow-x:auto;position:relative;margin:1em 0}
table{border-collapse:collapse;font-variant-numeric:tabular-nums}
caption{text-align:left;font-weight:650;padding:.25rem 0;caption-side:top}
th,td{text-align:left;vertical-align:top;padding:.3rem .6rem;border-bottom:1px solid var(--rule)}
th:first-child,td:first-child{padding-left:0}
thead th{border-bottom:2px solid var(--edge);font-size:.9rem}
tbody th{font-weight:600}
tfoot th,tfoot td{border-top:2px solid var(--edge);border-bottom:0;font-weight:650}
.number{text-align:right;white-space:nowrap}
thead .number{white-space:normal}
td time{white-space:nowrap}
td,th{min-width:3.2rem;max-width:26rem;overflow-wrap:break-word}
th .faint{font-weight:400}
td.wide{min-width:20rem;max-width:44rem}
:target{outline:3px solid var(--focus);outline-offset:2px}
`;

const MARKS = `
.mark{display:inline-block;white-space:nowrap;border:1px solid currentColor;border-radius:.2rem;padding:0 .4em;font-weight:600;font-size:.92em;line-height:1.45}
.mark-bad{color:var(--bad);background:var(--bad-paper)}
.mark-warn{color:var(--warn);background:var(--warn-paper)}
.mark-good{color:var(--good);background:var(--good-paper)}
.mark-plain{color:var(--ink);background:var(--panel)}
.sign{font-weight:700;margin-right:.35em}
.findings{list-style:none;padding:0}
.findings li{margin:.6em 0;padding-left:.75rem;border-left:3px solid var(--rule)}
.findings p{margin:.15em 0}
.cautions{background:var(--warn-paper);border:1px solid var(--edge);padding:.25rem 1rem;margin:1.5em 0}
.facts{display:grid;grid-template-columns:max-content 1fr;gap:.15rem 1rem}
.facts dt{color:var(--faint)}
.facts dd{margin:0}
.panel{background:var(--panel);padding:.5rem 1rem;margin:1em 0}
.look{padding-left:0;list-style-position:inside}
.look li{border-top:1px solid var(--rule);padding:.25rem 0 .5rem}
.look li li{border-top:0}
.look h3,.look h2{display:inline;font-size:1.05rem;border:0;padding:0}
.signatures{display:flex;flex-wrap:wrap;gap:1rem 2rem;list-style:none;padding:0;margin-top:2rem}
.signatures li{flex:1 1 12rem;border-top:1px solid var(--ink);margin-top:2.5rem;padding-top:.2rem;font-size:.9rem}
.sheet{border-top:1px solid var(--edge);margin-top:2rem}
details{margin:.5em 0}
summary{cursor:pointer;padding:.3rem 0}
figure{margin:1em 0}
figcaption{font-weight:650}
svg{max-width:100%;height:auto}
svg text{fill:var(--ink);font:inherit}
`;

const PRINT = `
@media (max-width:40rem){.facts,.made dl{grid-template-columns:1fr}.facts dd,.made dd{margin:0 0 .4rem}h1{font-size:1.35rem}}
@page{margin:14mm 12mm}
@media print{
html{font-size:10pt}
body{background:none}
.top,.skip,.pages,.screen-only,details:not([open]){display:none}
main,.made{max-width:none;padding:0}
a{color:inherit;text-decoration:none}
.table{overflow:visible}
h1,h2,h3,h4,caption{break-after:avoid}
tr,li,.cautions,.keep{break-inside:avoid}
thead{display:table-header-group}
tfoot{display:table-row-group}
.sheet{break-before:page;border:0;margin:0}
.sheet:first-of-type{break-before:auto}
.annex{break-before:page}
.annex tbody th{min-width:4.5rem}
.made{margin-top:1rem;padding:.3rem 0 0;font-size:8pt}
.sheet{font-size:9pt;line-height:1.35}
.table{margin:.5em 0}
th,td{font-size:8.5pt;padding:.1rem .3rem;min-width:0;overflow-wrap:anywhere}
td.number{white-space:normal;overflow-wrap:normal}
tbody th{min-width:6.5rem}
thead th{font-size:8pt;overflow-wrap:normal}
.sheet h2{margin-top:.5em}
.sheet h3,.sheet h4{margin:.6em 0 .2em}
.sheet .cautions{margin:.6em 0;padding:0 .6rem}
.sheet .findings li{margin:.25em 0}
.sheet .findings p{margin:0}
.sheet .facts{gap:0 1rem}
.sheet .signatures{margin-top:0}
.sheet ol{margin:.2em 0;padding-left:1.5rem}
.sheet p{margin:.25em 0}
h1{font-size:14pt;margin-top:0}
.mark,.cautions,.panel{background:none}
}
`;

/**
 * The style of all pages, made once. It stands in every page, so that a page that was copied or mailed alone looks and
 * prints as it did, with no other file. No character of it means anything in HTML, so that it is rendered as it is.
 */
export const STYLE_SHEET = [COLOURS, TEXT, FRAME, TABLES, MARKS, CHART_STYLE, PRINT].join('').replaceAll('\n', '');

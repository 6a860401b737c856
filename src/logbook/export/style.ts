/**
 * How the packet looks, on a screen and on paper; colours as on the pages, fonts that every machine
 * has.
 */
export const STYLE = `
:root { color-scheme: light; --ink: #29241e; --soft: #645a4e; --line: #dbd2c1; --clay: #8c4126; --water: #2c5c70; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 60rem; padding: 1rem; color: var(--ink); background: #fff; font: 1rem/1.5 system-ui, 'Segoe UI', 'Noto Sans', sans-serif; }
h1, h2, h3 { font-family: 'Iowan Old Style', Palatino, 'Noto Serif', Georgia, serif; line-height: 1.25; }
h1 { font-size: 2rem; margin: 1rem 0 .25rem; }
h2 { font-size: 1.3rem; margin: 2.5rem 0 .5rem; border-bottom: 3px double var(--line); }
h3 { font-size: 1.05rem; margin: 1.25rem 0 .25rem; }
p { max-width: 70ch; margin: 0 0 .5rem; }
.soft, figcaption { color: var(--soft); }
nav ul { columns: 2; padding-left: 1.2rem; }
a { color: var(--water); }
figure { margin: 1rem 0; }
svg { max-width: 100%; height: auto; }
table { border-collapse: collapse; width: 100%; margin: .5rem 0 1rem; }
th, td { text-align: left; vertical-align: top; padding: .3rem .8rem .3rem 0; border-top: 1px solid var(--line); font-weight: 400; overflow-wrap: anywhere; }
thead th { color: var(--soft); font-size: .85rem; border: 0; }
.facts th { color: var(--soft); width: 40%; }
.caution { border: 2px solid var(--ink); padding: .5rem .8rem; max-width: 76ch; }
code { font-size: .8rem; overflow-wrap: anywhere; }
.trends { display: grid; grid-template-columns: repeat(auto-fit, minmax(17rem, 1fr)); gap: .5rem 2rem; }
text { font: 14px system-ui, 'Noto Sans', sans-serif; fill: var(--ink); }
.small { font-size: 12px; fill: var(--soft); }
.question { font-size: 22px; font-weight: 700; fill: var(--clay); }
.soil { fill: #f4ecdd; } .bore { fill: #fff; } .water { fill: #c3dbe6; }
.ground, .cap { stroke: var(--ink); stroke-width: 3; fill: none; }
.hatch, .axis, .leader { stroke: var(--soft); fill: none; }
.level { stroke: var(--water); stroke-width: 2.5; fill: none; } .pumping { stroke-dasharray: 6 4; }
.casing { stroke: var(--ink); stroke-width: 5; fill: none; }
.wall { stroke: var(--soft); stroke-width: 2; stroke-dasharray: 7 5; fill: none; }
.bottom { stroke: var(--ink); stroke-width: 2; }
.pipe { stroke: var(--ink); stroke-width: 4; fill: none; }
.pump { fill: var(--clay); } .inlet { stroke: #fff; stroke-width: 2; fill: none; } .valve { fill: var(--ink); }
.tank { fill: var(--line); stroke: var(--ink); stroke-width: 2; }
.unknown { stroke-dasharray: 4 5; stroke-width: 2; } rect.unknown { fill: none; }
.trend { stroke: var(--clay); stroke-width: 1.5; fill: none; } .dot { fill: var(--clay); }
@media print {
  @page { margin: 15mm; }
  body { padding: 0; max-width: none; font-size: 10.5pt; }
  nav { display: none; }
  h2 { break-after: avoid; }
  figure, tr { break-inside: avoid; }
  figure svg { max-height: 14cm; }
  thead th { white-space: nowrap; }
  thead { display: table-header-group; }
  a { color: inherit; text-decoration: none; }
}
`;

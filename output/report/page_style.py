"""How the report looks: dark ink on paper, light on dark where the reader's screen is dark, clear without colour."""

from typing import Final

__all__ = ["STYLE"]

STYLE: Final = """
:root{color-scheme:light dark;--paper:#fbfaf7;--ink:#23262b;--soft:#5d636b;--rule:#cfcdc6;--tint:#f0eee8;
--good:#2c5e4f;--warn:#7a5600;--bad:#96231f;--bar:#2f4858}
@media (prefers-color-scheme:dark){:root{--paper:#1a1c1f;--ink:#e6e4df;--soft:#a3a7ad;--rule:#3d4147;--tint:#25282c;
--good:#8cc5b1;--warn:#dfb865;--bad:#f09a92;--bar:#9fb9c9}}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.5 Georgia,"Times New Roman","DejaVu Serif",serif}
main{max-width:60rem;margin:0 auto;padding:1.5rem 1.25rem 4rem}
h1{font-size:2rem;line-height:1.2;margin:0}
h2{font-size:1.25rem;line-height:1.3;margin:2.75rem 0 .5rem;padding-top:.6rem;border-top:2px solid var(--bar)}
h3{font-size:1rem;margin:1.5rem 0 .25rem}
p{margin:.4rem 0;max-width:44rem}
.whose{color:var(--soft);font-size:1.1rem}
.soft,.small{color:var(--soft)}
.small{font-size:.875rem}
.verdict{margin:1.25rem 0;padding:.75rem 1rem;border:1px solid var(--rule);border-left:.5rem solid var(--good);
background:var(--tint)}
.verdict p{margin:.2rem 0}
.verdict.warn{border-left-color:var(--warn)}
.verdict.fail{border:2px solid var(--bad);border-left-width:.5rem}
.verdict strong{font-size:1.1rem}
ul,ol{margin:.4rem 0;padding-left:1.25rem;max-width:44rem}
li{margin:.25rem 0}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%;font:.9375rem/1.4 system-ui,"DejaVu Sans",sans-serif}
th{text-align:left;font-weight:600;color:var(--soft);font-size:.8125rem;vertical-align:bottom}
th,td{padding:.35rem .75rem .35rem 0;border-bottom:1px solid var(--rule)}
td{vertical-align:top}
th:last-child,td:last-child{padding-right:0}
table.numbers{max-width:44rem}
td:first-child{min-width:8.5rem}
.numbers .number{min-width:4.75rem}
.number+td:not(.number),.number+th:not(.number){padding-left:.75rem}
.number{text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums}
td small{display:block;overflow-wrap:anywhere;color:var(--soft);font-size:.8125rem}
tr.warn td{color:var(--warn)}
tr.fail td{color:var(--bad);font-weight:600}
tr.fail td small,tr.warn td small{color:inherit}
.pieces{--shrunk:.028rem;display:flex;flex-wrap:wrap;align-items:flex-end;gap:1.5rem;margin:1rem 0}
figure{margin:0;max-width:100%}
.pieces svg{display:block;width:calc(var(--wide)*var(--shrunk));max-width:100%;height:auto}
.pieces figure{width:calc(var(--wide)*var(--shrunk));min-width:8.5rem}
figcaption{font-size:.875rem;line-height:1.35;margin-top:.35rem}
figcaption b{display:block}
figure g{stroke:var(--ink)}
figure text{stroke:none;fill:var(--ink)}
.lay svg{display:block;width:100%;min-width:40rem;height:auto}
figure path{vector-effect:non-scaling-stroke;stroke-width:.8px;stroke-dasharray:none}
figure .cutting-line{stroke-width:1.6px}
figure .fold-of-cloth{stroke-width:1.6px;stroke-dasharray:12 3 3 3}
figure .sewing-line{stroke-dasharray:4 2.5}
figure .balance-line,figure .marked-point{stroke:var(--soft)}
figure .balance-line{stroke-dasharray:1 2.5}
figure .grain-line{stroke-width:1px}
figure .as-it-was{stroke:var(--soft);stroke-width:.7px}
figure .as-it-is{stroke-width:1.6px}
figure .piece-in-hand{stroke-width:.9px}
figure .edge-to-sew{stroke-width:2.2px}
figure .notch{stroke-width:1.2px}
figure text{fill:var(--ink);stroke:none;font-family:system-ui,"DejaVu Sans",sans-serif}
.growth{max-width:36rem;margin:1rem 0}
.growth svg{display:block;width:100%;height:auto}
.looks{display:grid;grid-template-columns:repeat(auto-fit,minmax(9rem,1fr));gap:1rem;max-width:56rem;align-items:end}
.looks svg,.shown svg{display:block;width:100%;height:auto}
.looks svg{max-height:26rem}
.step{display:grid;grid-template-columns:minmax(0,1fr) 15rem;gap:0 1.5rem;padding:.75rem 0;
border-bottom:1px solid var(--rule)}
.step h3{margin-top:.25rem}
.step li{margin:.4rem 0}
.shown{display:grid;gap:.75rem;align-content:start}
.shown svg{max-height:15rem}
a{color:inherit}
h4{font-size:.9375rem;margin:.75rem 0 .25rem}
.key{display:flex;flex-wrap:wrap;gap:.25rem 1.25rem;padding:0;list-style:none;max-width:none}
.key svg{width:2.2rem;height:.6rem;margin-right:.4rem;vertical-align:baseline;stroke:var(--ink);fill:none}
@media (max-width:40rem){.step{display:block}.shown{max-width:17rem;margin:.5rem auto 0}
main{padding:1rem .9rem 3rem}h1{font-size:1.6rem}
.pieces{--shrunk:.028rem;gap:1.25rem}table{font-size:.875rem}
th,td{padding-right:.5rem}
.numbers .number{min-width:0}
.numbers td:first-child{min-width:5.5rem}.numbers th,.numbers td{padding-right:.35rem}
.prose thead{display:none}
.prose tr{display:flex;flex-wrap:wrap;border-bottom:1px solid var(--rule);padding:.3rem 0}
.prose td{border:0;padding:.1rem .5rem .1rem 0;flex:1 1 auto}.prose td:first-child{flex:1 0 40%}
.prose td:last-child{flex:1 1 100%;padding-left:0}
.prose td[data-is]::before{content:attr(data-is);display:block;color:var(--soft);font-size:.8125rem}
.prose td[data-is]:empty::before{content:none}}
@media print{:root{color-scheme:light;--paper:#fff;--ink:#000;--soft:#333;--rule:#999;--tint:#fff;--good:#000;
--warn:#000;--bad:#000;--bar:#000}
html{font-size:72%}main{max-width:none;padding:0}h2,h3{break-after:avoid}tr,figure,.verdict,.step{break-inside:avoid}
@page{margin:14mm}a{text-decoration:none}
.shown svg{max-height:48mm}
figure .piece-in-hand{stroke-width:.5px}
figure .edge-to-sew{stroke-width:1.8px}.step{grid-template-columns:minmax(0,1fr) 52mm}
thead{display:table-header-group}.wide{overflow:visible}.lay svg{min-width:0}}
"""

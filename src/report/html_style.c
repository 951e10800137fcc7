/* The looks of the page: one ink, one accent, drawn for paper. What is said
 * by colour is also said by a word, a weight, a dash or a shape. */

#include "html.h"

/* ISO C promises string literals of 4095 bytes only: hence in parts. */
static const char *const style[] = {
    /* colours: paper, ink, faint ink for rules, an accent for water */
    ":root{color-scheme:light dark;--paper:#fffefa;--ink:#1b1c1e;"
    "--soft:#55575c;--rule:#c9c6bd;--wash:#f3f1ea;--water:#0d5a6b;"
    "--veil:#0d5a6b33}"
    "@media (prefers-color-scheme:dark){:root{--paper:#17181a;--ink:#e8e5dd;"
    "--soft:#a9a69e;--rule:#4a4b4d;--wash:#212224;--water:#7fc6d6;"
    "--veil:#7fc6d640}}\n",

    "*{box-sizing:border-box}"
    "html{-webkit-text-size-adjust:100%}"
    "body{margin:0;background:var(--paper);color:var(--ink);"
    "font:1rem/1.5 Charter,'Bitstream Charter','Iowan Old Style',"
    "'Source Serif 4',Cambria,Georgia,'Liberation Serif',serif}"
    "main{max-width:60rem;margin:0 auto;padding:2rem 1.25rem 4rem}"
    "p{margin:.5rem 0;max-width:44rem;overflow-wrap:anywhere}"
    "a{color:inherit;text-underline-offset:.15em;"
    "text-decoration-color:var(--rule)}"
    ".kind{margin:0;font-variant-caps:all-small-caps;letter-spacing:.08em;"
    "color:var(--soft)}"
    "h1{margin:0 0 .25rem;font-size:1.9rem;line-height:1.2;font-weight:600;"
    "text-wrap:balance}"
    "h2{margin:2.75rem 0 .75rem;padding-top:.4rem;"
    "border-top:2px solid var(--ink);font-size:1.3rem;line-height:1.3;"
    "font-weight:600}"
    "h2 .number{display:inline-block;min-width:1.6em;color:var(--soft);"
    "font-weight:400}"
    "h3{margin:1.5rem 0 .4rem;font-size:1.05rem;font-weight:600}"
    "p.hang{padding-left:1.25rem;text-indent:-1.25rem}"
    "p.lead{margin:1.25rem 0 .5rem;font-size:1.45rem;line-height:1.3}\n",

    /* verdicts: by word, weight and frame */
    ".verdict{font-weight:600;white-space:nowrap}"
    ".verdict.fails{background:var(--ink);color:var(--paper);"
    "padding:.05em .4em;-webkit-print-color-adjust:exact;"
    "print-color-adjust:exact}"
    ".verdict.marginal{border:1px dashed;padding:0 .35em}"
    ".verdict.holds{border-bottom:2px solid}"
    ".verdict.open{font-weight:400;font-style:italic;"
    "border-bottom:1px dotted}\n",

    "ul,ol{padding-left:1.4rem;max-width:44rem}"
    "li{margin:.25rem 0;overflow-wrap:anywhere}"
    "ol.sources{font-size:.85rem;padding-left:2.4rem}"
    "ol.sources li::marker{content:'[' counter(list-item) '] '}"
    "dl{display:grid;grid-template-columns:minmax(9rem,max-content) 1fr;"
    "gap:.2rem 1.5rem;margin:1rem 0;padding:.6rem 0;max-width:48rem;"
    "border:solid var(--rule);border-width:1px 0}"
    "dt{color:var(--soft)}dt.sub{padding-left:1.25rem}dd{margin:0}\n",

    ".wide{overflow-x:auto;margin:.75rem 0}"
    "table{border-collapse:collapse;font:.84rem/1.35 'Source Sans 3',"
    "'Gill Sans Nova',Optima,Candara,'Liberation Sans',sans-serif;"
    "font-variant-numeric:tabular-nums lining-nums;min-width:60%}"
    "th,td{padding:.3rem .8rem .3rem 0;text-align:left;vertical-align:top;"
    "font-weight:400}"
    "thead th{vertical-align:bottom;color:var(--soft);"
    "border-bottom:1.5px solid var(--ink);hyphens:manual}"
    ".figure{text-align:right}"
    "tbody tr{border-bottom:1px solid var(--rule)}"
    "tbody tr.noted{border-bottom:0}"
    "tbody tr.note td{padding-top:0;color:var(--soft);padding-left:1.2rem;"
    "font-size:.8rem}\n",

    "figure{margin:0;break-inside:avoid;min-width:0}"
    "figcaption{margin-top:.25rem;font-size:.85rem;line-height:1.4;"
    "color:var(--soft);max-width:34rem}"
    ".plates{display:grid;gap:1.5rem 2rem;margin:1rem 0;"
    "grid-template-columns:repeat(auto-fit,minmax(min(100%,19rem),1fr))}"
    ".plates>*{max-width:30rem}"
    ".small{display:grid;gap:.9rem 1rem;margin:.75rem 0;"
    "grid-template-columns:repeat(auto-fill,minmax(9.5rem,1fr))}"
    "summary{cursor:pointer;padding:.3rem 0;text-decoration:underline;"
    "text-decoration-color:var(--rule);text-underline-offset:.2em}"
    ".defs{position:absolute;width:0;height:0}"
    "ol.key{list-style:none;padding:0;margin:.5rem 0;font-size:.9rem}"
    "ol.key li{display:grid;grid-template-columns:1.4rem 2.6rem 1fr;"
    "gap:.5rem;align-items:start;border-bottom:1px solid var(--rule);"
    "padding:.3rem 0;margin:0}"
    "ol.key .no{text-align:right}"
    "ol.key svg{width:2.6rem;height:1.2rem;margin-top:.15rem}"
    "ol.key .mm{color:var(--soft);white-space:nowrap}\n",

    /* charts */
    "svg.chart{display:block;width:100%;height:auto;overflow:visible}"
    ".chart text{font:10.5px 'Source Sans 3','Gill Sans Nova',Optima,Candara,"
    "'Liberation Sans',sans-serif;fill:var(--ink);"
    "font-variant-numeric:tabular-nums}"
    ".chart text.unit,.chart text.soft{fill:var(--soft)}"
    ".chart text.name{font-style:italic}"
    ".chart text.halo{stroke:var(--paper);stroke-width:3px;"
    "paint-order:stroke;stroke-linejoin:round}"
    ".chart text.tiny{font-size:9px}"
    ".chart path{fill:none;stroke:var(--ink);stroke-width:1}"
    ".chart .axis{stroke-width:.9}"
    ".chart .rule{stroke:var(--rule);stroke-width:.6}"
    ".chart .face{stroke:var(--rule);stroke-width:.8}"
    ".chart .main{stroke-width:1.8;stroke-linejoin:round}"
    ".chart .dash{stroke-dasharray:5 3;stroke-width:1.4}"
    ".chart .dots{stroke-dasharray:1 3;stroke-linecap:round;"
    "stroke-width:1.8}"
    ".chart .wet{stroke:var(--water);stroke-width:1.8;"
    "stroke-linejoin:round}"
    ".chart .wetdash{stroke:var(--water);stroke-width:1.6;"
    "stroke-dasharray:6 3}"
    ".chart .under{stroke:var(--paper);stroke-width:4.5;opacity:.8}"
    ".chart .limit{stroke-dasharray:8 2 1.5 2;stroke-width:1}"
    ".chart .band{fill:var(--veil);stroke:none}"
    ".chart .mean{stroke:var(--water);stroke-width:1}"
    ".chart .drop,.chart circle{fill:var(--water);stroke:var(--paper);"
    "stroke-width:.8}"
    ".chart circle.ink{fill:var(--ink)}"
    ".chart circle.ring{fill:var(--paper);stroke:var(--ink);"
    "stroke-width:1.4}"
    ".chart rect{stroke:none;fill:none}"
    ".chart rect.gain{fill:var(--water)}"
    ".chart rect.loss{fill:url(#hatch-loss);stroke:var(--water);"
    "stroke-width:.9}"
    ".chart rect.safe{fill:var(--veil);stroke:var(--water);"
    "stroke-width:.9}"
    ".chart rect.bad{fill:url(#hatch-bad);stroke:var(--ink);"
    "stroke-width:1.2}"
    ".chart rect.frame{stroke:var(--ink);stroke-width:.9}"
    ".chart rect.cell{stroke:var(--rule);stroke-width:.8}"
    ".chart rect.short{stroke:var(--ink);stroke-width:1.6}\n",

    /* hatches: lines of the draughtsman */
    ".h{stroke:var(--ink);stroke-width:.7;fill:none;opacity:.5}"
    ".h.f{fill:var(--ink);stroke:none}"
    ".h.w{stroke:var(--water);opacity:1}.h.b{opacity:.9}"
    ".hatch-insulation{fill:url(#hatch-insulation)!important}"
    ".hatch-board{fill:url(#hatch-board)!important}"
    ".hatch-wood{fill:url(#hatch-wood)!important}"
    ".hatch-masonry{fill:url(#hatch-masonry)!important}"
    ".hatch-plaster{fill:url(#hatch-plaster)!important}"
    ".hatch-membrane{fill:var(--ink)!important}"
    ".hatch-air{fill:var(--paper)!important}"
    ".hatch-edge{stroke:var(--ink)!important;stroke-width:.8}\n",

    "@media print{@page{size:A4;margin:16mm 15mm 18mm}"
    ":root{color-scheme:light;--paper:#fff;--ink:#000;--soft:#444;"
    "--rule:#bbb;--wash:#fff;--water:#0d5a6b;--veil:#0d5a6b33}"
    "body{font-size:9.5pt}main{max-width:none;padding:0}"
    "h1{font-size:18pt}h2{font-size:12.5pt;margin-top:1.6rem}"
    "h2,h3,summary{break-after:avoid}tr,li,figure{break-inside:avoid}"
    "tr.noted{break-after:avoid}thead{display:table-header-group}"
    "p,ul,ol,dl{max-width:none}.wide{overflow:visible}"
    "table{font-size:7.8pt;width:100%}tbody tr.note td{font-size:7.2pt}"
    "th,td{padding:.2rem .5rem .2rem 0}"
    ".plates{grid-template-columns:1fr 1fr}"
    ".small{grid-template-columns:repeat(4,1fr)}"
    "details::details-content{content-visibility:visible;block-size:auto;"
    "opacity:1}summary{text-decoration:none;list-style:none;"
    "font-style:italic}a{text-decoration:none}"
    "svg{-webkit-print-color-adjust:exact;print-color-adjust:exact}}\n"
    "@media (max-width:34rem){main{padding:1rem 1rem 3rem}"
    "h1{font-size:1.5rem}p.lead{font-size:1.2rem}"
    "dl{grid-template-columns:1fr}dd{margin-bottom:.35rem;"
    "padding-left:1.25rem}dt.sub{padding-left:0}dd:empty{display:none}"
    ".small{grid-template-columns:1fr 1fr}}\n",
};

void bw_html_style(bw_markup *out)
{
    bw_tag_open(out, "style", NULL);
    for (size_t i = 0; i < sizeof style / sizeof style[0]; i++)
        bw_tag_raw(out, style[i]);
    bw_tag_close(out);
}

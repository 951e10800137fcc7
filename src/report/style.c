/* The looks of the page: one ink, one accent, drawn for paper. What is said
 * by colour is also said by a word, a weight, a dash or a shape. */

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "html.h"
#include "utf8.h"

/* ISO C promises string literals of 4095 bytes only: hence in parts. */
static const char *const style[] = {
    /* colours: paper, ink, faint ink for rules, an accent for water */
    ":root{color-scheme:light dark;--paper:#fffefa;--ink:#1b1c1e;"
    "--soft:#55575c;--rule:#c9c6bd;--wash:#f3f1ea;--water:#0d5a6b;"
    "--veil:#0d5a6b33;--s1:#e2ebea;--s2:#b7cfd0;--s3:#75a3a8;--s4:#1d5660}"
    "@media (prefers-color-scheme:dark){:root{--paper:#17181a;--ink:#e8e5dd;"
    "--soft:#a9a69e;--rule:#4a4b4d;--wash:#212224;--water:#7fc6d6;"
    "--veil:#7fc6d640;"
    "--s1:#23363a;--s2:#2f5860;--s3:#4f8f9a;--s4:#a9dbe4}}\n",

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
    "h3,h2.lead{margin:1.5rem 0 .4rem;font-size:1.05rem;font-weight:600;"
    "border:0;padding:0}p.strong{font-weight:600}"
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
    "dt{color:var(--soft)}dt.sub{padding-left:1.25rem}dd{margin:0}"
    "dt,dd,h1,h2,h3,caption{overflow-wrap:anywhere}\n",

    ".wide{overflow-x:auto;margin:.75rem 0}"
    "table{border-collapse:collapse;font:.84rem/1.35 'Source Sans 3',"
    "'Gill Sans Nova',Optima,Candara,'Liberation Sans',sans-serif;"
    "font-variant-numeric:tabular-nums lining-nums;min-width:60%}"
    "th,td{padding:.3rem .8rem .3rem 0;text-align:left;vertical-align:top;"
    "font-weight:400}"
    "thead th{vertical-align:bottom;color:var(--soft);"
    "border-bottom:1.5px solid var(--ink);hyphens:manual}"
    ".figure{text-align:right}tbody .figure{white-space:nowrap}"
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
    ".cover{display:grid;gap:1rem 2rem;margin:.75rem 0;align-items:start;"
    "grid-template-columns:repeat(auto-fit,minmax(min(100%,19rem),1fr))}"
    ".cover figure{max-width:32rem}"
    "ul.figures{list-style:none;display:grid;gap:.75rem 2rem;padding:0;"
    "margin:1rem 0;max-width:none;"
    "grid-template-columns:repeat(auto-fit,minmax(min(100%,13rem),1fr))}"
    "ul.figures li{border-top:2px solid var(--ink);padding-top:.3rem;"
    "margin:0;min-width:0}"
    "ul.figures strong{font-size:1.5rem;line-height:1.25;font-weight:600}"
    "ul.figures .verdict{margin-left:.4rem;font-size:.9rem}"
    "ul.figures span{display:block;font-size:.85rem;color:var(--soft)}"
    "p.care{border:solid var(--rule);border-width:1px 0;padding:.5rem 0;"
    "font-size:.9rem}"
    "nav.contents ol{columns:18rem;column-gap:2rem;max-width:none;"
    "font-size:.95rem;margin:1rem 0}"
    ".small{display:grid;gap:.9rem 1rem;margin:.75rem 0;"
    "grid-template-columns:repeat(auto-fill,minmax(9.5rem,1fr))}"
    "summary{cursor:pointer;padding:.3rem 0;text-decoration:underline;"
    "text-decoration-color:var(--rule);text-underline-offset:.2em}"
    "ol.key{list-style:none;padding:0;margin:0;font-size:.9rem;"
    "max-width:none}"
    "ol.key li{display:grid;grid-template-columns:1.4rem 2.6rem 1fr;"
    "gap:.5rem;align-items:start;border-bottom:1px solid var(--rule);"
    "padding:.3rem 0;margin:0;break-inside:avoid}"
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
    ".chart .under{stroke:var(--paper);stroke-width:4;opacity:.85}"
    ".chart .limit{stroke-dasharray:8 2 1.5 2;stroke-width:1}"
    ".chart .band{fill:var(--veil);stroke:none}"
    ".chart .mean{stroke:var(--water);stroke-width:1}"
    ".chart .drop,.chart circle{fill:var(--water);stroke:var(--paper);"
    "stroke-width:.8}"
    ".chart circle.ink{fill:var(--ink)}"
    ".chart circle.ring{fill:var(--paper);stroke:var(--ink);"
    "stroke-width:1.4}"
    ".chart rect{stroke:none;fill:none}"
    ".chart rect.paper{fill:var(--paper)}"
    ".chart rect.gain{fill:var(--water)}"
    ".chart rect.loss{fill:var(--paper);stroke:var(--water);"
    "stroke-width:.9}"
    ".chart rect.safe{fill:var(--veil);stroke:var(--water);"
    "stroke-width:.9}"
    ".chart rect.bad{fill:var(--rule);stroke:var(--ink);"
    "stroke-width:1.2}"
    ".chart rect.faint{opacity:.3}"
    ".chart rect.frame{stroke:var(--ink);stroke-width:.9}"
    ".chart rect.cell{stroke:var(--rule);stroke-width:.8}"
    ".chart rect.short{stroke:var(--ink);stroke-width:1.6}"
    ".chart rect.own{stroke:var(--ink);stroke-width:3.2}\n",

    /* walls side by side: by dash and weight; a letter stands on each */
    ".chart .wall0,.chart .wall1{stroke-width:1.9}"
    ".chart .wall1{stroke:var(--water);stroke-dasharray:7 3}"
    ".chart .wall2{stroke-dasharray:1.5 2.5;stroke-width:1.6}"
    ".chart .wall3{stroke:var(--water);stroke-width:1}"
    ".chart .wall4{stroke-dasharray:10 3 2 3}"
    ".chart .wall5{stroke:var(--water);stroke-dasharray:3 3}"
    ".chart .wall6{stroke-dasharray:14 4}"
    ".chart .wall7{stroke:var(--water);stroke-dasharray:8 2 1 2 1 2}"
    ".chart .never{stroke-width:.8}\n",

    /* hatches: lines of the draughtsman */
    ".chart .h{stroke:var(--soft);stroke-width:.5}"
    ".chart .h.dashes{stroke-dasharray:4 2}"
    ".chart .h.points{stroke-dasharray:.1 3;stroke-linecap:round;"
    "stroke-width:.9}"
    ".chart rect.hatch-membrane{fill:var(--ink)}"
    ".chart rect.hatch-edge{stroke:var(--ink);stroke-width:.8}\n",

    /* the year: darker is more humid, and every step has its line */
    ".chart .shade1{fill:var(--s1);stroke:none}"
    ".chart .shade2{fill:var(--s2);stroke:none}"
    ".chart .shade3{fill:var(--s3);stroke:none}"
    ".chart .shade4{fill:var(--s4);stroke:none}"
    ".chart .isoline{stroke-width:.7;stroke-linecap:round}"
    ".chart .layerface{stroke:var(--soft);stroke-width:.5;"
    "stroke-dasharray:2 2}"
    ".chart .place{stroke-width:1}"
    ".chart .season{stroke-width:3.4}"
    ".chart .seasonedge{stroke:var(--paper);stroke-width:6}"
    ".chart .pointer{fill:var(--ink);stroke:none}"
    ".chart .inward{fill:var(--s2);stroke:none}"
    ".chart .insun{fill:var(--s4);stroke:none}"
    ".chart text.strong{font-weight:600}\n",

    "@media print{@page{size:A4;margin:16mm 15mm 18mm}"

    ":root{color-scheme:light;--paper:#fff;--ink:#000;--soft:#444;"
    "--rule:#bbb;--wash:#fff;--water:#0d5a6b;--veil:#0d5a6b33}"
    "html{font-size:9.5pt}main{max-width:none;padding:0}"
    "h2{margin-top:1.8rem}"
    "h2,h3,summary,h2+p,h3+p,p.strong{break-after:avoid}"
    "nav.contents{break-before:page}.cover{grid-template-columns:9fr 8fr}"
    "p.lead{margin:.6rem 0 .3rem}"
    "tr,li,figure{break-inside:avoid}section>:last-child{break-before:avoid}"
    "tr.noted{break-after:avoid}thead{display:table-header-group}"
    "p,ul,ol,dl{max-width:none}.wide{overflow:visible}"
    "table{font-size:.82rem;width:100%}tbody tr.note td{font-size:.76rem}"
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
    "padding-left:1.25rem}dt.sub{padding-left:0}dd.none{display:none}"
    "table.stacks,.stacks tbody,.stacks tr,.stacks th,.stacks td{"
    "display:block;min-width:0}"
    ".stacks thead{position:absolute;clip-path:inset(50%);width:1px;"
    "height:1px;overflow:hidden;white-space:nowrap}"
    ".stacks tr{padding:.35rem 0}"
    ".stacks th{font-weight:600;padding:0 0 .1rem}"
    ".stacks td{display:inline-block;padding:0 .9rem 0 0;text-align:left}"
    ".stacks td:empty{display:none}"
    ".stacks td[data-name]::before{content:attr(data-name) ' ';"
    "color:var(--soft)}"
    ".stacks tr.noted{padding-bottom:0}.stacks tr.note{padding-top:0}"
    ".stacks tr.note td{display:block;padding-left:0}"
    ".small{grid-template-columns:1fr 1fr}}\n",
};

/* A string of CSS: what could end it, or the element around it, by its code. */
static void put_string(bw_markup *out, const char *text)
{
    char code[16];
    const size_t length = strlen(text);
    bw_tag_raw(out, "\"");
    for (size_t i = 0; i < length;) {
        unsigned character;
        const size_t count = bw_utf8_next(text + i, length - i, &character);
        const bool valid = bw_utf8_valid(text + i, count) > 0 &&
                           !bw_utf8_steers(character);
        snprintf(code, sizeof code, "\\%x ", valid ? character : 0xfffdU);
        if (valid && count == 1 && isalnum((unsigned char)text[i]))
            snprintf(code, sizeof code, "%c", text[i]);
        bw_tag_raw(out, code);
        i += count;
    }
    bw_tag_raw(out, "\"");
}

void bw_html_style(bw_markup *out, const char *foot)
{
    bw_tag_open(out, "style", NULL);
    for (size_t i = 0; i < sizeof style / sizeof style[0]; i++)
        bw_tag_raw(out, style[i]);
    bw_tag_raw(out, "@page{@bottom-left{font:8pt Georgia,'Liberation Serif',"
                    "serif;color:#444;width:80%;content:");
    put_string(out, foot);
    bw_tag_raw(out, "}@bottom-right{font:8pt Georgia,'Liberation Serif',serif;"
                    "color:#444;content:counter(page) ' of ' counter(pages)}}"
                    "\n");
    bw_tag_close(out);
}

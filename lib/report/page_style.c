/*
 * How the page looks: dark on white, nothing told by colour alone, printed on A4 or Letter without
 * a table cut off. The script adds comfort and nothing that reading needs.
 */
#include "report/page.h"

static const char STYLE[] =
    "@page{margin:12mm}"
    "*{box-sizing:border-box}"
    "html{background:#fff;color:#1a1a1a;font:16px/1.45 Arial,'Liberation Sans','DejaVu Sans',"
    "sans-serif}"
    "body{margin:0}"
    "main{max-width:186mm;margin:0 auto;padding:6mm 4mm}"
    "h1{font-size:1.7em;line-height:1.2;margin:0 0 .2em}"
    "h2{font-size:1.25em;margin:1.6em 0 .5em;padding-top:.3em;border-top:2px solid #1a1a1a}"
    "h3{font-size:1.05em;margin:1.2em 0 .4em}"
    "h1,h2,h3,p,li,summary,td,th,dd,dt,figcaption,caption{overflow-wrap:break-word}"
    "bdi{unicode-bidi:isolate}"
    ".quiet,small{color:#4a4a4a}"
    "small{font-size:.85em;display:block}"
    "p{margin:.5em 0;max-width:44em}"
    "table{border-collapse:collapse;width:100%;margin:.6em 0;font-size:.9em}"
    "caption{text-align:left;padding:.2em 0;font-weight:bold}"
    "th,td{text-align:left;vertical-align:top;padding:.3em .45em;border-bottom:1px solid #8a8a8a}"
    "thead th{border-bottom:2px solid #1a1a1a;font-weight:bold}"
    "tbody th{font-weight:normal}"
    ".n{text-align:right;font-variant-numeric:tabular-nums}"
    ".n>span{white-space:nowrap}"
    "td.o,th.o,td.s{overflow-wrap:anywhere;min-width:5em}"
    ".lines th{min-width:9em}"
    ".word{display:inline-block;font-weight:bold;padding:.1em .5em;border:2px solid #1a1a1a;"
    "white-space:nowrap}"
    ".holds{border-style:solid;border-color:#155724;color:#155724}"
    ".tight{border-style:double;border-width:4px;color:#5a3e00;border-color:#5a3e00}"
    ".fails{background:#5c1020;color:#fff;border-color:#5c1020}"
    ".may-crack{background:#3d2359;color:#fff;border-color:#3d2359}"
    ".not-checked{border-style:dashed}"
    ".big{font-size:1.5em}"
    "figure{margin:.8em 0}"
    "svg{display:block;width:100%;max-width:184mm;height:auto}"
    ".bar{font-size:2.7px;fill:#1a1a1a}.bar rect,.bar circle,.bar path,.bar polygon{fill:#fff;"
    "stroke:#1a1a1a;stroke-width:.25px}.bar .slot{stroke-linecap:round;stroke:#8a8a8a}"
    ".bar rect.piece{fill:#e4e4e4}"
    ".true svg{width:var(--wide);max-width:100%}"
    "figcaption{color:#4a4a4a;font-size:.9em}"
    "details{margin:.1em 0}"
    "summary{cursor:pointer;padding:.15em 0}"
    "summary:focus-visible,a:focus-visible,button:focus-visible,select:focus-visible{outline:3px "
    "solid #0b3d91;"
    "outline-offset:2px}"
    "a{color:#0b3d91}"
    "ol.steps{margin:.4em 0 .8em;padding-left:1.8em}"
    "ol.steps li{padding:.3em 0 .15em}"
    "code,pre{font-family:'DejaVu Sans Mono','Liberation Mono',monospace;font-size:.88em}"
    "code{overflow-wrap:anywhere}"
    "pre{white-space:pre-wrap;overflow-wrap:anywhere;border:1px solid #8a8a8a;padding:.6em;"
    "margin:.5em 0}"
    "tr.fold>td{border-bottom:1px solid #8a8a8a;padding-top:0}"
    "tr.over>*{border-bottom:0}"
    "button,select{font:inherit;color:#1a1a1a;background:#fff;border:2px solid "
    "#1a1a1a;padding:.2em .6em;"
    "cursor:pointer}"
    "select{max-width:100%}.control{display:block;margin:.4em 0}"
    "nav ul{columns:2;margin:.4em 0;padding-left:1.2em}"
    "@media "
    "print{html{font-size:10pt}main{max-width:none;padding:0}button,nav,.control{display:none}"
    "tr,figure,li,p{break-inside:avoid}tr.fold{break-inside:auto}thead{display:table-header-group}"
    "h2,h3,caption,section>p:first-of-type,tr:has(+tr.fold "
    "details[open]){break-after:avoid}a{color:inherit;text-decoration:none}"
    "tr.fold:not(:has(details[open])){display:none}tr.over>*{border-bottom:1px solid #8a8a8a}"
    ".true svg{max-width:none}"
    "*{-webkit-print-color-adjust:exact;print-color-adjust:exact}}"
    "@media (max-width:700px){table{display:block;overflow-x:auto}nav ul{columns:1}}";

/*
 * Comfort: one button that opens all folds, for those who want to print the working too, and a list
 * from which to choose the case that is drawn. Names go in as text, never as markup.
 */
static const char SCRIPT[] =
    "(function(){'use strict';"
    "function make(kind,text){var e=document.createElement(kind);e.textContent=text;return e;}"
    "function folds(){var at=document.getElementById('checks');"
    "var all=document.querySelectorAll('details');if(!at||!all.length)return;"
    "var b=make('button','Open every fold, for printing');var open=false;b.type='button';"
    "b.addEventListener('click',function(){open=!open;all.forEach(function(d){d.open=open;});"
    "b.textContent=open?'Close every fold':'Open every fold, for printing';});"
    "at.querySelector('h2').insertAdjacentElement('afterend',b);}"
    "function cases(){var all=document.querySelectorAll('#picture figure.case');"
    "if(all.length<2)return;"
    "var label=make('label','Case drawn: ');label.className='control';"
    "var list=document.createElement('select');"
    "all.forEach(function(f){list.appendChild(make('option',f.dataset.case));});"
    "list.addEventListener('change',function(){all.forEach(function(f,i){"
    "f.hidden=i!==list.selectedIndex;});});"
    "label.appendChild(list);all[0].insertAdjacentElement('beforebegin',label);}"
    "folds();cases();})();";

const char *trivet__page_style(void)
{
    return STYLE;
}

const char *trivet__page_script(void)
{
    return SCRIPT;
}

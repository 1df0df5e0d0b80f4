/*
 * The script of the page: comfort, and nothing that reading needs. One button opens all folds, for
 * those who want to print the working too; a list changes the case that is drawn; buttons and arrow
 * keys turn a plain drawing of the frame. Names go in as text, never as markup.
 */
#include "report/page.h"

#define START                                                                                      \
    "(function(){'use strict';"                                                                    \
    "var section=document.getElementById('picture');"                                              \
    "var figures=section?section.querySelectorAll('figure.case'):[];"                              \
    "function make(kind,text){var e=document.createElement(kind);e.textContent=text;return e;}"    \
    "function button(text,act){var b=make('button',text);b.type='button';"                         \
    "b.addEventListener('click',act);return b;}"

#define FOLDS                                                                                      \
    "function folds(){var at=document.getElementById('checks');"                                   \
    "var all=document.querySelectorAll('details');if(!at||!all.length)return;"                     \
    "var words='Open every fold, for printing';var open=false;"                                    \
    "var b=button(words,function(){open=!open;all.forEach(function(d){d.open=open;});"             \
    "b.textContent=open?'Close every fold':words;});"                                              \
    "at.querySelector('h2').insertAdjacentElement('afterend',b);}"

#define CASES                                                                                      \
    "function cases(redraw){if(figures.length<2)return;"                                           \
    "var label=make('label','Case drawn: ');label.className='control';"                            \
    "var list=document.createElement('select');"                                                   \
    "figures.forEach(function(f){list.appendChild(make('option',f.dataset.case));});"              \
    "list.addEventListener('change',function(){figures.forEach(function(f,i){"                     \
    "f.hidden=i!==list.selectedIndex;});redraw();});"                                              \
    "label.appendChild(list);(section.querySelector('.control')||"                                 \
    "figures[0]).insertAdjacentElement('beforebegin',label);}"

/* Points in mm, world axes; the same parallel projection as that of the drawn view. */
#define PROJECT                                                                                    \
    "function numbers(e){return e.getAttribute('value').split(' ').map(Number);}"                  \
    "function points(e){var n=numbers(e),all=[];"                                                  \
    "for(var i=0;i+2<n.length;i+=3)all.push(n.slice(i,i+3));return all;}"                          \
    "function middle(all){return [0,1,2].map(function(k){"                                         \
    "var n=all.map(function(p){return p[k];});"                                                    \
    "return (Math.min.apply(null,n)+Math.max.apply(null,n))/2;});}"                                \
    "function look(turn,tilt){var a=turn*Math.PI/180,b=tilt*Math.PI/180;"                          \
    "var t=[-Math.cos(b)*Math.cos(a),Math.cos(b)*Math.sin(a),Math.sin(b)];"                        \
    "var u=[Math.sin(b)*Math.cos(a),-Math.sin(b)*Math.sin(a),Math.cos(b)];"                        \
    "return [[u[1]*t[2]-u[2]*t[1],u[2]*t[0]-u[0]*t[2],u[0]*t[1]-u[1]*t[0]],u,t];}"                 \
    "function dot(a,b){return a[0]*b[0]+a[1]*b[1]+a[2]*b[2];}"

#define STROKES                                                                                    \
    "var NS='http://www.w3.org/2000/svg';"                                                         \
    "function put(svg,kind,given,text){var e=document.createElementNS(NS,kind);"                   \
    "Object.keys(given).forEach(function(k){e.setAttribute(k,given[k]);});"                        \
    "if(text!==undefined)e.textContent=text;svg.appendChild(e);return e;}"                         \
    "function line(svg,kind,all,wide){put(svg,'polyline',{'class':kind,"                           \
    "'stroke-width':wide,points:all.map(function(p){"                                              \
    "return p[0].toFixed(2)+','+p[1].toFixed(2);}).join(' ')});}"                                  \
    "function letter(svg,taken,at,words){var e=put(svg,'text',{x:at[0]+1.2,y:at[1]-1.2},words);"   \
    "var b=e.getBBox();var isOut=b.x<0||b.x+b.width>184||b.y<0||b.y+b.height>100;"                 \
    "if(isOut||taken.some(function(o){return b.x<o.x+o.width&&o.x<b.x+b.width&&"                   \
    "b.y<o.y+o.height&&o.y<b.y+b.height;}))svg.removeChild(e);else taken.push(b);}"

#define DRAW                                                                                       \
    "function turning(){var data=document.getElementById('turning');"                              \
    "if(!data||!figures.length)return function(){};"                                               \
    "var joints=Array.from(data.querySelectorAll('.joint'));"                                      \
    "var spans=Array.from(data.querySelectorAll('.span'));"                                        \
    "var at=joints.map(function(e){return numbers(e);});var c=middle(at);"                         \
    "var flat=1,far=1;at.forEach(function(p){var x=p[0]-c[0],y=p[1]-c[1],z=p[2]-c[2];"             \
    "flat=Math.max(flat,Math.hypot(x,y));far=Math.max(far,Math.hypot(x,y,z));});"                  \
    "var scale=Math.min(78/flat,40/far),home=[data.dataset.turn,data.dataset.tilt].map(Number);"   \
    "var turn=home[0],tilt=home[1];var figure=document.createElement('figure');"                   \
    "figure.className='turned';figure.hidden=true;"                                                \
    "var svg=put(figure,'svg',{role:'img','aria-label':'Turned',viewBox:'0 0 184 100'});"          \
    "var told=make('figcaption','');told.setAttribute('aria-live','polite');"                      \
    "figure.appendChild(told);"                                                                    \
    "function draw(){if(figure.hidden)return;var axes=look(turn,tilt),taken=[];"                   \
    "function paper(p){var d=[p[0]-c[0],p[1]-c[1],p[2]-c[2]];"                                     \
    "return [92+scale*dot(axes[0],d),50-scale*dot(axes[1],d)];}"                                   \
    "function near(e){var p=points(e);return dot(axes[2],p[0])+dot(axes[2],p[1]);}"                \
    "svg.replaceChildren();spans.sort(function(a,b){return near(a)-near(b);});"                    \
    "spans.forEach(function(e){var p=points(e).map(paper);"                                        \
    "var wide=Math.max(scale*Number(e.dataset.wide),.5);"                                          \
    "line(svg,'edge',p,wide+.4);line(svg,'tube',p,wide);});"                                       \
    "var shown=Array.from(figures).find(function(f){return !f.hidden;});"                          \
    "shown.querySelectorAll('.moved-span').forEach(function(e){"                                   \
    "line(svg,'droop',points(e).map(paper),.45);});"                                               \
    "[['forward',[1,0,0]],['left',[0,1,0]],['up',[0,0,1]]].forEach(function(w){"                   \
    "var tip=[15+9*dot(axes[0],w[1]),86-9*dot(axes[1],w[1])];"                                     \
    "line(svg,'axis',[[15,86],tip],.3);letter(svg,taken,tip,w[0]);});"                             \
    "joints.forEach(function(e,i){var p=paper(at[i]);"                                             \
    "put(svg,'circle',{cx:p[0],cy:p[1],r:.6});letter(svg,taken,p,e.dataset.name);});"              \
    "spans.forEach(function(e){if(!e.dataset.name)return;var p=points(e).map(paper);"              \
    "letter(svg,taken,[(p[0][0]+p[1][0])/2,(p[0][1]+p[1][1])/2],e.dataset.name);});"               \
    "var words='Seen from behind, from '+Math.abs(turn)+' degrees to the '+"                       \
    "(turn<0?'right':'left')+' of that and '+Math.abs(tilt)+' degrees '+"                          \
    "(tilt<0?'below':'above')+'. Dashed: the shape under load in \"'+shown.dataset.case+"          \
    "'\", movements enlarged as in the drawn view. Not to a round scale; names that find no '+"    \
    "'room are left out.';svg.setAttribute('aria-label',words);told.textContent=words;}"

#define TURN                                                                                       \
    "function show(by,up){turn=(turn+by+540)%360-180;tilt=Math.max(-90,Math.min(90,tilt+up));"     \
    "figure.hidden=false;section.classList.add('is-turned');draw();}"                              \
    "var bar=document.createElement('div');bar.className='control';"                               \
    "bar.setAttribute('role','group');bar.setAttribute('aria-label','Turn the view');"             \
    "[['Turn left',-15,0],['Turn right',15,0],['Tip up',0,15],['Tip down',0,-15]].forEach("        \
    "function(w){bar.appendChild(button(w[0],function(){show(w[1],w[2]);}));});"                   \
    "bar.appendChild(button('Back to the drawn view',function(){turn=home[0];tilt=home[1];"        \
    "figure.hidden=true;section.classList.remove('is-turned');}));"                                \
    "bar.addEventListener('keydown',function(e){var by={ArrowLeft:[-15,0],ArrowRight:[15,0],"      \
    "ArrowUp:[0,15],ArrowDown:[0,-15]}[e.key];if(by){e.preventDefault();show(by[0],by[1]);}});"    \
    "figures[0].insertAdjacentElement('beforebegin',bar);"                                         \
    "bar.insertAdjacentElement('afterend',figure);return draw;}"                                   \
    "folds();cases(turning());})();"

/* C compilers need not take longer strings than 4095 bytes. */
static const char *const PARTS[] = {START, FOLDS, CASES, PROJECT, STROKES, DRAW, TURN};

const char *trivet__page_script(int part)
{
    return part >= 0 && part < (int)(sizeof PARTS / sizeof PARTS[0]) ? PARTS[part] : NULL;
}

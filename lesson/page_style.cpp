#include "lesson/page_style.h"

#include <fmt/format.h>

namespace ahead::lesson {
namespace {

std::string variables(const formats::Theme& theme) {
  return fmt::format("--paper:{};--card:{};--ink:{};--soft:{};--line:{};--bed:{};--accent:{}",
                     theme.paper, theme.card, theme.ink, theme.soft, theme.rule, theme.bed,
                     theme.accent);
}

constexpr std::string_view layout = R"css(
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:15px/1.5 var(--body)}
header{display:flex;flex-wrap:wrap;align-items:baseline;gap:4px 28px;padding:12px 24px 11px;border-bottom:1px solid var(--line)}
header b{font:600 21px var(--heading)}header .for{color:var(--soft);margin-left:auto}
a{color:inherit;text-decoration:none}:focus-visible{outline:2px solid var(--accent);outline-offset:2px}
.strip{display:flex;flex-wrap:wrap;gap:8px;padding:14px 24px;border-bottom:1px solid var(--line)}
.strip a{display:flex;gap:10px;align-items:center;width:158px;padding:6px 8px;border:1px solid var(--line);border-radius:3px;background:var(--card);font-size:12.5px;line-height:1.3}
.strip svg{height:66px;width:38px;flex:none}.strip b{display:block;font-size:13.5px}.strip span span{color:var(--soft);display:block}
.strip a[aria-current]{outline:2px solid var(--accent)}
section{display:grid;gap:0 34px;padding:26px 24px;border-bottom:1px solid var(--line);align-items:start;grid-template:"table head" auto "table strike" auto "table say" auto "facts say" auto/minmax(0,44%) minmax(0,1fr)}
.whole{grid-template:"table head" auto "table say" auto "table facts" 1fr/minmax(0,44%) minmax(0,1fr)}
figure{margin:0}.table{grid-area:table}.head{grid-area:head}.say{grid-area:say}.strike{grid-area:strike}.facts{grid-area:facts}
.table svg{display:block;width:100%;max-height:96vh}
.strike{display:grid;grid-template-columns:11fr 10fr;gap:14px;align-items:center;max-width:560px;margin-bottom:10px}.strike svg{display:block;width:100%}
h1,h2{font:600 26px/1.2 var(--heading);margin:4px 0 2px;text-wrap:balance}
.head .under{color:var(--soft);margin:0 0 12px}
.say p{margin:0 0 11px;font:16px/1.5 var(--heading)}
.say .aside{font:12.5px/1.45 var(--body);color:var(--soft);border-top:1px solid var(--line);padding-top:10px;margin-top:12px}
.say .aside+.aside{border:0;padding:0;margin-top:6px}
.caution{border-left:3px solid var(--accent);padding-left:12px}
h3{font:600 14.5px var(--body);margin:6px 0 0}h3+dl{margin-top:8px}
dl{display:grid;grid-template-columns:auto 1fr;gap:3px 16px;margin:14px 0;font-variant-numeric:tabular-nums;border-top:1px solid var(--line);padding-top:10px}
dt{color:var(--soft)}dd{margin:0;text-align:right}
.alt{border-top:1px solid var(--line);padding-top:10px;font-size:14.5px}.alt h3{margin:0}.alt p{margin:3px 0 0}
.order{padding-left:1.4em;margin:6px 0 14px;font:17px/1.55 var(--heading)}.order small{color:var(--soft);font:14px var(--body)}
@media screen and (min-width:1000px){
 .one{display:grid;grid-template:auto minmax(0,1fr)/172px minmax(0,1fr);height:100vh;overflow:hidden}
 .one header{grid-column:1/-1}
 .one .strip{flex-direction:column;flex-wrap:nowrap;border:0;border-right:1px solid var(--line);padding:12px 10px;overflow:auto}
 .one .strip a{width:auto;flex:none;padding:4px 8px}
 .one main{overflow:auto}
 .one section{display:none;border:0;padding:16px 22px}
 .one section.shown{display:grid}
 .one section{grid-template-columns:auto minmax(0,1fr)}
 .one .table svg{width:min(44vw,calc((100vh - 92px)*.545));max-height:none}
}
@media screen and (min-width:1000px) and (max-width:1359px){
 .one section{grid-template:"table head" auto "table strike" auto "table say" 1fr "facts say" auto/auto minmax(0,1fr)}
 .one .whole{grid-template:"table head" auto "table say" auto "table facts" 1fr/auto minmax(0,1fr)}
 .strike{grid-template-columns:1fr;max-width:350px}.strike .pace-figure{display:none}.say p{font-size:15px}
}
@media screen and (min-width:1360px){
 section,.one section{grid-template:"table head strike" auto "table say strike" auto "table say facts" 1fr/minmax(0,auto) minmax(280px,1fr) 340px}
 .whole,.one .whole{grid-template:"table head facts" auto "table say facts" 1fr/minmax(0,auto) minmax(280px,1fr) 340px}
 .table svg,.one .table svg{width:min(32vw,calc((100vh - 92px)*.545))}
 .strike{grid-template-columns:1fr;gap:6px;max-width:none}
}
@media print{
 body{font-size:10.5pt}.strip{display:none}header{padding:0 0 6px}
 section{break-before:page;padding:8px 0;border:0;gap:0 8mm}
 section:first-of-type{break-before:auto}
 .say p{font-size:10pt;margin-bottom:7px}.table svg{max-height:190mm}.strike{gap:4mm;margin:0}h1,h2{font-size:16pt}
}
)css";

constexpr std::string_view script = R"js(
(function(){
  var body=document.body,links=[].slice.call(document.querySelectorAll('.strip a')),
      parts=[].slice.call(document.querySelectorAll('section'));
  body.classList.add('one');
  function show(i){
    i=Math.max(0,Math.min(parts.length-1,i));
    parts.forEach(function(p,k){p.classList.toggle('shown',k===i)});
    links.forEach(function(l,k){
      if(k===i){l.setAttribute('aria-current','true');l.scrollIntoView({block:'nearest'})}
      else l.removeAttribute('aria-current')});
    document.querySelector('main').scrollTop=0;
    return i;
  }
  function at(){return Math.max(0,parts.findIndex(function(p){return '#'+p.id===location.hash}))}
  var now=show(at());
  links.forEach(function(l,k){l.addEventListener('click',function(e){
    e.preventDefault();now=show(k);history.replaceState(null,'','#'+parts[k].id)})});
  addEventListener('hashchange',function(){now=show(at())});
  addEventListener('keydown',function(e){
    if(e.altKey||e.ctrlKey||e.metaKey)return;
    var by=e.key==='ArrowRight'?1:e.key==='ArrowLeft'?-1:0;
    if(!by)return;
    now=show(now+by);history.replaceState(null,'','#'+parts[now].id);e.preventDefault();
  });
})();
)js";

}  // namespace

std::string colour_variables(const formats::Look& look) {
  return fmt::format(
      ":root{{color-scheme:light dark;{};--body:{};--heading:{}}}\n"
      "@media screen and (prefers-color-scheme:dark){{:root{{{}}}}}\n",
      variables(look.light), look.body_font, look.heading_font, variables(look.dark));
}

std::string page_style(const formats::Look& look) {
  return colour_variables(look) + std::string(layout);
}

std::string page_script() { return std::string(script); }

}  // namespace ahead::lesson

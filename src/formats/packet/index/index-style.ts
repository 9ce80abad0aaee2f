/** The look of the packets index, over the type and tones it shares with the phone page. */
export const INDEX_STYLE = `
*{box-sizing:border-box}
body{margin:0;background:var(--bough-ground);color:var(--bough-ink);font:400 15px/1.45 "Source Sans 3",sans-serif;font-variant-numeric:tabular-nums}
main{max-width:1080px;margin:0 auto;padding:28px 20px 60px}
h1{margin:0;font-size:30px;line-height:1.15;font-weight:600}
h2{margin:34px 0 0;padding-bottom:6px;border-bottom:2px solid var(--bough-ink);font-size:18px;font-weight:600}
h2 span{font-weight:400;color:var(--bough-quiet)}
h3{margin:0;font-size:17px;font-weight:600;line-height:1.25}
p{margin:6px 0}
a{color:inherit;text-decoration-thickness:1px;text-underline-offset:3px}
a:focus-visible,summary:focus-visible{outline:3px solid var(--bough-focus);outline-offset:2px}
.quiet{color:var(--bough-quiet)}
.head{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1.1fr);gap:32px;align-items:start}
.caution{margin:14px 0;padding:10px 14px;border-left:5px solid var(--bough-urgency-now);background:var(--bough-paper)}
figure{margin:0}
figure svg{display:block;width:100%;height:auto;border:1px solid var(--bough-ink)}
figcaption{margin-top:4px;font-size:13px;color:var(--bough-quiet)}
ol{margin:0;padding:0;list-style:none}
.zone{display:grid;grid-template-columns:44px minmax(0,1.25fr) minmax(0,1.5fr) minmax(0,1.1fr);gap:4px 18px;padding:13px 0;border-bottom:1px solid var(--bough-hairline);scroll-margin-top:8px}
.number{justify-self:start;min-width:30px;height:30px;padding:0 5px;border:1.5px solid var(--bough-ink);background:var(--bough-paper);font-weight:600;line-height:27px;text-align:center}
.state{display:inline-block;margin-top:4px;padding:1px 8px;border:1px solid var(--bough-ink);font-size:13px}
.state.draft{border-style:dashed}
.state.issued,.state.under-way{background:repeating-linear-gradient(135deg,var(--bough-hairline) 0 1px,transparent 1px 5px)}
.state.under-way{border-width:2px}
.state.done{border-color:var(--bough-hairline);color:var(--bough-quiet)}
dl{display:grid;grid-template-columns:auto minmax(0,1fr);gap:1px 12px;margin:0;align-content:start}
dt{color:var(--bough-quiet)}
dd{margin:0}
.late{font-weight:600}
.links a{display:block;padding:3px 0}
.links a.packet{margin-bottom:3px;padding:7px 12px;border:1.5px solid var(--bough-ink);background:var(--bough-paper);font-weight:600;text-decoration:none}
.links a span{font-weight:400;color:var(--bough-quiet)}
details{grid-column:2/-1;font-size:13px;color:var(--bough-quiet)}
summary{cursor:pointer}
code{font-family:ui-monospace,"DejaVu Sans Mono",monospace;font-size:12px;overflow-wrap:anywhere}
@media (max-width:760px){
main{padding:18px 16px 48px}
h1{font-size:25px}
.head{grid-template-columns:minmax(0,1fr);gap:18px}
.zone{grid-template-columns:44px minmax(0,1fr);gap:8px 12px;padding:16px 0}
.zone>dl,.links,details{grid-column:1/-1}
.links a{padding:11px 0}
.links a.packet{padding:12px 14px}
summary{padding:10px 0}
}
@media print{
:root{--bough-ground:#fff;--bough-paper:#fff;--bough-ink:#000;--bough-quiet:#404040;--bough-hairline:#b0b0b0}
.zone{break-inside:avoid}
}
`;

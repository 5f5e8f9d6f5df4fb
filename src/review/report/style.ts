/** The page's looks, on screen in light and dark, and on paper. */
export const style = `
:root{--page:#fbfaf7;--card:#fff;--ink:#23211d;--soft:#6d685e;--line:#e2ddd2;--accent:#a4452c;--mark:#f3e3d6;
--red:#c23b2e;--green:#2d8a4e;--blue:#2f62c4;--developer:#7a4a8c;--bleach:#c98a16;--fixer:#3b7d8f;--stop:#a8a13a;--backing:#57534b;--rinse:#7aa3c9;--water:#b9c9d2}
@media (prefers-color-scheme:dark){:root{--page:#171614;--card:#211f1c;--ink:#ece7dd;--soft:#a39c8e;--line:#3a362f;--accent:#ee8e6b;--mark:#3d2b22;
--red:#f07a6c;--green:#62c484;--blue:#7ea6ff;--developer:#b98bcc;--bleach:#e0aa45;--fixer:#6fb6c8;--stop:#cdc665;--backing:#8d877b;--rinse:#8fb8de;--water:#53646e}}
*{box-sizing:border-box}
body{margin:0;background:var(--page);color:var(--ink);font:16px/1.55 system-ui,"Segoe UI",Roboto,"Liberation Sans",sans-serif}
main{max-width:58rem;margin:0 auto;padding:2.5rem 1.25rem 4rem}
h1{font-size:2rem;line-height:1.15;margin:.1rem 0 1rem;letter-spacing:-.015em}
h2{font-size:1.15rem;margin:0 0 .9rem}
h3{font-size:1rem;margin:1.4rem 0 .4rem}
p{margin:.4rem 0}
.about{color:var(--soft);margin:0}
.lead{font-size:1.2rem;line-height:1.45;border-left:4px solid var(--accent);padding-left:.9rem}
.small,figcaption,footer{color:var(--soft);font-size:.86rem}
section{background:var(--card);border:1px solid var(--line);border-radius:10px;padding:1.2rem 1.3rem;margin:1.4rem 0}
table{border-collapse:collapse;width:100%;font-size:.93rem}
th,td{text-align:left;padding:.45rem .7rem .45rem 0;border-bottom:1px solid var(--line);vertical-align:top}
thead th{color:var(--soft);font-weight:500;font-size:.84rem}
tbody tr:last-child>*{border-bottom:0}
th i{display:inline-block;width:.7em;height:.7em;border-radius:50%;margin-right:.5em}
.causes{list-style:none;margin:0;padding:0}
.cause{display:grid;grid-template-columns:7rem 1fr;gap:1rem;padding:.8rem 0;border-bottom:1px solid var(--line)}
.cause:last-child{border-bottom:0}
.cause h3{margin:0 0 .2rem;display:flex;justify-content:space-between;gap:1rem}
.cause h3 span{color:var(--soft);font-weight:500;font-variant-numeric:tabular-nums}
.cause p{margin:.15rem 0;font-size:.95rem}
.bar{height:.7rem;margin-top:.45rem;border-radius:4px;background:linear-gradient(to right,var(--accent) var(--share),var(--line) 0)}
.tied,.next{background:var(--mark);border-radius:8px;padding:.6rem .9rem}
.frames{display:grid;grid-template-columns:repeat(auto-fit,minmax(20rem,1fr));gap:1.4rem}
.frame{margin:0;min-width:0}
.pair{display:grid;grid-template-columns:1fr 1fr;gap:4px}
.pair img{width:100%;height:100%;object-fit:cover;display:block;border-radius:4px;background:#000}
.side{display:grid;grid-template-columns:minmax(16rem,20rem) 1fr;gap:1.5rem;align-items:center;margin-top:1rem}
svg{max-width:100%;height:auto;display:block;overflow:visible}
.slips{list-style:none;padding:0;margin:0}
.slips .when{display:inline-block;min-width:4rem;color:var(--soft);font-variant-numeric:tabular-nums}
@media (max-width:40rem){.cause,.side{grid-template-columns:1fr;gap:.4rem}table{display:block;overflow-x:auto}}
@media print{
:root{--page:#fff;--card:#fff;--ink:#111;--soft:#555;--line:#ccc;--accent:#a4452c;--mark:#f4ece6;--red:#c23b2e;--green:#2d8a4e;--blue:#2f62c4;--developer:#7a4a8c;--bleach:#c98a16;--fixer:#3b7d8f;--stop:#a8a13a;--backing:#57534b;--rinse:#7aa3c9;--water:#b9c9d2}
body{font-size:10.5pt}main{max-width:none;padding:0}
section{border:0;border-top:1px solid var(--line);border-radius:0;padding:.8rem 0;margin:.6rem 0}
.cause,.frame,tr,svg{break-inside:avoid}h2{break-after:avoid}
.bar,.tied,.next,th i{print-color-adjust:exact;-webkit-print-color-adjust:exact}
@page{margin:16mm}}
`;

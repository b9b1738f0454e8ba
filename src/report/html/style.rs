//! How a page looks: for a screen, and for A4.

/// The style sheet. System typefaces, and no colours that a black-and-white printer would have to tell apart.
pub const STYLE: &str = "\
@page { size: A4; margin: 15mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 180mm; padding: 8mm 0; color: #1f2730; background: #fff;
  font: 10.5pt/1.4 'Noto Sans', 'DejaVu Sans', Verdana, Arial, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 19pt; line-height: 1.2; margin: 0; }
h2 { font-size: 13pt; margin: 7mm 0 2mm; padding-bottom: 1mm; border-bottom: 0.3mm solid #bcc5ce; break-after: avoid; }
h3 { font-size: 10.5pt; margin: 0 0 1.5mm; }
p { margin: 0 0 1.5mm; }
.kind { color: #4e5863; font-weight: bold; margin: 0; }
.place { font-size: 12pt; color: #4e5863; }
dl { display: grid; grid-template-columns: 36mm 1fr; gap: 0.8mm 3mm; margin: 0; }
dt { color: #4e5863; }
dd { margin: 0; }
.facts { margin: 3mm 0; }
.outcome { font-size: 15pt; font-weight: bold; padding: 2.5mm 4mm; border: 0.5mm solid #4e5863; border-left-width: 3mm; }
.pass { border-color: #26743f; }
.not-yet { border-color: #8a6100; }
.refer { border-color: #9a2c0c; }
table { border-collapse: collapse; width: 100%; margin-top: 3mm; break-inside: avoid; }
th, td { text-align: left; padding: 0.8mm 2mm; border-bottom: 0.2mm solid #d8dee3; }
th { color: #4e5863; font-weight: normal; }
th:nth-child(n+2), td:nth-child(n+2) { text-align: right; width: 24mm; font-variant-numeric: tabular-nums; }
.results th, .results td { text-align: left; width: auto; }
.less td { font-weight: bold; }
article { border: 0.2mm solid #bcc5ce; border-left: 1.5mm solid #8c969f; padding: 2.5mm 3.5mm; margin: 0 0 3mm;
  break-inside: avoid; }
article.critical { border-left-color: #9a2c0c; }
article.major { border-left-color: #8a6100; }
article.follows { margin-left: 6mm; }
.drawings { display: flex; flex-wrap: wrap; gap: 4mm; align-items: flex-end; }
.drawings h2, .drawings > p { width: 100%; margin-bottom: 0; }
figure { margin: 0; max-width: 100%; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; }
.record { font-weight: bold; }
ul { margin: 0; padding-left: 6mm; }
.well { break-inside: avoid; }
ol { margin: 0; padding-left: 6mm; font-size: 9pt; }
footer { break-inside: avoid; }
.signed { display: flex; gap: 8mm; margin: 14mm 0 4mm; }
.signed p { flex: 1; border-top: 0.3mm solid #1f2730; padding-top: 1mm; color: #4e5863; }
.form { font-size: 9pt; line-height: 1.3; padding-bottom: 6mm; }
.form h1 { font-size: 14pt; }
.form h2 { font-size: 10.5pt; margin: 3.5mm 0 1mm; }
.form .facts { grid-template-columns: 30mm 1fr; margin: 1.5mm 0; }
.form .outcome { font-size: 11pt; padding: 1mm 3mm; }
.form table { margin-top: 1mm; }
.form .across th, .form .across td { text-align: center; width: auto; }
.form .causes td, .form .causes th, .form .signers td { text-align: left; width: auto; }
.form .causes td:last-child { width: 45mm; }
.form .signers td { height: 8mm; vertical-align: bottom; color: #4e5863; }
.form .room { min-height: 9mm; border-bottom: 0.2mm solid #8c969f; }
.running { color: #4e5863; font-size: 8pt; margin: 3mm 0 0; }
.forms .form + .form { break-before: page; }
@media screen { .forms .form + .form { border-top: 0.3mm solid #1f2730; padding-top: 8mm; } }
@page { @bottom-right { content: counter(page); font-size: 8pt; } }
@media print { .running { position: fixed; bottom: 0; } .forms .running { position: static; } }
@media print { body { padding: 0; max-width: none; print-color-adjust: exact; -webkit-print-color-adjust: exact; } }
@media screen and (max-width: 190mm) { body { padding: 4mm; } dl { grid-template-columns: 1fr; } }
";

// The look of printed pages: black on white, table heads on every sheet, no row broken.
#pragma once

#include <string_view>

namespace pinfold {

/// CSS for HtmlPage. Page numbers stand in the margin where the browser can put them there.
constexpr std::string_view bench_style = R"(
@page {
  margin: 11mm 13mm 14mm;
  @bottom-left { content: "pinfold wiring table"; font: 8pt Helvetica, Arial, sans-serif; }
  @bottom-right { content: "page " counter(page) " of " counter(pages); font: 8pt Helvetica, Arial, sans-serif; }
}
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: #000;
  font: 10pt/1.4 Helvetica, Arial, "Liberation Sans", "DejaVu Sans", sans-serif; }
main { max-width: 182mm; margin: 0 auto; overflow-wrap: anywhere; }
@media screen { main { padding: 9mm 5mm 20mm; max-width: 194mm; } }
h1 { font-size: 19pt; line-height: 1.15; margin: 0; font-weight: 700; letter-spacing: -0.01em; }
h1 .kind { display: block; font-size: 9pt; font-weight: 400; letter-spacing: 0.14em;
  text-transform: uppercase; margin-bottom: 1.2mm; }
h2 { font-size: 13pt; margin: 5mm 0 1.5mm; border-top: 0.5mm solid #000; padding-top: 1.6mm;
  break-after: avoid; }
h2 .way { font-weight: 400; }
h3 { font-size: 8.5pt; letter-spacing: 0.1em; text-transform: uppercase; margin: 0 0 1mm;
  break-after: avoid; }
p, ol, ul { margin: 0 0 2mm; }
ol, ul { padding-left: 6mm; }
li { margin-bottom: 0.6mm; break-inside: avoid; }
.file { margin: 1mm 0 3mm; color: #333; }
.signed { display: flex; gap: 6mm; margin: 11mm 0 2mm; break-inside: avoid; padding: 0; list-style: none; }
.signed li { flex: 1; border-top: 0.25mm solid #000; padding-top: 1mm; font-size: 8.5pt; }
.loud { border: 1mm solid #000; padding: 2.2mm 3mm; font-weight: 700; font-size: 12pt;
  margin: 3mm 0; break-inside: avoid; }
.cautions { border: 0.5mm solid #000; border-left-width: 2.5mm; padding: 2.5mm 4mm 1mm;
  margin: 4mm 0 0; break-inside: avoid; }
.cautions h2 { border: 0; margin: 0 0 1.5mm; padding: 0; }
.part { border-top: 0.25mm solid #000; padding-top: 1.5mm; margin-bottom: 2mm; break-inside: avoid; }
.ends { display: grid; grid-template-columns: 1fr 1fr; gap: 6mm; break-inside: avoid; }
dl { margin: 0; }
dt { font-size: 8pt; color: #333; }
dd { margin: 0; line-height: 1.25; }
.buy { display: grid; grid-template-columns: 1.7fr 1fr 1fr 1.3fr; gap: 1.6mm 5mm; }
.buy dd { font-weight: 700; }
.seat div { display: grid; grid-template-columns: 19mm 1fr; margin-bottom: 0.8mm; align-items: baseline; }
.course { margin-bottom: 2mm; }
.course dt { display: inline; font-size: 1em; font-weight: 700; color: #000; }
.course dt::after { content: ":"; }
.course dd { display: inline; }
.course div { margin-bottom: 0.8mm; }
.source { break-inside: avoid; font-size: 7.5pt; margin: 0; line-height: 1.3; color: #333; }
figure { margin: 3mm 0; padding: 3mm; border: 0.25mm solid #000; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; }
figcaption { font-size: 8pt; margin-top: 1mm; color: #333; }
table { border-collapse: collapse; width: 100%; margin: 3mm 0 0; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-weight: 700; padding-bottom: 1.5mm; break-after: avoid; }
thead { display: table-header-group; break-inside: avoid; }
tr { break-inside: avoid; }
th, td { text-align: left; padding: 0.9mm 2mm; vertical-align: middle; }
thead th { border-top: 0.5mm solid #000; border-bottom: 0.5mm solid #000; font-size: 8.5pt;
  vertical-align: bottom; }
tbody th, tbody td { border-bottom: 0.2mm solid #888; }
tbody th { font-weight: 700; }
.number { text-align: right; width: 9mm; }
.done { width: 12mm; text-align: center; }
.pair { background: #f1f1f1; }
.supply th, .supply td { border-top: 0.6mm solid #000; border-bottom: 0.6mm solid #000; font-weight: 700; }
.fault td, .fault th { font-weight: 700; }
.fault th { border-left: 1.2mm solid #000; }
input { appearance: none; -webkit-appearance: none; width: 4.2mm; height: 4.2mm; margin: 0;
  border: 0.3mm solid #000; background: #fff; vertical-align: middle; font: bold 10pt/3.6mm sans-serif;
  text-align: center; }
input:checked::after { content: "\2713"; }
.closing { font-size: 8pt; color: #333; }
@media screen and (max-width: 150mm) { .buy, .ends { grid-template-columns: 1fr; } .signed { display: block; } }
@media print { body { font-size: 9.2pt; line-height: 1.32; } main { max-width: none; }
  th, td { padding: 0.5mm 2mm; } input { width: 3.7mm; height: 3.7mm; line-height: 3.2mm; } }
)";

}  // namespace pinfold

"""How a lesson's page looks: on a phone, on a desk, on paper."""

STYLE = """
:root { --ink: #1d2733; --soft: #55606d; --rule: #d5dbe1; --blue: #0072B2; --orange: #B34E00; --paper: #fff; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0; background: #eef1f3; color: var(--ink); line-height: 1.5; overflow-wrap: anywhere;
  font-family: system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", "DejaVu Sans", sans-serif; }
header, main { max-width: 1200px; margin: 0 auto; padding: 0 16px; }
header { padding-top: 20px; }
h1 { font-size: 1.9rem; line-height: 1.2; margin: 0; }
header p { margin: 4px 0 12px; color: var(--soft); }
h2 { font-size: 1.35rem; line-height: 1.25; margin: 0 0 8px; }
h3 { font-size: 1.08rem; line-height: 1.3; margin: 0 0 6px; color: var(--blue); }
h2.player { margin-top: 28px; border-bottom: 3px solid var(--blue); }
p, ul, ol { margin: 0 0 10px; }
ul, ol { padding-left: 1.3em; }
main > section, footer { background: var(--paper); border: 1px solid var(--rule); border-radius: 6px; padding: 16px;
  margin: 0 0 16px; }
.finding { border-left: 6px solid var(--orange); }
.finding ol { list-style: none; padding: 0; margin: 0; }
.finding li { margin: 0 0 8px; font-size: 1.06rem; }
.finding strong { display: inline-block; min-width: 5.2em; color: var(--orange); }
.pictures { columns: 3 300px; column-gap: 20px; margin: 12px 0; }
figure { margin: 0; padding-bottom: 18px; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; }
figure svg * { stroke-linejoin: round; stroke-linecap: butt; }
figure svg text { font-family: system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", "DejaVu Sans", sans-serif
  !important; }
figcaption { font-size: .86rem; color: var(--soft); margin-top: 4px; }
figcaption strong { display: block; color: var(--ink); font-size: 1rem; }
.left-out, .read, footer { font-size: .9rem; color: var(--soft); }
.ledgers, .answers, .numbers { columns: 2 420px; column-gap: 28px; margin-top: 14px; }
.numbers { font-size: .86rem; color: var(--soft); border-top: 1px solid var(--rule); padding-top: 12px; }
table { border-collapse: collapse; width: 100%; font-size: .84rem;
  margin: 0 0 14px; font-variant-numeric: tabular-nums; }
caption { text-align: left; color: var(--soft); padding: 6px 0; }
th, td { padding: 3px 6px 3px 0; border-top: 1px solid var(--rule); vertical-align: top; text-align: left; }
td { padding-right: 0; padding-left: 6px; }
thead th { border-top: 0; color: var(--soft); font-weight: 600; }
tbody th { font-weight: 500; }
.ledgers td, .ledgers thead th + th { text-align: right; }
.causes tbody tr:first-child *, .causes tbody tr:last-child * { font-weight: 700; }
table, li { break-inside: avoid; }
.beside table { max-width: 620px; }
.beside p { max-width: 76ch; }
tr { break-inside: avoid; }
h2, h3, caption { break-after: avoid; }
@media print {
  @page { size: A4; margin: 14mm; }
  html { font-size: 9pt; }
  body { background: none; }
  header, main { max-width: none; padding: 0; }
  main > section, footer { border: 0; padding: 0; margin: 0 0 5mm; }
  .finding { border-left: 2mm solid var(--orange); padding-left: 4mm; }
  .pictures { columns: auto; orphans: 1; widows: 1; }
  figure { display: inline-block; width: 48.5%; margin-right: 1%; vertical-align: top; }
  .club + .club { break-before: page; }
  .ledgers, .answers, .numbers { columns: 1; }
}
"""

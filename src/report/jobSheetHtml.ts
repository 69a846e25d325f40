import { drawingSvg } from './drawingSvg.ts';
import type { JobSheet } from './jobSheet.ts';
import { escaped } from './svgText.ts';

/** What was filled in by hand on the sheet. */
export type SheetFilled = {
  readonly day: string;
  readonly registration: string;
  readonly odometer: string;
  readonly technician: string;
  readonly done: string;
  readonly why: string;
  readonly customer: string;
};

const style = `@page{size:A4;margin:10mm}*{box-sizing:border-box}body{font:11pt/1.3 'Barlow Semi Condensed','Arial Narrow',Arial,sans-serif;color:#000;background:#fff;margin:0 auto;max-width:190mm}
h1{font-size:22pt;margin:0}h2{font-size:12pt;margin:3mm 0 1mm}p{margin:0 0 1mm}header{display:flex;justify-content:space-between;border-bottom:.6mm solid #000;padding-bottom:2mm}
header div:last-child{text-align:right}.top{display:grid;grid-template-columns:3fr 1fr;gap:4mm;margin-top:3mm}svg{width:100%;height:auto;max-height:120mm;border:.2mm solid #000}
table{border-collapse:collapse;width:100%}th,td{text-align:left;border-bottom:.2mm solid #000;padding:.8mm 1mm;vertical-align:top}thead th{border-bottom:.4mm solid #000}
.n{display:inline-block;min-width:5mm;border-radius:3mm;background:#000;color:#fff;text-align:center;font-weight:700;-webkit-print-color-adjust:exact;print-color-adjust:exact}
.two{display:grid;grid-template-columns:3fr 2fr;gap:5mm}.sign{display:grid;grid-template-columns:repeat(3,1fr);gap:8mm;margin-top:12mm}.sign span{border-top:.4mm solid #000;padding-top:1mm}footer{margin-top:3mm;font-size:10pt}`;

/** The sheet as one HTML file that needs nothing else. Every text of it is escaped. */
export function jobSheetHtml(sheet: JobSheet, filled: SheetFilled): string {
  const block = (title: string, text: string) => (text === '' ? '' : `<h2>${escaped(title)}</h2><p>${escaped(text)}</p>`);
  const row = (cells: readonly string[], tag = 'td') => `<tr>${cells.map((c) => `<${tag}>${c}</${tag}>`).join('')}</tr>`;
  const line = (text: string) => (text === '' ? '________________' : escaped(text));
  const svg = drawingSvg(sheet.layout, {
    title: sheet.title,
    line: sheet.drawn,
    words: [],
    neutral: true,
    theme: 'light',
    marks: sheet.marks,
  });
  const readings = sheet.readings.map((r) =>
    row([`<span class="n">${r.number}</span>`, escaped(r.where), escaped(r.good), `<b>${escaped(r.read)}</b>`, escaped(r.tells)]),
  );
  const table = sheet.table.rows.map((r) => row([escaped(r.name), ...r.cells.map((c) => escaped(c.word === 'off' ? '–' : c.word))]));
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${escaped(`Job sheet, ${sheet.title}`)}</title><style>${style}</style></head><body>
<header><div><h1>Job sheet</h1><p>Detent</p></div><div><b>${escaped(sheet.vehicle === '' ? sheet.title : sheet.vehicle)}</b><p>Odometer ${line(filled.odometer)} · registration ${line(filled.registration)}</p><p>Date ${escaped(filled.day)} · technician ${line(filled.technician)}</p></div></header>
<div class="top"><div>${svg}</div><div>${block('Complaint', sheet.complaint)}${block('Asked first', sheet.asked.join(' '))}<h2>${escaped(sheet.cause.title)}</h2><p><b>${escaped(sheet.cause.fault)}</b> ${escaped(sheet.cause.text)}</p><p>${escaped(sheet.drawn)}</p></div></div>
<h2>Readings</h2><table><thead>${row(['at', 'where and how', 'good', 'read', 'tells'], 'th')}</thead><tbody>${readings.join('')}</tbody></table>
<div class="two"><div><h2>${escaped(sheet.table.title)}</h2><table><thead>${row(['load', ...sheet.table.positions.map(escaped)], 'th')}</thead><tbody>${table.join('')}</tbody></table><p>${escaped(sheet.table.said)}</p></div>
<div>${block('Done', filled.done)}${block('Why it failed', filled.why)}${block('For the customer', filled.customer)}</div></div>
<div class="sign"><span>Technician</span><span>Checked by</span><span>Customer</span></div><footer>${escaped(sheet.disclaimer)}</footer>
</body></html>
`;
}

import { quantityText, readQuantity } from '../quantity.ts';

export type CellQuantity =
  | { readonly written: string; readonly assumed?: string }
  | { readonly why: string; readonly mend: readonly string[] };

/**
 * A number of a table as a circuit file writes it. The unit of the cell comes before that of the head; without either,
 * mm² for areas, and metres for lengths.
 *
 * @param decimal sign that parts the decimals in this file; the other one parts thousands
 */
export function cellQuantity(text: string, field: 'area' | 'length', unit: string | undefined, decimal: '.' | ','): CellQuantity {
  const shown = text.trim();
  const number = pointed(shown.replace(/(\d)[\s\u00a0'’](?=\d{3}(\D|$))/g, '$1'), decimal);
  const gauge = field === 'area' && unit === 'AWG' && /^#?\d{1,2}(\/0)?$/.test(number);
  if (gauge) return checked(`${number.replace('#', '')} AWG`, field);
  if (/^[+-]?(\d+\.?\d*|\.\d+)$/.test(number)) {
    const taken = unit ?? (field === 'area' ? 'mm²' : 'm');
    const read = checked(`${number} ${taken}`, field);
    return 'written' in read && unit === undefined ? { ...read, assumed: taken } : read;
  }
  const [, digits = '', own = ''] = /^([+-]?[\d.]+)\s*(.*)$/.exec(number) ?? [];
  const spelled = units.get(own.toLowerCase().replace(/[.\s]/g, ''));
  const imperial = field === 'length' ? feet.get(own.toLowerCase().replace('.', '')) : undefined;
  if (imperial !== undefined) return checked(quantityText(Number(digits) * imperial, 'length', 12), field);
  return checked(spelled === undefined ? number : `${digits} ${spelled}`, field);
}

/** A map, not an object: whatever a cell says, only these words are found. */
const units: ReadonlyMap<string, string> = new Map([
  ['qmm', 'mm²'],
  ['mmq', 'mm²'],
  ['sqmm', 'mm²'],
  ['mm^2', 'mm²'],
  ['mm2', 'mm²'],
  ['mm²', 'mm²'],
  ['metre', 'm'],
  ['meter', 'm'],
  ['mètre', 'm'],
  ['mètres', 'm'],
]);
/** Metres in a foot and an inch: exact by definition. */
const feet: ReadonlyMap<string, number> = new Map([
  ['ft', 0.3048],
  ["'", 0.3048],
  ['in', 0.0254],
  ['"', 0.0254],
  ['inch', 0.0254],
]);

/** `1.234,5` with a decimal comma is 1234.5; `1,234.5` with a point is the same. */
function pointed(text: string, decimal: '.' | ','): string {
  if (decimal === '.') return /^[+-]?\d{1,3}(,\d{3})+(\.\d+)?(\D|$)/.test(text) ? text.replaceAll(',', '') : text;
  const thousands = /^[+-]?\d{1,3}(\.\d{3})+,\d/.test(text) ? text.replaceAll('.', '') : text;
  return thousands.replace(/(\d),(\d)/, '$1.$2').replace(/^,(\d)/, '0.$1');
}

/** What is written must be what the reader takes. Largest sizes as those of a wire. */
function checked(written: string, field: 'area' | 'length'): CellQuantity {
  const read = readQuantity(written, field);
  if (!read.ok) return { why: read.why, mend: read.mend };
  const [least, most] = field === 'area' ? [0.05, 500] : [0, 1000];
  if (read.value >= least && read.value <= most) return { written };
  return {
    why: `\`${written}\` is outside of what the ${field} of a wire can be`,
    mend: [`it is from ${quantityText(least, field)} to ${quantityText(most, field)}; look at the unit and the decimal sign`],
  };
}

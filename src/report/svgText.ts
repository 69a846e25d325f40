/** Text as it may stand in an SVG element or attribute. Control characters, which XML forbids, are left out. */
export function escaped(text: string): string {
  let safe = '';
  for (const c of text) {
    const code = c.codePointAt(0)!;
    const isForbidden =
      (code < 32 && code !== 9 && code !== 10) || code === 0xfffe || code === 0xffff || (code >= 0xd800 && code <= 0xdfff);
    if (!isForbidden) safe += entities[c] ?? c;
  }
  return safe;
}
const entities: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** An element: `element('path', { d: 'M0 0', class: 'bar' })`. Attributes that are undefined are left out. */
export function element(name: string, attributes: Readonly<Record<string, string | number | undefined>>, inner?: string): string {
  const own = Object.entries(attributes).flatMap(([key, of]) =>
    of === undefined ? [] : [` ${key}="${typeof of === 'number' ? rounded(of) : escaped(of)}"`],
  );
  return inner === undefined ? `<${name}${own.join('')}/>` : `<${name}${own.join('')}>${inner}</${name}>`;
}

/** Tenths of a pixel are enough, and keep files small and the same everywhere. */
export const rounded = (n: number): number => Math.round(n * 10) / 10;

/** A line of text; `of` is its class. */
export function words(x: number, y: number, text: string, size: number, weight: number, of?: string): string {
  return element('text', { class: of, x, y, 'font-size': size, 'font-weight': weight }, escaped(text));
}

/** The path through some points. */
export function lineOf(points: readonly (readonly [number, number])[]): string {
  return points.map(([x, y], k) => `${k === 0 ? 'M' : 'L'}${rounded(x)} ${rounded(y)}`).join('');
}

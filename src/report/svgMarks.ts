import type { Layout } from './layout/layout.ts';
import { markPlace, numberSpot } from './markPlace.ts';
import type { SheetMark } from './sheetDrawing.ts';
import { element, escaped } from './svgText.ts';

/** The ring round the cause, and the numbers where readings were taken. */
export function svgMarks(layout: Layout, marks: readonly SheetMark[]): readonly string[] {
  const seen = new Map<string, number>();
  return marks.flatMap((m): readonly string[] => {
    if (m.is === 'cause') {
      const at = markPlace(layout, m.at);
      return at ? [element('circle', { class: 'line none', cx: at.x, cy: at.y, r: at.r + 2, 'stroke-width': 4 })] : [];
    }
    const before = seen.get(m.at) ?? 0;
    seen.set(m.at, before + 1);
    const spot = numberSpot(layout, m.at, before);
    if (!spot) return [];
    const text = { x: spot[0], y: spot[1] + 5.5, 'font-size': 16, 'font-weight': 700, 'text-anchor': 'middle', class: 'paper' };
    return [element('circle', { class: 'ink', cx: spot[0], cy: spot[1], r: 12 }), element('text', text, escaped(`${m.number}`))];
  });
}

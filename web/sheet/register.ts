import { define } from '../define.ts';
import { SheetView } from './SheetView.ts';

export function registerSheetView(): void {
  define({ 'detent-sheet': SheetView });
}

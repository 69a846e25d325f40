import { define } from '../define.ts';
import { MeterPanel } from './MeterPanel.ts';
import { PlayStrip } from './PlayStrip.ts';
import { WayDownView } from './WayDownView.ts';

export function registerTools(): void {
  define({ 'detent-meter': MeterPanel, 'detent-play': PlayStrip, 'detent-way': WayDownView });
}

import { define } from '../define.ts';
import { BatteryCurve } from './BatteryCurve.ts';
import { DrainBarView } from './DrainBarView.ts';
import { DrainScreen } from './DrainScreen.ts';
import { LogChartView } from './LogChartView.ts';

export function registerDrainView(): void {
  define({
    'detent-drain': DrainScreen,
    'detent-drain-bar': DrainBarView,
    'detent-battery': BatteryCurve,
    'detent-log': LogChartView,
  });
}

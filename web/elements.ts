import { BenchView } from './bench/BenchView.ts';
import { CircuitDrawing } from './bench/CircuitDrawing.ts';
import { FaultChooser } from './bench/FaultChooser.ts';
import { HandSettings } from './bench/HandSettings.ts';
import { KeyChart } from './bench/KeyChart.ts';
import { PositionTable } from './bench/PositionTable.ts';
import { PotentialLegend } from './bench/PotentialLegend.ts';
import { define } from './define.ts';
import { DetentShell } from './shell/DetentShell.ts';

/** The tags of the first sight, in one place; the class modules have no side effect. */
const tags: Readonly<Record<string, CustomElementConstructor>> = {
  'detent-shell': DetentShell,
  'detent-bench': BenchView,
  'detent-drawing': CircuitDrawing,
  'detent-key-chart': KeyChart,
  'detent-table': PositionTable,
  'detent-hand': HandSettings,
  'detent-faults': FaultChooser,
  'detent-legend': PotentialLegend,
};

export function registerElements(): void {
  define(tags);
}

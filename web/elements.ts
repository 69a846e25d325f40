import { BenchView } from './bench/BenchView.ts';
import { CircuitDrawing } from './bench/CircuitDrawing.ts';
import { FaultChooser } from './bench/FaultChooser.ts';
import { HandSettings } from './bench/HandSettings.ts';
import { KeyChart } from './bench/KeyChart.ts';
import { MeterPanel } from './bench/MeterPanel.ts';
import { PlayStrip } from './bench/PlayStrip.ts';
import { PositionTable } from './bench/PositionTable.ts';
import { PotentialLegend } from './bench/PotentialLegend.ts';
import { WayDownView } from './bench/WayDownView.ts';
import { BatteryCurve } from './drain/BatteryCurve.ts';
import { DrainBarView } from './drain/DrainBarView.ts';
import { DrainScreen } from './drain/DrainScreen.ts';
import { LogChartView } from './drain/LogChartView.ts';
import { FindingList } from './find/FindingList.ts';
import { FindView } from './find/FindView.ts';
import { NextCard } from './find/NextCard.ts';
import { ProofScale } from './find/ProofScale.ts';
import { ReadingEntry } from './find/ReadingEntry.ts';
import { SeenSheet } from './find/SeenSheet.ts';
import { SuspectList } from './find/SuspectList.ts';
import { SheetView } from './sheet/SheetView.ts';
import { DetentShell } from './shell/DetentShell.ts';
import { JobsPanel } from './shell/JobsPanel.ts';
import { KeysSheet } from './shell/KeysSheet.ts';

/** Every tag of the program, in one place; the class modules have no side effect. */
const tags: Readonly<Record<string, CustomElementConstructor>> = {
  'detent-shell': DetentShell,
  'detent-jobs': JobsPanel,
  'detent-keys': KeysSheet,
  'detent-bench': BenchView,
  'detent-drawing': CircuitDrawing,
  'detent-key-chart': KeyChart,
  'detent-table': PositionTable,
  'detent-meter': MeterPanel,
  'detent-way': WayDownView,
  'detent-play': PlayStrip,
  'detent-hand': HandSettings,
  'detent-faults': FaultChooser,
  'detent-legend': PotentialLegend,
  'detent-drain': DrainScreen,
  'detent-drain-bar': DrainBarView,
  'detent-battery': BatteryCurve,
  'detent-log': LogChartView,
  'detent-sheet': SheetView,
  'detent-find': FindView,
  'detent-findings': FindingList,
  'detent-suspects': SuspectList,
  'detent-next': NextCard,
  'detent-proof': ProofScale,
  'detent-seen': SeenSheet,
  'detent-reading-entry': ReadingEntry,
};

export function registerElements(): void {
  for (const [tag, element] of Object.entries(tags)) if (!customElements.get(tag)) customElements.define(tag, element);
}

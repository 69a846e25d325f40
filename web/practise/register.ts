import { CircuitDrawing } from '../bench/CircuitDrawing.ts';
import { FaultChooser } from '../bench/FaultChooser.ts';
import { KeyChart } from '../bench/KeyChart.ts';
import { define } from '../define.ts';
import { ClassSheet } from './ClassSheet.ts';
import { DebriefView } from './DebriefView.ts';
import { InstructorPanel } from './InstructorPanel.ts';
import { PractiseBench } from './PractiseBench.ts';
import { PractiseView } from './PractiseView.ts';
import { ProgressTable } from './ProgressTable.ts';
import { TableQuiz } from './TableQuiz.ts';

const tags: Readonly<Record<string, CustomElementConstructor>> = {
  'detent-drawing': CircuitDrawing,
  'detent-faults': FaultChooser,
  'detent-key-chart': KeyChart,
  'detent-practise': PractiseView,
  'detent-practice-bench': PractiseBench,
  'detent-progress': ProgressTable,
  'detent-debrief': DebriefView,
  'detent-quiz': TableQuiz,
  'detent-instructor': InstructorPanel,
  'detent-class': ClassSheet,
};

export function registerPractiseView(): void {
  define(tags);
}

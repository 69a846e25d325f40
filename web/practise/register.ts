import { define } from '../define.ts';
import { DebriefView } from './DebriefView.ts';
import { InstructorPanel } from './InstructorPanel.ts';
import { PractiseView } from './PractiseView.ts';
import { TableQuiz } from './TableQuiz.ts';

const tags: Readonly<Record<string, CustomElementConstructor>> = {
  'detent-practise': PractiseView,
  'detent-debrief': DebriefView,
  'detent-quiz': TableQuiz,
  'detent-instructor': InstructorPanel,
};

export function registerPractiseView(): void {
  define(tags);
}

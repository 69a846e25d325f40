import type { Circuit } from '../circuit/circuit.ts';
import { actionText } from '../practice/actionPhrase.ts';
import type { Debrief } from '../practice/debrief.ts';
import { boughtText, clockText, hiddenLine, technicianSteps, verdictLine, wayLines, worthText } from './practiceText.ts';

const cell = (text: string): string => text.replace(/\|/g, '\\|').replace(/\n/g, ' ');

/** The debrief as a printable sheet, Markdown. @param who the apprentice, as they want to be called; empty for none */
export function practiceSheet(d: Debrief, circuit: Circuit, complaint: string, who = ''): string {
  return [
    `# Debrief: ${circuit.title}`,
    '',
    ...(who === '' ? [] : [`Apprentice: ${who}`, '']),
    `Complaint: "${complaint}"`,
    '',
    `**${verdictLine(d)}** ${hiddenLine(d)}`,
    '',
    '| at | done | read | suspects left | worth |',
    '|---|---|---|---|---|',
    `| 0:00 | the complaint | | ${d.rivals} | |`,
    ...d.steps.map(
      (s) =>
        `| ${clockText(s.step.at + s.step.minutes)} | ${cell(actionText(s.step.action, circuit))} | ${cell(s.step.figure ?? '')} | ${s.left} | ${cell(worthText(s, circuit))} |`,
    ),
    '',
    wayLines(d).join(' '),
    '',
    ...technicianSteps(d, circuit).map((line) => `1. ${line}`),
    '',
    ...d.bought.map((b) => `- ${boughtText(b)}`),
    ...d.unsafe.map((s) => `- Unsafe: ${s.said}`),
    ...d.misconceptions.map((m) => `- Shown by what was done: "${m.belief}" (${m.condition}). Try: ${m.task}. Source: ${m.source}`),
    '',
    '| marks | points | of |',
    '|---|---|---|',
    ...d.marks.list.map((m) => `| ${m.about} | ${m.points} | ${m.of} |`),
    ...(d.marks.hints > 0 ? [`| Hints | -${d.marks.hints} | |`] : []),
    `| **Together** | **${d.marks.total}** | 100 |`,
    '',
    'Signed: ______________________   Instructor: ______________________',
    '',
    "An exercise on a simulated vehicle. At a real one the maker's instructions, local rules and a qualified person have the last word.",
    '',
  ].join('\n');
}

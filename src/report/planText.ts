import { costText, leftText, type PlanStep, type PlanView } from './planView.ts';
import { wrapped } from './textTable.ts';

/** A plan as an indented tree for the terminal. */
export function planText(view: PlanView, columns: number): string {
  const lines: string[] = [];
  const put = (text: string, depth: number) => {
    const indent = '  '.repeat(Math.min(depth, 12));
    for (const line of wrapped(text, Math.max(24, columns - indent.length))) lines.push(indent + line);
  };
  const walk = (step: PlanStep, depth: number): void => {
    if (step.is === 'end') {
      put(`→ ${leftText(step)}`, depth);
      return;
    }
    put(`${step.scene}: ${step.reading} (${minutesText(step.minutes)})`, depth);
    for (const b of step.branches) {
      put(`${b.seen}, ${b.percent}:`, depth + 1);
      walk(b.next, depth + 2);
    }
  };
  walk(view.root, 0);
  return [...lines, '', ...wrapped(costText(view), columns)].join('\n');
}

/** The same as a nested list in Markdown. */
export function planMarkdown(view: PlanView, title: string): string {
  const lines = [`# Plan: ${escaped(title)}`, ''];
  const walk = (step: PlanStep, depth: number, lead: string): void => {
    const indent = '  '.repeat(depth);
    if (step.is === 'end') {
      lines.push(`${indent}- ${lead}**${escaped(leftText(step))}**`);
      return;
    }
    lines.push(`${indent}- ${lead}${escaped(step.scene)}: ${escaped(step.reading)} (${minutesText(step.minutes)})`);
    for (const b of step.branches) walk(b.next, depth + 1, `*${escaped(b.seen)}*, ${b.percent}: `);
  };
  walk(view.root, 0, '');
  return [...lines, '', costText(view), ''].join('\n');
}

const minutesText = (minutes: number): string => (minutes < 1 ? 'under 1 min' : `${Math.round(minutes)} min`);
const escaped = (text: string): string => text.replace(/[\\`*_[\]<>]/g, '\\$&');

import { plan as planOf } from '../../diagnose/plan.ts';
import { planSvg } from '../../report/planSvg.ts';
import { planMarkdown, planText } from '../../report/planText.ts';
import { planView } from '../../report/planView.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Command, printJson, sayProblems } from '../command.ts';
import { canOption, findingsGiven, sawOption, toolsGiven } from '../sawOptions.ts';

export const plan: Command = {
  name: 'plan',
  usage: 'plan FILE --saw FINDING… [--can TOOL]… [--markdown | --svg] [-o OUT]',
  about: 'The whole decision tree of readings from what was seen, as text, Markdown or SVG',
  takes: { least: 1, most: 1 },
  options: {
    saw: sawOption,
    can: canOption,
    markdown: { type: 'boolean', about: 'as a nested list in Markdown' },
    svg: { type: 'boolean', about: 'as a drawing' },
    output: { type: 'string', short: 'o', value: 'OUT', about: 'into a file; its ending decides: .md, .svg, or text' },
  },
  examples: [
    {
      line: 'plan circuits/light-van.yaml --saw "START: engine fires" --saw "ON after START: engine dies"',
      gives: 'what to read first, what then for each outcome, and what is left at each end',
    },
    { line: 'plan circuits/bench-board.yaml --saw "ON: H1 dead" -o plan.svg', gives: 'the same as a drawing' },
  ],
  run: (args, io) => {
    const { circuit, problems, texts } = circuitFile(args.positionals[0]!, io);
    if (sayProblems(problems, args, io, texts) !== 0 || !circuit) return 1;
    const { findings, problems: unread } = findingsGiven(args, circuit);
    const { tools, problems: noTools } = toolsGiven(args);
    if (sayProblems([...unread, ...noTools], args, io) !== 0) return 1;
    const view = planView(circuit, planOf(circuit, findings, { tools }));
    const out = args.text('output');
    const title = `${circuit.title}: ${findings.map((f) => f.phrase).join('; ') || 'nothing said yet'}`;
    const asSvg = args.flag('svg') || out?.endsWith('.svg') === true;
    const asMarkdown = args.flag('markdown') || out?.endsWith('.md') === true;
    const text = asSvg ? planSvg(view, title) : asMarkdown ? planMarkdown(view, title) : planText(view, io.columns);
    if (out !== undefined) {
      const written = io.writeFile(out, text.endsWith('\n') ? text : `${text}\n`);
      if (sayProblems(written.problems, args, io) !== 0) return 1;
      if (!args.json) io.print(out);
    } else if (!args.json) io.print(text.trimEnd());
    if (args.json) printJson(view, io);
    return 0;
  },
};

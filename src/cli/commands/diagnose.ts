import { dirname, relative } from 'node:path';
import { afterRepair } from '../../diagnose/afterRepair.ts';
import { diagnose as search } from '../../diagnose/diagnose.ts';
import { jobFindings } from '../../diagnose/jobFindings.ts';
import { jobText } from '../../diagnose/jobText.ts';
import { Predictor } from '../../diagnose/predict.ts';
import { diagnosisData } from '../../report/diagnosisData.ts';
import { diagnosisText } from '../../report/diagnosisText.ts';
import { diagnosisView } from '../../report/diagnosisView.ts';
import { ask } from '../ask.ts';
import { type Command, printJson, sayProblems } from '../command.ts';
import { jobGiven } from '../jobGiven.ts';
import { canOption, findingsGiven, sawOption, toolsGiven } from '../sawOptions.ts';

export const diagnose: Command = {
  name: 'diagnose',
  usage: 'diagnose FILE [JOB.yaml] [--saw FINDING]… [--can TOOL]… [--ask] [-o JOB.yaml]',
  about: 'From what was seen in which key position: suspects, the next reading, verdict',
  takes: { least: 1, most: 2 },
  options: {
    saw: sawOption,
    can: canOption,
    ask: { type: 'boolean', about: 'a dialogue: asks for one reading after another; `back`, `skip`, `quit`' },
    output: { type: 'string', short: 'o', value: 'JOB', about: 'writes the findings into a job file' },
  },
  examples: [
    {
      line: 'diagnose circuits/light-van.yaml --saw "START: engine fires" --saw "ON after START: engine dies"',
      gives: 'the suspects, what cannot be told apart yet, and the reading that is worth most for its minutes',
    },
    { line: 'diagnose circuits/light-van.yaml job.yaml --json', gives: 'the same from a job file, as data' },
  ],
  run: async (args, io) => {
    const { circuit, job, jobName, problems, texts } = jobGiven(args.positionals, io);
    if (sayProblems(problems, args, io, texts) !== 0 || !circuit) return 1;
    const told = job && jobFindings(job, circuit, jobName);
    const { findings, problems: unread } = findingsGiven(args, circuit);
    const { tools, problems: noTools } = toolsGiven(args);
    const doubts = [...(told?.problems ?? []), ...unread, ...noTools];
    if (sayProblems(doubts, args, io, texts) !== 0) return 1;
    const predictor = new Predictor(circuit);
    const after = told && afterRepair(predictor, told.after, told.notes);
    const reopened = after !== undefined && after.amiss.length > 0;
    // A fault found after the repair is another one: only what was seen since then speaks of it.
    const all = reopened
      ? [...told!.after, ...findings]
      : [...(told?.findings ?? []), ...(told?.exchanges ?? []), ...findings, ...(told?.after ?? [])];
    const history = job?.history ?? [];
    const said = args.flag('ask') ? await ask(circuit, all, io, { tools, history, predictor }) : all;
    const out = args.text('output');
    if (out !== undefined) {
      const own = args.positionals.length === 1 && job ? job.circuit : { path: args.positionals[0]! };
      const written = { ...job, circuit: relative(dirname(out), 'path' in own ? own.path : args.positionals[0]!) };
      const text = jobText({ ...written, findings: said.map((f) => f.phrase), repair: (job?.repair ?? []).map((r) => r.text) });
      if (sayProblems(io.writeFile(out, text).problems, args, io) !== 0) return 1;
    }
    if (args.flag('ask') && !args.json) return 0;
    const done = after?.tableRun === true && after.keyOffRead;
    const view = diagnosisView(circuit, search(circuit, said, { tools, history }, predictor), done);
    if (args.json) {
      const more = { ...(reopened && { reopened: true }), ...(doubts.length > 0 && { warnings: doubts }) };
      printJson({ ...(diagnosisData(view) as object), ...more }, io);
    } else {
      if (reopened) io.print('After the repair something is still amiss: a second fault, and the search is open again.\n');
      io.print(diagnosisText(view, io.columns));
    }
    return 0;
  },
};

import type { Circuit } from '../circuit/circuit.ts';
import { nearNames } from '../circuit/nearNames.ts';
import type { Problem } from '../circuit/problem.ts';
import { type Tool, tools, usualTools } from '../diagnose/candidates.ts';
import type { Finding } from '../diagnose/finding.ts';
import { readFinding } from '../diagnose/findingPhrase.ts';
import type { Args, Option } from './command.ts';

export const sawOption: Option = {
  type: 'string',
  multiple: true,
  value: 'FINDING',
  about: 'what was seen or read: `ON after START: engine dies`, `ON: 0.4 V at S1.15`',
};
export const canOption: Option = {
  type: 'string',
  multiple: true,
  value: 'TOOL',
  about: `what is at hand: ${tools.join(', ')}; without it all but the donor switch`,
};

/** All `--saw` phrases, read. */
export function findingsGiven(
  args: Args,
  circuit: Circuit,
): { readonly findings: readonly Finding[]; readonly problems: readonly Problem[] } {
  const read = args.texts('saw').map((phrase) => readFinding(phrase, circuit, '--saw'));
  return { findings: read.flatMap((r) => (r.ok ? r.value : [])), problems: read.flatMap((r) => r.problems) };
}

/** All `--can` tools; several may stand in one, with commas between. */
export function toolsGiven(args: Args): { readonly tools: readonly Tool[]; readonly problems: readonly Problem[] } {
  const words = args
    .texts('can')
    .flatMap((text) => text.split(','))
    .map((w) => w.trim().toLowerCase().replaceAll(' ', '-'))
    .filter((w) => w !== '');
  if (words.length === 0) return { tools: usualTools, problems: [] };
  const known = words.flatMap((w) => tools.filter((t) => t === w));
  const problems = words
    .filter((w) => !tools.some((t) => t === w))
    .map((w): Problem => {
      const near = nearNames(w, [...tools]);
      return {
        code: 'unknown-tool',
        severity: 'error',
        file: '--can',
        line: 1,
        column: 1,
        length: Math.max(1, w.length),
        what: `\`${w}\` is no tool that Detent knows`,
        why: 'a reading is only proposed when the tool for it is at hand',
        mend: near.length > 0 ? near : [...tools],
      };
    });
  return { tools: known, problems };
}

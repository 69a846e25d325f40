import type { Circuit } from '../../circuit/circuit.ts';
import type { Problem } from '../../circuit/problem.ts';
import { readFinding } from '../../diagnose/findingPhrase.ts';
import type { FitReading } from '../../solve/fit.ts';

/**
 * Readings for a fit from phrases of findings: `ON: 12.4 V at G1.+`, `key out: 9 mA at G1.-`.
 * @param file for problems: the option or field that the phrases came from
 */
export function fitReadings(
  phrases: readonly string[],
  circuit: Circuit,
  file: string,
): { readonly readings: readonly FitReading[]; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const told = (code: string, what: string, mend: readonly string[]) =>
    problems.push({ code, severity: 'error', file, line: 1, column: 1, length: 1, what, why: 'there is nothing to fit to', mend });
  const readings = phrases.flatMap((phrase): readonly FitReading[] => {
    const read = readFinding(phrase, circuit, file);
    if (!read.ok) {
      problems.push(...read.problems);
      return [];
    }
    return read.value.flatMap(({ scene, observable, seen, phrase: said }): readonly FitReading[] => {
      if ('value' in seen && observable.of === 'volts')
        return [{ phrase: said, scene, of: 'volts', at: observable.at, to: observable.to, value: seen.value }];
      if ('value' in seen && observable.of === 'amperes')
        return [{ phrase: said, scene, of: 'amperes', at: observable.at, to: 'ground', value: Math.abs(seen.value) }];
      told('not-a-value', `\`${said}\` is no reading of volts or amperes`, ['write `ON: 12.4 V at G1.+`']);
      return [];
    });
  });
  if (readings.length === 0 && problems.length === 0)
    told('no-readings', 'no reading was given', ['a reading is written `ON: 12.4 V at G1.+`']);
  return { readings, problems };
}

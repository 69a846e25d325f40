import type { DrainAnswer } from '../drain/drainAnswer.ts';
import { ampereText } from '../drain/expected.ts';
import { fedBehind } from '../drain/fedBehind.ts';
import { currentFromDrop, meterStep_V } from '../drain/fuseDrops.ts';

/** One fuse of the table that is printed and taken along. */
export type FuseRow = {
  readonly fuse: string;
  readonly rating: string;
  /** Names of the loads behind it. */
  readonly feeds: string;
  readonly healthy: string;
  readonly supposed: string;
  /** What was read, with the current that it stands for; '' when nothing was. */
  readonly read: string;
  readonly readAmperes: string;
  /** Milliamperes that a step of 0.1 mV stands for. */
  readonly perStep: string;
  readonly ohm: string;
  readonly spread: string;
  readonly source: string;
  /** True where the hypothesis makes a difference that the meter shows. */
  readonly tells: boolean;
};

const millivolts = (volts: number): string => (1000 * Math.abs(volts)).toFixed(1);

export function fuseRows(answer: DrainAnswer): readonly FuseRow[] {
  const behind = fedBehind(answer.circuit);
  return answer.fuseDrops.map((f): FuseRow => {
    const found = answer.findings.find(
      ({ observable: o, scene }) =>
        o.of === 'volts' && o.at.startsWith(`${f.fuse}.`) && o.to.startsWith(`${f.fuse}.`) && scene.apart.length === 0,
    );
    const volts = found && 'value' in found.seen ? Math.abs(found.seen.value) : undefined;
    const range = volts === undefined ? undefined : currentFromDrop(volts, f.ohm, f.spread);
    const loads = behind.get(f.fuse) ?? [];
    return {
      fuse: f.fuse,
      rating: `${f.rating_A} A`,
      // A fuse of a memory, a relay or a module has no load behind it that one could look at: its own name says what it feeds.
      feeds: (loads.length > 0 ? loads : [f.fuse]).map((id) => answer.circuit.parts.get(id)?.name ?? id).join(', '),
      healthy: millivolts(f.healthy_V),
      supposed: millivolts(f.supposed_V),
      read: volts === undefined ? '' : millivolts(volts),
      readAmperes:
        range === undefined
          ? ''
          : range.from <= 0
            ? `under ${ampereText(range.to)}`
            : `${ampereText(range.amperes)} (${ampereText(range.from)} to ${ampereText(range.to)})`,
      perStep: ampereText(meterStep_V / f.ohm),
      ohm: `${Number((1000 * f.ohm).toPrecision(3))} mΩ`,
      spread: `±${Math.round(100 * f.spread)} %`,
      source: f.source,
      tells: Math.abs(f.supposed_V - f.healthy_V) >= meterStep_V,
    };
  });
}

/** What the table says as a whole. */
export function fuseNote(rows: readonly FuseRow[]): string {
  if (rows.length === 0) return 'No fuse here carries a current that could be read across it.';
  const telling = rows.filter((r) => r.tells).map((r) => r.fuse);
  if (telling.length > 0) return `As supposed, ${telling.join(' and ')} would show it.`;
  return 'No fuse would show a difference: what leaves before the fuses is read at the studs, or by unplugging.';
}

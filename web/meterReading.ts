import { noReading, type ReadingText, readingText } from '../src/report/readingText.ts';
import { ammeter, type Bench, clamp, isClampable, lineAt, ohmmeter, testLamp, voltmeter } from '../src/solve/instruments.ts';
import type { Meter } from './session/session.ts';

/** What the instrument in hand shows where its leads hang. */
export function meterReading(bench: Bench, { instrument, red, black }: Meter): ReadingText {
  if (instrument === 'clamp') {
    if (red === undefined) return noReading('Put the clamp round a wire.');
    return isClampable(bench.circuit, red)
      ? readingText(clamp(bench, red))
      : noReading('More than one way leads through it: choose a terminal or a wire.');
  }
  if (instrument === 'amperes') {
    const line = red === undefined ? undefined : lineAt(bench.circuit, red);
    if (line === undefined) return noReading('An ammeter goes in line: choose the wire or fuse that it opens.');
    return readingText(ammeter(bench, line));
  }
  if (red === undefined || black === undefined) return noReading('Both leads need a terminal.');
  if (instrument === 'jumper') {
    const bridged = bench.scene.bridged.findIndex(([a, b]) => a === red && b === black);
    return bridged < 0
      ? noReading('The jumper hangs beside it. Bridge to join the two terminals.')
      : readingText(clamp(bench, `jumper${bridged + 1}`));
  }
  const read = { volts: voltmeter, 'test lamp': testLamp, ohms: ohmmeter }[instrument];
  return readingText(read(bench, red, black));
}

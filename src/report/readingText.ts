import type { InstrumentReading } from '../solve/instruments.ts';
import { voltsText } from './positionRows.ts';

/** What stands in the display of an instrument, and what it says beside it. */
export type ReadingText = {
  readonly figure: string;
  readonly unit: string;
  readonly note: string;
  /** True when nothing was read: the note says why. */
  readonly refused: boolean;
};

export const noReading = (note: string): ReadingText => ({ figure: '- - -', unit: '', note, refused: true });

/** A reading as a handheld instrument shows it: four figures at most, the range chosen by itself. */
export function readingText(reading: InstrumentReading): ReadingText {
  switch (reading.shows) {
    case 'volts': {
      const small = Math.abs(reading.volts) < 0.6;
      const note = reading.floating ? 'A lead touches something that is tied to nothing: the meter sees only its own 10 MΩ.' : '';
      return small
        ? {
            figure: (reading.volts * 1000).toFixed(Math.abs(reading.volts) < 0.06 ? 1 : 0).replace(/^-(0(\.0+)?)$/, '$1'),
            unit: 'mV DC',
            note,
            refused: false,
          }
        : { figure: reading.volts.toFixed(2), unit: 'V DC', note, refused: false };
    }
    case 'lamp':
      return {
        figure: reading.brightness,
        unit: '',
        note: `${voltsText(reading.volts)} across the lamp, which loads the point it touches.`,
        refused: false,
      };
    case 'amperes': {
      if (reading.blown) return noReading('The fuse of the 10 A range has blown: more flows here. Use a clamp.');
      const size = Math.abs(reading.amperes);
      if (size < 0.9995)
        return { figure: (reading.amperes * 1000).toFixed(size < 0.01 ? 2 : size < 0.1 ? 1 : 0), unit: 'mA DC', note: '', refused: false };
      return { figure: reading.amperes.toFixed(size < 100 ? 2 : 1), unit: 'A DC', note: '', refused: false };
    }
    case 'ohms': {
      const { ohm } = reading;
      if (ohm === Number.POSITIVE_INFINITY || ohm > 40e6)
        return { figure: 'OL', unit: '', note: 'Open: no way between the leads.', refused: false };
      if (ohm < 999.5) return { figure: ohm.toFixed(ohm < 100 ? 2 : 1), unit: 'Ω', note: '', refused: false };
      if (ohm < 999.5e3) return { figure: (ohm / 1e3).toPrecision(4), unit: 'kΩ', note: '', refused: false };
      return { figure: (ohm / 1e6).toPrecision(4), unit: 'MΩ', note: '', refused: false };
    }
    case 'refusal':
      return noReading(
        `${voltsText(reading.volts)} at ${reading.at}: an ohmmeter reads nonsense on a live circuit. Disconnect the supply first.`,
      );
  }
}

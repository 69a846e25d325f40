/** What a customer says of an engine, several ways each; the finding that each way stands for is one and the same. */
export const engineSays: Readonly<Record<string, readonly string[]>> = {
  still: [
    'nothing happens when I turn the key to {place}',
    'it does not turn over at all',
    'the starter does nothing with the key at {place}',
  ],
  'cranks slowly': ['it turns over very slowly', 'the starter labours as if it were freezing', 'it cranks, but only just'],
  cranks: ['it turns over but does not fire', 'it cranks and cranks and will not catch', 'the starter turns it, yet it never starts'],
  fires: ['the engine starts with the key at {place}', 'it is started with the key at {place}, where it ought to do nothing'],
  dies: [
    'it starts, and dies as soon as I let go of the key',
    'the engine dies when the key springs back to {place}',
    'it will not run on once the key is back at {place}',
  ],
  cut: ['the engine does not run on when the key comes back to {place}', 'when the key is back at {place} the engine stops'],
  runs: ['the engine runs on with the key at {place}', 'I turn the key back to {place} and the engine keeps going'],
};

/** Openings for something that is so every time, and for what comes and goes. */
export const openings = ['', 'Since last week ', 'For some days now ', 'Since this morning '] as const;
export const sometimesOpenings = ['Sometimes ', 'Every now and then ', 'Not always, but often enough, '] as const;

/** Where a load was noticed. */
export const placeSays = ['with the key at {place}', 'when the key is at {place}', 'at {place}'] as const;

/** A battery that does not last; {days} is a rounded time. */
export const drainSays = [
  'the battery is flat after {days} of standing',
  'it will not start after {days} in the garage, and the battery is empty',
  'if I leave it for {days}, the battery is dead',
] as const;

export const filled = (text: string, words: Readonly<Record<string, string>>): string =>
  text.replace(/\{(\w+)\}/g, (whole, name: string) => words[name] ?? whole);

/** A sentence of its parts: first letter large, a full stop. */
export const sentence = (text: string): string => {
  const trimmed = text.trim();
  return `${trimmed[0]!.toUpperCase()}${trimmed.slice(1)}.`;
};

/** What this tab remembers over a reload. A browser may forbid it: then nothing is remembered, and nothing else happens. */
export const tabMemory = {
  get: (place: string): string | null => {
    try {
      return sessionStorage.getItem(place);
    } catch {
      return null;
    }
  },
  set: (place: string, text: string): void => {
    try {
      sessionStorage.setItem(place, text);
    } catch {
      // Forgotten on reload: the job kept last is opened then.
    }
  },
};

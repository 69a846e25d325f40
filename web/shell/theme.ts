export type Theme = 'light' | 'dark';
const place = 'detent-theme';

/** What the user chose; undefined follows the system. Private windows may forbid storage: then nothing is remembered. */
export function rememberedTheme(): Theme | undefined {
  try {
    const kept = localStorage.getItem(place);
    return kept === 'light' || kept === 'dark' ? kept : undefined;
  } catch {
    return undefined;
  }
}

/** What the system asks for; it may turn dark in the evening. */
export const systemDark = matchMedia('(prefers-color-scheme: dark)');

export function shownTheme(): Theme {
  return rememberedTheme() ?? (systemDark.matches ? 'dark' : 'light');
}

export function applyTheme(theme: Theme | undefined): void {
  if (theme) document.documentElement.dataset['theme'] = theme;
}

export function changeTheme(): void {
  const theme: Theme = shownTheme() === 'dark' ? 'light' : 'dark';
  applyTheme(theme);
  try {
    localStorage.setItem(place, theme);
  } catch {
    // Shown now, forgotten on reload.
  }
}

let isLoading = false;

/** Fetches the Circuit view with its editor when it is first shown; the first load of the page goes without. */
export function loadCircuitView(): void {
  if (isLoading) return;
  isLoading = true;
  void import('./register.ts').then(({ registerCircuitView }) => registerCircuitView());
}

let loading: Promise<unknown> | undefined;

/** Fetches the Circuit view with its editor when it is first shown; the first load of the page goes without. */
export function loadCircuitView(): void {
  loading ??= import('./register.ts').then(({ registerCircuitView }) => registerCircuitView());
}
